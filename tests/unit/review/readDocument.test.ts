import { describe, expect, it } from 'vitest';
import { emptyPlan } from '../../../src/plan/plan.ts';
import { analyse } from '../../../src/review/analyse.ts';
import {
  clocksOf,
  documentOf,
  largestDocument,
  readDocument,
  stateOf,
  writeDocument,
} from '../../../src/review/readDocument.ts';
import { courseOf, cross, exampleDocument, inCross, took } from './example.ts';

const course = courseOf('barJump', 'tunnel', 'weavePoles');
const document = exampleDocument(
  course,
  [
    took(1, 'in', 100),
    took(1, 'out', 112),
    took(2, 'in', 160),
    took(2, 'out', 200),
    inCross('cueBegins', 60, 'feet'),
  ],
  [cross('front')],
);

/** The document with one thing changed, as hand-edited JSON would have it. */
function spoilt(change: (d: Record<string, never>) => void): string {
  const copy: Record<string, never> = JSON.parse(JSON.stringify(document));
  change(copy);
  return JSON.stringify(copy);
}

/** Alters the first footage. */
function put(d: Record<string, unknown>, part: Record<string, unknown>): void {
  Object.assign((d['footage'] as Record<string, unknown>[])[0] ?? {}, part);
}
const cutTo = (d: Record<string, unknown>, cut: unknown): void => {
  put(d, { cut });
};

function problemsOf(text: string): string {
  const reading = readDocument(text);
  if (reading.ok) throw new Error('this should not have been read');
  return reading.problems.join('\n');
}

describe('a review file', () => {
  it('comes back as it was written', () => {
    const reading = readDocument(writeDocument(document));
    expect(reading).toEqual({ ok: true, document });
  });

  it('keeps a cut, the runs in a clip and the doubt about a speed', () => {
    const extra = {
      cut: { from: document.footage[0]?.clip.pts[3] ?? 0, to: document.footage[0]?.clip.pts[90] ?? 0 },
      runs: [
        { id: 'r1', from: document.footage[0]?.clip.pts[3] ?? 0, to: null, dog: 'Kees', handler: 'Ans' },
      ],
      speed: [{ from: 0, speed: 0.25, plusMinus: 0.01 }],
    };
    const text = spoilt((d) => {
      put(d, extra);
    });
    const reading = readDocument(text);
    expect(reading.ok && reading.document.footage[0]).toMatchObject(extra);
    expect(reading.ok && readDocument(writeDocument(reading.document))).toEqual(reading);
  });

  it('reads a file of version 1 as one of today', () => {
    const reading = readDocument(spoilt((d) => Object.assign(d, { version: 1 })));
    expect(reading).toEqual({ ok: true, document });
  });

  it('reads a file of version 5: its plan keeps crosses and notes, and says nothing else', () => {
    const older = { crosses: [{ id: 'p', place: 1, kind: 'front' }], notes: 'Watch the poles.' };
    const reading = readDocument(spoilt((d) => Object.assign(d, { version: 5, plan: older })));
    const crosses = [{ ...older.crosses[0], reason: '' }];
    expect(reading.ok && reading.document.plan).toEqual({ ...emptyPlan(), ...older, crosses });
    expect(reading.ok && reading.document.version).toBe(8);
  });

  it('reads a file of version 6, and keeps what version 7 may say of a run', () => {
    expect(readDocument(spoilt((d) => Object.assign(d, { version: 6 })))).toEqual({ ok: true, document });
    const said = {
      official: { time: 38.12, courseFaults: 5, eliminated: true },
      sections: [{ id: 's', name: 'Opening', from: 0, to: 1 }],
      work: { first: ['bar'], notNow: ['stay'] },
    };
    const reading = readDocument(headed(said));
    expect(reading.ok && reading.document.header).toMatchObject(said);
    expect(reading.ok && readDocument(writeDocument(reading.document))).toEqual(reading);
  });

  it('reads a file of version 7, and keeps the coach’s hand in the report', () => {
    expect(readDocument(spoilt((d) => Object.assign(d, { version: 7 })))).toEqual({ ok: true, document });
    const report = {
      without: ['m1'],
      own: [{ of: 'cross:c1', text: 'Sooner.', instead: 'The cue came late.' }],
      forCoach: 'Ask about the stay.',
    };
    const reading = readDocument(headed({ report }));
    expect(reading.ok && reading.document.header.report).toEqual(report);
    expect(reading.ok && readDocument(writeDocument(reading.document))).toEqual(reading);
  });

  it('keeps everything that a plan may say, and the plans beside it', () => {
    const sheet = {
      name: 'From behind',
      wait: { x: 1, y: 2 },
      leadOut: { x: 8, y: 2.5 },
      sides: [{ after: 0, side: 'left' }],
      supports: [{ id: 's', place: 1, until: 'committed', at: { x: 4, y: 3 } }],
      crosses: [
        {
          ...{ id: 'p', place: 1, kind: 'front', reason: '', secondChoice: 'rear' },
          ...{ at: { x: 9, y: 2 }, secondAt: { x: 5, y: 2 } },
        },
      ],
      wantedLine: {
        nodes: [
          { x: 1, y: 2 },
          { x: 9, y: 2 },
        ],
        tension: 0.5,
      },
      pace: { topSpeed: 5, pickUp: 3, turnSeconds: 0.6 },
      landings: [{ number: 1, at: { x: 7, y: 2 } }],
      notes: '',
    };
    const plan = { ...sheet, others: [{ ...sheet, name: 'Ahead of her' }] };
    const reading = readDocument(spoilt((d) => Object.assign(d, { plan })));
    expect(reading.ok && reading.document.plan).toEqual(plan);
    expect(reading.ok && readDocument(writeDocument(reading.document))).toEqual(reading);
  });

  it('tells the same figures after the round trip through state and document', () => {
    const clips = new Map(document.footage.map((f) => [f.clipId ?? '', f.clip]));
    const again = readDocument(writeDocument(documentOf(stateOf(document), clips)));
    if (!again.ok) throw new Error(again.problems.join('\n'));
    expect(analyse(stateOf(again.document), clocksOf(again.document))).toEqual(
      analyse(stateOf(document), clocksOf(document)),
    );
  });

  it('may have an empty course and no footage', () => {
    const bare = { format: 'walkback.review', version: 1, id: 'b', header: { title: 'Bare' } };
    expect(readDocument(JSON.stringify(bare)).ok).toBe(true);
  });

  it('may start with a byte order mark', () => {
    expect(readDocument(`\uFEFF${writeDocument(document)}`).ok).toBe(true);
  });
});

/** What a plan may not say, each as a part of the plan. */
const planMistakes: [string, string, RegExp][] = (
  [
    ['a support beyond the course', { supports: [{ id: 's', place: 9, until: 'in' }] }, /support "s" names/],
    ['a side beyond the course', { sides: [{ after: 9, side: 'left' }] }, /stated side.*names obstacle 9/],
    ['a landing beyond the course', { landings: [{ number: 9, at: { x: 0, y: 0 } }] }, /landing.*obstacle 9/],
    ['a pace of nought', { pace: { topSpeed: 0, pickUp: 3, turnSeconds: 1 } }, /pace\.topSpeed/],
    ['a spot that is no number', { wait: { x: '3', y: 0 } }, /wait\.x/],
    ['a wanted line of one node', { wantedLine: { nodes: [{ x: 0, y: 0 }], tension: 0 } }, /nodes/],
    [
      'a cross beyond the course in a plan beside it',
      { others: [{ crosses: [{ id: 'p', place: 9, kind: 'rear' }] }] },
      /planned cross "p" names obstacle 9/,
    ],
  ] as const
).map(([name, plan, expected]) => [name, spoilt((d) => Object.assign(d, { plan })), expected]);

/** The file with more in its header. */
function headed(more: Readonly<Record<string, unknown>>): string {
  return spoilt((d) => Object.assign(d, { header: { ...document.header, ...more } }));
}

const sectionTo = (to: unknown) => ({ id: 's', name: 'Opening', from: 0, to });

describe('bad review files', () => {
  const cases: [string, string, RegExp][] = [
    ['nothing', '', /empty/],
    ['white space', ' \n\t', /empty/],
    ['no JSON', '{"format": "walkback.review",', /not JSON/],
    ['a rule book', '{"format": "walkback.rules"}', /a rule book.*Settings/],
    ['the file of a dog', '{"format": "walkback.dog"}', /the file of a dog.*page Dog/],
    ['NaN written out', writeDocument(document).replace('"pts":100', '"pts":NaN'), /not JSON/],
    [
      'a number too large for a double',
      writeDocument(document).replace('"pts":100', '"pts":1e999'),
      /marks\.0\.pts/,
    ],
    ['another kind of JSON', '{"a": 1}', /not a review file/],
    ['an array', '[]', /not a review file/],
    ['a cut that ends before it begins', spoilt((d) => cutTo(d, { from: 20, to: 10 })), /before it begins/],
    ['a cut outside of the clip', spoilt((d) => cutTo(d, { from: 0, to: 1e9 })), /outside of the clip/],
    ['a cut that is no number', spoilt((d) => cutTo(d, { from: 'NaN', to: 10 })), /cut\.from/],
    ['a cut between ticks', spoilt((d) => cutTo(d, { from: 0.5, to: 10 })), /cut\.from/],
    ['a cut with one end', spoilt((d) => cutTo(d, { from: 0 })), /cut\.to/],
    [
      'a run outside of the clip',
      spoilt((d) => put(d, { runs: [{ id: 'r', from: 5, to: 1e9, dog: 'Kees' }] })),
      /the run of Kees/,
    ],
    [
      'two runs with one id',
      spoilt((d) => put(d, { runs: [5, 6].map((from) => ({ id: 'r', from, to: null })) })),
      /run id "r" occurs more than once/,
    ],
    [
      'a speed that may be nothing',
      spoilt((d) => put(d, { speed: [{ from: 0, speed: 0.25, plusMinus: 0.3 }] })),
      /speed map is not usable/,
    ],
    [
      'a section beyond the course',
      headed({ sections: [sectionTo(99)] }),
      /section "Opening" names obstacle 99/,
    ],
    [
      'two sections with one id',
      headed({ sections: [sectionTo(1), sectionTo(1)] }),
      /section id "s" occurs more than once/,
    ],
    ['an official time below nought', headed({ official: { time: -1 } }), /official\.time/],
    ['a theme that there is not', headed({ work: { first: ['toString'] } }), /work\.first/],
    ['a newer version', spoilt((d) => Object.assign(d, { version: 9 })), /version 9.*Update the program/s],
    ['a version that is no version', spoilt((d) => Object.assign(d, { version: 'one' })), /version/],
    ['an unknown key', spoilt((d) => Object.assign(d, { extra: 1 })), /extra/],
    ['half a frame', writeDocument(document).replace('"pts":100', '"pts":100.5'), /marks\.0\.pts/],
    [
      'a time before the footage',
      writeDocument(document).replace('"pts":100', '"pts":-5'),
      /outside the footage "film.mp4"/,
    ],
    [
      'a time after the footage',
      writeDocument(document).replace('"pts":100', '"pts":99999'),
      /outside the footage/,
    ],
    ['a negative unsure', writeDocument(document).replace('"unsure":0', '"unsure":-1'), /unsure/],
    [
      'a repeated number',
      writeDocument(document).replace('"number":2', '"number":1'),
      /number 1 occurs more than once/,
    ],
    ['a skipped number', writeDocument(document).replace('"number":3', '"number":4'), /number 3 is missing/],
    [
      'a number on nothing',
      writeDocument(document).replace('"obstacleId":"o3"', '"obstacleId":"gone"'),
      /number 3 stands on "gone"/,
    ],
    [
      'a mark on no footage',
      writeDocument(document).replace('"footageId":"film"', '"footageId":"lost"'),
      /footage "lost"/,
    ],
    ['a mark of no cross', writeDocument(document).replace('"crossId":"x"', '"crossId":"y"'), /cross "y"/],
    [
      'a place beyond the course',
      writeDocument(document).replace('"place":2', '"place":9'),
      /obstacle 9.*numbers 1 to 3/s,
    ],
    [
      'frame times that stand still',
      writeDocument(document).replace('0,1,2,3,', '0,1,1,3,'),
      /Frame 2 does not come after frame 1/,
    ],
    [
      'a time base of nought',
      writeDocument(document).replace('"timeBase":[1,30]', '"timeBase":[0,30]'),
      /timeBase/,
    ],
    ...planMistakes,
    ['a hash that is none', writeDocument(document).replace('a'.repeat(64), 'xyz'), /sha256/],
  ];
  it.each(cases)('%s', (_, text, expected) => {
    expect(problemsOf(text)).toMatch(expected);
  });

  it('repeated ids', () => {
    const twice = spoilt((d) => Object.assign(d, { marks: [document.marks[0], document.marks[0]] }));
    expect(problemsOf(twice)).toMatch(/occurs more than once/);
  });

  it('an oversized file, without parsing it', () => {
    expect(problemsOf(' '.repeat(largestDocument + 1))).toMatch(/too large/);
  });

  it('ten thousand mistakes are told by the first few', () => {
    const many = spoilt((d) => Object.assign(d, { marks: Array.from({ length: 10_000 }, () => ({})) }));
    const reading = readDocument(many);
    const problems = reading.ok ? [] : reading.problems;
    expect(problems).toHaveLength(21);
    expect(problems.at(-1)).toBe(`And ${new Intl.NumberFormat('en-GB').format(9980)} more problems.`);
  });

  it('deeply nested and prototype-laden JSON is refused like any other', () => {
    expect(problemsOf('['.repeat(100_000))).toMatch(/not JSON|not a review file/);
    expect(problemsOf('{"__proto__": {"format": "walkback.review"}}')).toMatch(/not a review file/);
  });
});
