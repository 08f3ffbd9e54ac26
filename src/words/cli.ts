import { fileSize, plural } from './locale.ts';

/** Words of the command line. Errors name the file and say what to do, on one line. */
export const cliWords = {
  about:
    'Walkback on the command line: the demo, frame times, analysis and report of a review file, the library.',
  commands: {
    demo: 'Copy the demo into a folder: review files, clips and the truth the films were drawn from.',
    frames: 'Print the presentation time of every frame of a video.',
    analyse: 'Print what a review file’s marks say: splits, clock, crosses, start line, events.',
    report: 'Write the coaching report of a review file, as one HTML file or as PDF.',
    clip: 'Make a clip of a review file: its short clip, a cross, a stretch, or from one frame to another.',
    data: 'Write what a review file says as tables (CSV), captions (WebVTT) and JSON.',
    import: 'Bring videos and review files into the library.',
    list: 'List the reviews and clips of the library.',
    rules: 'Print a rule book, each entry with where it comes from; checks one that you wrote.',
    course: 'Write the course of a file as a drawing, a plan, a picture, a sheet for the walk, or as data.',
    schema: 'Print the JSON Schema of review files, course files or rule books.',
  },
  options: {
    out: 'folder to write to; made where it is missing',
    reportForm: 'html (opens anywhere), pdf (for paper) or both',
    short: 'one page, without stills',
    copy: 'whose copy: the coach’s own has her notes to herself',
    to: 'svg (drawing), pdf (plan), png (picture), sheet (PDF for the course walk) or json (data)',
    paper: 'size of the paper',
    scale: 'one to so many (default: the largest that fits)',
    unit: 'unit of lengths (default: the course’s own, else metres)',
    cross: 'the cross at this number, slowed and held where it is decided',
    stretch: 'the stretch that ends at this number',
    frames: 'from one frame to another, counted from 0, both included, as in 120-240',
    clip: 'which clip of the review the frames are of, counted from 1',
    slow: 'slow motion all through: 1/2, 1/4 or 1/8; 1 for none',
    hold: 'hold a frame for so many seconds, as in 180:2.5',
    caption: 'words under the frame that is held',
    bare: 'nothing drawn over the picture',
    sound: 'keep the sound where the clip runs at real speed',
    json: 'print JSON instead of text',
    library: 'folder of the library (default: your own)',
    version: 'print the version',
    help: 'show this help',
  },
  arguments: {
    video: 'a video file',
    review: 'a review file (*.walkback.json)',
    files: 'videos and review files',
    course: 'a course file (*.course.json), an SVG drawing that Walkback exported, or a review file',
    rules: 'a rule book (JSON); the FCI book of 2023 where none is named',
    schema: 'which file',
  },
  moreHelp: 'Run with --help to see what can be asked for.',

  noSuchFile: (path: string) => `${path}: there is no such file. Check the name and the folder.`,
  isFolder: (path: string) => `${path} is a folder. Name a file in it.`,
  notAFile: (path: string) => `${path} is not a plain file. Name a file on the disk.`,
  notReadable: (path: string) =>
    `${path} may not be read. Change its permissions, or copy it elsewhere first.`,
  unreadable: (path: string, detail: string) => `${path} could not be read: ${detail}.`,
  notText: (path: string) =>
    `${path} is not a text file, so it cannot be a review file. Choose another file.`,
  badReview: (path: string, problem: string, more: number) =>
    `${path} was not taken: ${problem}${more > 0 ? ` ${plural(more, { one: 'And # more problem.', other: 'And # more problems.' })}` : ''} Mend the file, or export the review again.`,
  tooNewReview: (path: string, problem: string) => `${path} was not taken: ${problem}`,
  internal: (detail: string) =>
    `Something went wrong in the program itself: ${detail}. Nothing was changed by this step.`,
  stopped: 'Stopped.',

  noSuchCross: (place: number) =>
    `No cross is marked at ${place} that a clip could be made of. See what is marked with “walkback analyse”.`,
  noSuchStretch: (place: number) =>
    `No stretch that ends at ${place} is marked on one clip. See what is marked with “walkback analyse”.`,
  badFrames: (text: string) => `“${text}” is not from one frame to another. Write it as 120-240.`,
  badHold: (text: string) =>
    `“${text}” is no frame and seconds to hold it. Write it as 180:2.5, 20 seconds at most.`,
  badPlace: (text: string) => `“${text}” is not a number of the course.`,
  wrote: (path: string, bytes: number) => `${path} (${fileSize(bytes)})`,
  noFootage: (name: string) =>
    `The footage “${name}” was not found beside the review file; the report is written without its pictures.`,
  otherFootage: (name: string, path: string) =>
    `${path} is not the footage “${name}” any more: its content differs. It was left out.`,
  someStills: (made: number, wanted: number) => `${made} of ${wanted} pictures could be made.`,

  noDemo: 'The demo is not in this copy of Walkback (the folder fixtures/demo is missing). Install it again.',
  inTheWay: (path: string) =>
    `${path} is there already and is another file. Choose an empty folder, or move it away first.`,
  copied: (n: number, folder: string) => `${plural(n, { one: '# file', other: '# files' })} in ${folder}`,

  framesTitle: (name: string, frames: number) =>
    `${name}: ${plural(frames, { one: '# frame', other: '# frames' })}`,
  timeBase: (num: number, den: number) => `time base ${num}/${den} s`,
  rotation: (degrees: number) => `shown turned by ${degrees}°`,
  frameColumns: ['frame', 'pts', 'seconds', 'to next'] as const,

  importedClip: (name: string, frames: number) =>
    `${name}: ${plural(frames, { one: '# frame', other: '# frames' })}`,
  importedReview: (name: string) => `${name}: review taken in`,
  notImported: (path: string, why: string) => `${path}: ${why}`,
  noLibrary: (folder: string) =>
    `There is no library in ${folder} yet. Bring something in first, or name another folder with --library.`,
  reviews: 'Reviews',
  clips: 'Clips',
  noReviews: 'No reviews yet.',
  noClips: 'No clips yet.',
  reviewLine: (r: { title: string; team: string; day: string; obstacles: number; marks: number }) =>
    [
      r.title,
      r.team,
      r.day,
      plural(r.obstacles, { one: '# obstacle', other: '# obstacles' }),
      plural(r.marks, { one: '# mark', other: '# marks' }),
    ]
      .filter((t) => t !== '')
      .join(' · '),
  clipLine: (c: { name: string; frames: number; width: number; height: number; codec: string }) =>
    `${c.name} · ${plural(c.frames, { one: '# frame', other: '# frames' })} · ${c.width} × ${c.height} · ${c.codec}`,

  notTextCourse: (path: string) =>
    `${path} is not a text file, so it cannot be a course. Choose another file.`,
  badCourse: (path: string, problems: readonly string[]) => `${path} was not taken: ${problems.join(' ')}`,

  notTextRules: (path: string) =>
    `${path} is not a text file, so it cannot be a rule book. Choose another file.`,
  badRules: (path: string, problem: string) => `${path} was not taken: ${problem}`,
  rulesTitle: (name: string, entries: number) =>
    `${name}: ${plural(entries, { one: '# entry', other: '# entries' })}`,
  ruleLine: (name: string, value: string, provenance: string, remark: string) =>
    `${name} = ${value}\n    ${provenance}${remark === '' ? '' : `\n    ${remark}`}`,

  schemas: {
    review: {
      title: 'Walkback review file',
      description:
        'A review of a dog-agility run: course, plan, footage references and marks, in one JSON document that stands on its own.',
    },
    course: {
      title: 'Walkback course file',
      description:
        'A course of dog agility: ring, equipment with its places and sizes, numbers. Lengths in metres, angles in degrees counter-clockwise from the ring’s width.',
    },
    rules: {
      title: 'Walkback rule book',
      description:
        'Rules of dog agility as data: each value with its source and how well it is known. Dogs and equipment in centimetres, ground in metres, time in seconds.',
    },
    dog: {
      title: 'Walkback file of a dog',
      description:
        'What is known of how a dog runs and what she can do. What is absent is as assumed, or not known. Lengths in metres, time in seconds, angles in degrees.',
    },
  },
} as const;
