import { listed, plural } from './locale.ts';

/** Words of the Report screen. The report file itself has a catalogue of its own (coachingReport.ts). */
export const reportWords = {
  title: 'Report',
  acts: {
    write: 'Write the report',
    open: 'Open the report',
    save: 'Save a copy',
    figures: 'Save the figures',
    toTrain: 'Put it in my words',
  },
  words: {
    title: 'Your words',
    wentWell: 'What went well',
    wentWellHint: 'Comes first in the report. What the figures say well follows it by itself.',
    toTrain: 'To train',
    toTrainHint: 'One or two things, a line each. More than two rarely get trained.',
    tooMany: (n: number) => `These are ${n} things. One or two are easier to train.`,
    notes: 'Notes',
    notesHint: 'Anything else the student should have in hand.',
    leaveNamesOut: 'Leave names out',
    leaveNamesOutHint:
      'Dog and handler are then “the dog” and “the handler”, also where your own words name them.',
  },
  run: {
    title: 'About the run',
    name: 'Title',
    dog: 'Dog',
    handler: 'Handler',
    day: 'Day',
    kind: 'Kind of run',
    kinds: { training: 'training', trial: 'trial', class: 'in class' },
    stage: 'The dog is',
    stages: { green: 'green', growing: 'growing', finished: 'finished' },
    stride: 'One stride of this dog, seconds',
    strideHint: 'What “in time” asks for at a cross. 0.40 s is assumed until you know it.',
    badStride: 'A stride takes between 0.1 and 2 seconds. It stays as it was.',
  },
  file: {
    title: 'The report',
    intro:
      'One file with everything in it: summary, splits, crosses with their stills, start line, events, your words.',
    write: 'Write the report',
    again: 'Write it again',
    writing: 'Writing…',
    stop: 'Stop',
    open: 'Open',
    save: 'Save a copy',
    saved: 'A copy was saved.',
    figures: 'Save the figures',
    figuresHint:
      'Tables (CSV), captions for the clips (WebVTT) and everything measured (JSON), in one archive.',
    figuresSaved: 'The figures were saved.',
    place: 'Written to',
    size: 'Size',
    upToDate: 'It shows the review as it is now.',
    changed: 'The review has changed since. Write it again to bring the file up to date.',
  },
  written: (name: string) => `The report was written: ${name}.`,
  notWritten: (why: string) => `The report could not be written. ${why}`,
  glance: {
    title: 'What it will say',
    clock: 'On the clock',
    noClock: 'not timed yet',
    taken: 'Obstacles',
    crosses: 'Crosses',
    noCrosses: 'none marked',
    stay: 'Start line',
    noStay: 'not marked',
    events: 'Noted on the way',
    eventCount: (n: number) => plural(n, { one: '# event', other: '# events' }),
    warnings: (n: number) =>
      plural(n, {
        one: '# thing does not fit together yet; it is named in the report.',
        other: '# things do not fit together yet; they are named in the report.',
      }),
    nothing: 'Nothing is marked yet. A report can be written all the same; it will say so.',
    noFootage:
      'This run has no footage yet, so nothing can be marked. A report can be written all the same: it shows the course, names what is planned, and says so.',
    none: 'The figures cannot be worked out at the moment.',
    toReview: 'Go to the marks',
  },
  workOn: {
    title: 'What this run says to work on',
    intro: 'A proposal, by what was marked and the dog’s stage. Your own words go before it.',
    nothing: 'Nothing that was marked asks for work. Enjoy it.',
    onlyNoted: 'Also seen, for another day:',
    at: (places: readonly number[]): string =>
      places.length === 0 ? '' : `at ${listed(places.map(String))}`,
    tries: (tries: readonly number[]): string =>
      tries.length === 1 ? `try ${String(tries[0])}` : `tries ${listed(tries.map(String))}`,
    look: 'Look at it',
    isIn: 'It stands in your words.',
    put: 'What to train, in your words',
  },
  cautions: 'Every report says',
  labels: {
    words: 'Words of the report',
    names: 'Names in the report',
    run: 'About the run',
  },
} as const;
