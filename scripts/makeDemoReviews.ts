import { createHash } from 'node:crypto';
import { readFile, writeFile } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import { Plan } from '../src/plan/plan.ts';
import { Header, reviewVersion, type ReviewDocument } from '../src/review/document.ts';
import { readDocument, writeDocument } from '../src/review/readDocument.ts';
import { courseOfTruth, marksOfTruth } from './demoMarks.ts';
import { fitOfTruth, tracksOfTruth } from './demoTracks.ts';
import { CourseTruth, RunTruth } from './demoTruth.ts';
import { plannedCourse } from './plannedCourse.ts';
import { plannedHandling, plannedHeader } from './plannedHandling.ts';

/**
 * Makes the demo's review files: three from the truth of its films (run it after scripts/makeDemoFilms.ts), and one of a
 * course that is planned and not run yet, without footage.
 */
const folder = fileURLToPath(new URL('../fixtures/demo/', import.meta.url));

const plan = Plan.parse({
  crosses: [
    {
      id: 'planned-3',
      place: 3,
      kind: 'front',
      reason: 'Turns her to the gate, away from the red tunnel that lies straight on.',
      secondChoice: 'rear',
    },
    { id: 'planned-11', place: 11, kind: 'rear', reason: 'She leaves the A-frame ahead of me.' },
    { id: 'planned-15', place: 15, kind: 'blind', reason: 'The see-saw gives me the time to change sides.' },
  ],
  notes: 'Watch the poles: from the spread she comes in at an angle.',
});

const words = {
  late: {
    wentWell: 'A lovely even dog walk, and after the second set-up she waited for the word.',
    toTrain:
      'Show the front cross at 3 while she is still running to it.\nThe entry of the poles from an angle, slowly at first.',
    notes: '',
    leaveNamesOut: false,
  },
  better: {
    wentWell:
      'She held the stay through a fake, and the front cross at 3 was there long before she needed it.',
    toTrain:
      'The rear cross at 11: wait one breath more, until she has decided to take it.\nKeep the start-line game going: fakes in between, never two the same.',
    notes: '',
    leaveNamesOut: false,
  },
  empty: { wentWell: '', toTrain: '', notes: '', leaveNamesOut: false },
};

const reviews = [
  {
    file: 'first-evening',
    run: 'run-a',
    id: 'demo-first-evening',
    title: 'First evening: a cue too late',
    day: '2026-04-18',
    marked: true,
    // Left to the coach: fitting the course and marking a line from the first click on.
    measured: false,
    words: words.late,
  },
  {
    file: 'a-month-later',
    run: 'run-b',
    id: 'demo-a-month-later',
    title: 'A month later: the same course',
    day: '2026-05-16',
    marked: true,
    measured: true,
    words: words.better,
  },
  {
    file: 'mark-it-yourself',
    run: 'run-b',
    id: 'demo-mark-it-yourself',
    title: 'Mark it yourself',
    day: '2026-05-16',
    marked: false,
    measured: false,
    words: words.empty,
  },
];

const course = courseOfTruth(
  CourseTruth.parse(JSON.parse(await readFile(`${folder}course.truth.json`, 'utf8'))),
);

for (const r of reviews) {
  const truth = RunTruth.parse(JSON.parse(await readFile(`${folder}${r.run}.truth.json`, 'utf8')));
  const film = await readFile(`${folder}${truth.film}`);
  const { marks, crosses } = marksOfTruth(truth, 'film', r.file);
  const document: ReviewDocument = {
    format: 'walkback.review',
    version: reviewVersion,
    id: r.id,
    header: Header.parse({
      title: r.title,
      dog: 'Bramble',
      handler: 'Ines',
      stage: 'growing',
      runKind: 'training',
      day: r.day,
      words: r.words,
    }),
    course,
    plan,
    footage: [
      {
        id: 'film',
        name: truth.film,
        speed: [],
        offset: 0,
        rate: 1,
        clip: {
          sha256: createHash('sha256').update(film).digest('hex'),
          bytes: film.byteLength,
          path: truth.film,
          width: 1280,
          height: 720,
          rotation: 0,
          codec: 'h264',
          timeBase: truth.frames.timeBase,
          pts: truth.frames.pts,
        },
      },
    ],
    marks: r.marked ? marks : [],
    crosses: r.marked ? crosses : [],
    drawings: [],
    tracks: r.measured ? tracksOfTruth(truth, 'film', r.file) : [],
    fits: r.measured ? [fitOfTruth(truth, course, 'film', r.file)] : [],
  };
  await keep(r.file, document);
}

// Its name comes first of all, so that a film and not this one stands at the top of a new library.
await keep('a-course-to-plan', {
  format: 'walkback.review',
  version: reviewVersion,
  id: 'demo-course-to-plan',
  header: plannedHeader,
  course: plannedCourse(),
  plan: plannedHandling,
  footage: [],
  marks: [],
  crosses: [],
  drawings: [],
  tracks: [],
  fits: [],
});

async function keep(file: string, document: ReviewDocument): Promise<void> {
  const text = writeDocument(document);
  const again = readDocument(text);
  if (!again.ok) throw new Error(`${file}: ${again.problems.join('; ')}`);
  await writeFile(`${folder}${file}.walkback.json`, text);
  console.log(`${file}.walkback.json: ${document.marks.length} marks, ${document.crosses.length} crosses`);
}
