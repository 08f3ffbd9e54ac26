/** A figure of the dog that no published source gives: what is assumed, between which bounds, and why. */
export interface Assumed {
  readonly least: number;
  readonly usual: number;
  readonly most: number;
  readonly unit: 'm' | 'm/s' | 'm/s2' | 'degrees' | 's';
  readonly why: string;
}

const assume = (least: number, usual: number, most: number, unit: Assumed['unit'], why: string): Assumed => ({
  least,
  usual,
  most,
  unit,
  why,
});

/**
 * How a dog runs, as far as a line needs it: what is assumed until her runs say otherwise. No published figure was
 * found for any of them but where `why` names one.
 */
export const assumedRunner = {
  topSpeed: assume(5.2, 6.2, 7.2, 'm/s', 'gallop between obstacles; common practice'),
  pickUp: assume(4, 6, 8, 'm/s2', 'speeding up on the ground'),
  braking: assume(5, 7, 9, 'm/s2', 'slowing down before a turn'),
  grip: assume(6, 8, 10, 'm/s2', 'sideways on dry grass, somewhat under 1 g'),
  leastRadius: assume(0.7, 0.9, 1.2, 'm', 'tightest turn on the ground'),
  takeOff: assume(1.4, 1.7, 2.1, 'm', 'last hind paw to the bar, along the flight'),
  landing: assume(1, 1.4, 2, 'm', 'bar to the first front paw, along the flight'),
  sliceMost: assume(30, 40, 50, 'degrees', 'how obliquely she takes a bar'),
  besideWing: assume(0.15, 0.25, 0.4, 'm', 'middle of the dog to whatever is solid'),
  tunnelSpeed: assume(4.8, 5.5, 6.2, 'm/s', 'through a tunnel'),
  weaveSpeed: assume(2.2, 2.7, 3.2, 'm/s', 'along the poles'),
  aFrameSpeed: assume(3.4, 4.2, 5, 'm/s', 'over an A-frame, on the plan'),
  dogWalkSpeed: assume(4.2, 4.9, 5.6, 'm/s', 'DiMichele et al. 2024: 2.26 s for 10.8 to 11.4 m'),
  seeSawSpeed: assume(2.6, 3.3, 4, 'm/s', 'along a see-saw'),
  seeSawWait: assume(0.3, 0.5, 0.8, 's', 'until it has tipped'),
  committedAt: assume(2.5, 4, 6, 'm', 'to the bar or entry, from where she takes it without help'),
  tableWait: assume(0.5, 1, 1.5, 's', 'on the table where no time is set'),
} as const satisfies Record<string, Assumed>;

/** How a dog runs, in plain numbers of the units of `assumedRunner`. */
export type Runner = { readonly [K in keyof typeof assumedRunner]: number };

const names = Object.keys(assumedRunner) as (keyof Runner)[];

/** The runner as usually assumed, but for what is known of this dog. */
export function runnerWith(known: Partial<Runner> = {}): Runner {
  const usual = Object.fromEntries(names.map((name) => [name, known[name] ?? assumedRunner[name].usual]));
  return usual as Runner;
}
