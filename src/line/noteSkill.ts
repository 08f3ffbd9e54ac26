import {
  entryBands,
  entrySides,
  type DogSkills,
  type DoneOf,
  type EntryBand,
  type EntrySide,
} from './skills.ts';

/** The skills with a count of weave entries of this side and angle; undefined: not known any more. */
export function withEntry(
  skills: DogSkills,
  side: EntrySide,
  band: EntryBand,
  count: DoneOf | undefined,
): DogSkills {
  const others = skills.weaveEntries.filter((e) => e.side !== side || e.band !== band);
  const all = count === undefined ? others : [...others, { side, band, count }];
  const place = (e: { side: EntrySide; band: EntryBand }): number =>
    entrySides.indexOf(e.side) * entryBands.length + entryBands.indexOf(e.band);
  return { ...skills, weaveEntries: all.toSorted((a, b) => place(a) - place(b)) };
}

/** The skills with one that may be absent; undefined: not known any more. */
export function withSkill<K extends 'rearCrossAtPoles' | 'stay' | 'sentMetres'>(
  skills: DogSkills,
  name: K,
  value: DogSkills[K] | undefined,
): DogSkills {
  const { [name]: _was, ...others } = skills;
  return (value === undefined ? others : { ...others, [name]: value }) as DogSkills;
}

/** Whether she turns this way on a word; undefined: not known any more. */
export function withTurn(skills: DogSkills, way: 'left' | 'right', turns: boolean | undefined): DogSkills {
  const { [way]: _was, ...others } = skills.verbalTurns;
  return { ...skills, verbalTurns: turns === undefined ? others : { ...others, [way]: turns } };
}
