/** What tells one plan from another at a glance. */
export interface SheetFacts {
  /** The least time to spare over its crosses, in words; null where it is not known. */
  readonly least: string | null;
  /** True where that is no time to spare. */
  readonly late: boolean;
}
