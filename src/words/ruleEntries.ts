import type { RuleBook } from '../course/rules/book.ts';
import { entriesOf, type RuleNamed } from '../course/rules/entries.ts';
import type { Range, RangeByCategory } from '../course/rules/entry.ts';
import type { FaultKind, RunKind, TimeRule, TimeRuleFor } from '../course/rules/runRules.ts';
import { scoringEntries } from './ruleEntriesScoring.ts';
import { listed } from './locale.ts';
import { obstacleWords } from './trade.ts';

type Dialect = 'british' | 'american';

/** An entry of a rule book for the reader: what it is about, and what it says, a line each. */
export interface EntryTold {
  readonly rule: RuleNamed;
  readonly label: string;
  readonly told: readonly string[];
}

export interface EntryGroup {
  readonly title: string;
  readonly entries: readonly EntryTold[];
}

const equipmentLabels: Record<string, string> = {
  barLength: 'length of the bar',
  barDiameter: 'diameter of the bar',
  wingWidth: 'width of a wing',
  wingHeight: 'height of a wing',
  wingFilled: 'how high the wing is closed',
  heightStep: 'how much higher the back bar lies',
  backBarLonger: 'how much longer the back bar is',
  depth: 'depth',
  thickness: 'thickness',
  aperture: 'aperture',
  centreHeight: 'height of the centre',
  length: 'length',
  units: 'units',
  frontUnitHeight: 'height of the front unit',
  backUnitHeight: 'height of the back unit',
  unitWidth: 'width of a unit',
  unitDepth: 'depth of a unit',
  diameter: 'diameter',
  poles: 'poles',
  spacing: 'from pole to pole',
  poleHeight: 'height of the poles',
  poleDiameter: 'diameter of the poles',
  apex: 'height of the ridge',
  rampLength: 'length of a ramp',
  widthAtTop: 'width at the top',
  widthAtBase: 'width at the base',
  contactLength: 'length of a contact zone',
  plankLength: 'length of a plank',
  plankWidth: 'width of a plank',
  height: 'height',
  pivotHeight: 'height of the pivot',
  side: 'side',
};

const faultLabels: Record<FaultKind, string> = {
  knockDown: 'Faults for a bar down',
  missedContact: 'Faults for a missed contact',
  refusal: 'Faults for a refusal',
  handlerTouch: 'Faults for a handler touch',
};

const runLabels: Record<RunKind, string> = {
  trial: 'At a trial',
  class: 'In a class',
  training: 'In training',
};

const labels: Readonly<Record<string, string>> = {
  categories: 'Height categories of dogs',
  bars: 'Heights of bars',
  'course.obstacles': 'Count of obstacles',
  'course.hurdles': 'Count of hurdles',
  'course.spacing': 'Distance from obstacle to obstacle',
  'course.ring': 'Size of the ring',
  'course.area': 'Ground of the course within the ring',
  'course.length': 'Length of the course',
  'course.lengthMeasured': 'How the length is measured',
  'scoring.refusals': 'What is a refusal',
  'scoring.lastRefusal': 'The refusal that ends a run',
  'scoring.contacts': 'Contact zones that are judged',
  'scoring.pawsToLeave': 'When an obstacle is left',
  'scoring.eliminations': 'What ends a run',
  'scoring.timeFaults': 'Faults for time',
  'scoring.resultClasses': 'Classes of result',
  'scoring.ranking': 'Ranking',
};

/** What an entry is about, by its name in the book. A name that is not known is told as it is. */
export function entryLabel(name: string, dialect: Dialect): string {
  const known = labelIn(labels, name);
  if (known !== undefined) return known;
  const [part = '', group = '', piece = ''] = name.split('.');
  if (part === 'times') return group === 'standard' ? 'Standard course time' : 'Maximum course time';
  if (part === 'equipment') {
    const [kind, what] = [labelIn(obstacleWords[dialect], group), labelIn(equipmentLabels, piece)];
    if (kind !== undefined && what !== undefined) return `${sentenceCase(kind)}: ${what}`;
  }
  if (part === 'scoring' && group === 'levels') return 'Level';
  if (part === 'scoring' && group === 'faults') return labelIn(faultLabels, piece) ?? name;
  if (part === 'scoring' && group === 'runs') return labelIn(runLabels, piece) ?? name;
  return name;
}

const labelIn = (all: Readonly<Record<string, string>>, key: string): string | undefined =>
  Object.hasOwn(all, key) ? all[key] : undefined;

const sentenceCase = (text: string): string => `${text.slice(0, 1).toLocaleUpperCase()}${text.slice(1)}`;

const groupTitles = {
  dogs: 'Dogs and bars',
  course: 'The course',
  times: 'Course times',
  equipment: 'Equipment',
  scoring: 'Scoring',
} as const;

/** A whole rule book for the reader, in groups. Figures stand as the book has them: cm, m, s. */
export function bookTold(book: RuleBook, dialect: Dialect): readonly EntryGroup[] {
  const told = valuesTold(book, dialect);
  const groups: Record<keyof typeof groupTitles, EntryTold[]> = {
    dogs: [],
    course: [],
    times: [],
    equipment: [],
    scoring: [],
  };
  for (const { value: _, ...rule } of entriesOf(book)) {
    const part = rule.name.split('.')[0] ?? '';
    const group = part in groups ? (part as keyof typeof groupTitles) : 'dogs';
    groups[group].push({ rule, label: entryLabel(rule.name, dialect), told: told.get(rule.name) ?? [] });
  }
  return (Object.keys(groupTitles) as (keyof typeof groupTitles)[])
    .map((key) => ({ title: groupTitles[key], entries: groups[key] }))
    .filter(({ entries }) => entries.length > 0);
}

/** What each entry says, by its name. */
function valuesTold(book: RuleBook, dialect: Dialect): ReadonlyMap<string, readonly string[]> {
  return new Map([
    ...dogEntries(book),
    ...courseEntries(book, dialect),
    ...timeEntries('times.standard', book.times.standard),
    ...timeEntries('times.maximum', book.times.maximum),
    ...equipmentEntries(book),
    ...scoringEntries(book, dialect),
  ]);
}

type Told = readonly [string, readonly string[]];

const range = ({ least, most }: Range, unit: string): string =>
  least === most ? `${String(least)}${unit}` : `${String(least)} to ${String(most)}${unit}`;

const byCategory = (list: RangeByCategory, unit: string): readonly string[] =>
  list.map((r) => `${r.category}: ${range(r, unit)}`);

function dogEntries({ categories, bars }: RuleBook): Told[] {
  return [
    ...(categories
      ? [
          [
            'categories',
            categories.value.map(({ id, name, from, below }) => {
              const named = id === name ? id : `${id}, ${name}`;
              if (below === null) return `${named}: ${String(from)} cm and more`;
              if (from === 0) return `${named}: below ${String(below)} cm`;
              return `${named}: ${String(from)} cm to below ${String(below)} cm`;
            }),
          ] as const,
        ]
      : []),
    ...(bars ? [['bars', byCategory(bars.value, ' cm')] as const] : []),
  ];
}

function courseEntries({ course: c }: RuleBook, dialect: Dialect): Told[] {
  const told: Told[] = [];
  if (c.obstacles) {
    const { least, most } = c.obstacles.value;
    const [from, to] = [least, most].map(String);
    if (least !== undefined && most !== undefined) told.push(['course.obstacles', [`${from} to ${to}`]]);
    else if (least !== undefined) told.push(['course.obstacles', [`${from} at the least`]]);
    else told.push(['course.obstacles', [most === undefined ? 'any' : `${to} at the most`]]);
  }
  if (c.hurdles) {
    const kinds = c.hurdles.value.kinds.map((kind) => obstacleWords[dialect][kind]);
    told.push(['course.hurdles', [`${c.hurdles.value.least} at the least`, `counted: ${listed(kinds)}`]]);
  }
  if (c.spacing) {
    const how = { centres: 'centre to centre', ends: 'end of the one to beginning of the next' };
    told.push([
      'course.spacing',
      [how[c.spacing.value.measured], ...byCategory(c.spacing.value.byCategory, ' m')],
    ]);
  }
  for (const name of ['ring', 'area'] as const) {
    const entry = c[name];
    if (entry) told.push([`course.${name}`, [`${entry.value.width} m × ${entry.value.length} m`]]);
  }
  if (c.length) told.push(['course.length', [range(c.length.value, ' m')]]);
  if (c.lengthMeasured) {
    const how = {
      centres: 'straight from centre to centre',
      wheelPath: 'with a wheel along the path dogs will take',
    };
    told.push(['course.lengthMeasured', [how[c.lengthMeasured.value]]]);
  }
  return told;
}

function timeEntries(name: string, rules: readonly TimeRuleFor[]): Told[] {
  return rules.map(({ disciplines, levels, rule }, i): Told => [
    `${name}.${i}.rule`,
    [
      ...(disciplines ? [`for ${listed(disciplines)}`] : []),
      ...(levels ? [`for level ${listed(levels)}`] : []),
      timeRule(rule.value),
    ],
  ]);
}

function timeRule(rule: TimeRule): string {
  const rounded =
    'rounding' in rule && rule.rounding
      ? `, ${{ up: 'rounded up', nearest: 'rounded', down: 'cut' }[rule.rounding.way]} to ${String(rule.rounding.toSeconds)} s`
      : '';
  switch (rule.form) {
    case 'lengthOverSpeed':
      return rule.metresPerSecond === undefined
        ? `length of the course over the speed that the judge chooses${rounded}`
        : `length of the course over ${String(rule.metresPerSecond)} m/s${rounded}`;
    case 'bestTime':
      return `the best dog’s time and ${String(rule.addPercent)} % more${rounded}`;
    case 'timesStandard':
      return `${String(rule.usual)} × the standard course time, never below ${String(rule.least)} ×${rounded}`;
    case 'stated':
      return 'as the judge states it';
  }
}

/** Counts among the sizes of equipment; all others are centimetres. */
const counted: ReadonlySet<string> = new Set(['longJump.units', 'weavePoles.poles']);

function equipmentEntries({ equipment }: RuleBook): Told[] {
  return Object.entries(equipment).flatMap(([kind, sizes]) =>
    Object.entries(sizes ?? {}).flatMap(([name, entry]): Told[] => {
      if (!entry) return [];
      const unit = counted.has(`${kind}.${name}`) ? '' : ' cm';
      const { value } = entry as { readonly value: Range | RangeByCategory };
      const lines = Array.isArray(value) ? byCategory(value, unit) : [range(value, unit)];
      return [[`equipment.${kind}.${name}`, lines]];
    }),
  );
}
