import type { CourseFinding } from '../../../../src/course/courseFindings.ts';
import type { RuleNamed } from '../../../../src/course/rules/entries.ts';

/** What a rule of the book made of the course. */
export interface FindingGroup {
  readonly rule: RuleNamed;
  /** Not as the book asks. */
  readonly off: readonly CourseFinding[];
  /** Cannot be told. */
  readonly open: readonly CourseFinding[];
  readonly held: readonly CourseFinding[];
}

/** Findings rule by rule, in the order of the book, so that nothing jumps about while something is dragged. */
export function findingGroups(findings: readonly CourseFinding[]): readonly FindingGroup[] {
  const groups = new Map<string, { rule: RuleNamed } & Record<'off' | 'open' | 'held', CourseFinding[]>>();
  for (const f of findings) {
    const group = groups.get(f.rule.name) ?? { rule: f.rule, off: [], open: [], held: [] };
    groups.set(f.rule.name, group);
    const { verdict } = f.judgement;
    group[verdict === 'holds' ? 'held' : verdict === 'cannotTell' ? 'open' : 'off'].push(f);
  }
  return [...groups.values()];
}

/** How many findings of each sort there are in all. */
export function counted(groups: readonly FindingGroup[]): Record<'off' | 'open' | 'held', number> {
  const sum = (of: 'off' | 'open' | 'held'): number => groups.reduce((n, g) => n + g[of].length, 0);
  return { off: sum('off'), open: sum('open'), held: sum('held') };
}
