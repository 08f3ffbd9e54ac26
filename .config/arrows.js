/**
 * The house's arrows: app -> host -> (library, footage, report) -> pure rooms; never up, never sideways between
 * screens. One entry a room, each ban with the way to do it instead.
 */

const node = {
  regex: '^node:',
  message:
    'This room knows no Node. Pass the value in, or do it in src/host, src/library, src/footage or app.',
};
const react = {
  regex: '^(react|react-dom|zustand|lucide-react|video\\.js)(/|$)',
  message: 'React and its kin stay in app/window. Give values out of here, and show them there.',
};
const electron = {
  regex: '^electron$',
  message: 'Electron stays in app/desktop. Reach the shell through src/host/contract/shell.ts.',
};
const ffmpeg = {
  regex: '^(fluent-ffmpeg|@ffmpeg-installer/|@ffprobe-installer/)',
  message: 'src/footage is the only door to ffmpeg. Ask it there.',
};
const sqlite = { regex: '^better-sqlite3$', message: 'src/library is the only store. Ask it there.' };
const socket = {
  regex: '^ws$',
  message: 'Sockets stay in app/local. Speak over a Wire (src/host/contract/link.ts).',
};
const appFromSrc = {
  regex: '^(\\.\\./)+app/',
  message: 'src never imports app. Move what is needed into a room of src.',
};
const rooms = (names, message) => ({ regex: `^(\\.\\./)+(src/)?(${names})/`, message });

const upward = rooms(
  'footage|library|frames',
  'A pure room takes values in and gives values out. Let src/host fetch, and pass the value in.',
);
const hostFromPure = {
  regex: '^(\\.\\./)+host/(?!contract/)',
  message: 'A pure room may know src/host/contract, not the host. Pass the value in.',
};
const simulator = {
  regex: '^(\\.\\./)+scripts/',
  message: 'Programs in scripts stand beside the product. Move what is needed into a room of src.',
};

/** @param {string[]} files @param {{regex: string, message: string}[]} patterns */
const room = (files, patterns, ignores = []) => ({
  files,
  ignores,
  rules: { '@typescript-eslint/no-restricted-imports': ['error', { patterns }] },
});

const everywhereInSrc = [electron, react, socket, appFromSrc, simulator];
const screens = ['compare', 'course', 'library', 'report', 'review', 'settings'];

export const arrows = [
  room(
    [
      'time',
      'course',
      'line',
      'plan',
      'ground',
      'track',
      'review',
      'progress',
      'report',
      'words',
      'look',
    ].map((name) => `src/${name}/**/*.ts`),
    [...everywhereInSrc, node, ffmpeg, sqlite, upward, hostFromPure],
  ),
  room(
    ['src/host/contract/**/*.ts'],
    [
      ...everywhereInSrc,
      node,
      ffmpeg,
      sqlite,
      upward,
      {
        regex: '^\\.\\./[^.]',
        message:
          'The contract is what both sides know; it does not know the host. Move the type into the contract.',
      },
    ],
  ),
  room(
    ['src/frames/**/*.ts'],
    [
      ...everywhereInSrc.filter((ban) => ban !== react),
      {
        regex: '^(react|react-dom|zustand|lucide-react)(/|$)',
        message:
          'React and its kin stay in app/window. Of the packages for the screen, only video.js is used here.',
      },
      node,
      ffmpeg,
      sqlite,
      rooms('footage|library', 'The frame window runs in the browser. Ask the host over its contract.'),
      hostFromPure,
    ],
  ),
  room(
    ['src/footage/**/*.ts'],
    [
      ...everywhereInSrc,
      sqlite,
      rooms(
        'host|library|report',
        'Footage knows files and frames alone. Let src/host bring the two together.',
      ),
    ],
  ),
  room(
    ['src/library/**/*.ts'],
    [
      ...everywhereInSrc,
      ffmpeg,
      rooms('host|footage|report', 'The store knows what it keeps and nothing above it. Let src/host do it.'),
    ],
  ),
  room(['src/host/**/*.ts'], [...everywhereInSrc, ffmpeg, sqlite], ['src/host/contract/**']),
  room(
    ['app/window/**/*.ts', 'app/window/**/*.tsx'],
    [
      node,
      electron,
      ffmpeg,
      sqlite,
      socket,
      simulator,
      {
        regex: '^(\\.\\./)+src/(library|footage)/',
        message: 'The window reaches files and store through the host: see src/host/contract/calls.ts.',
      },
      {
        regex: '^(\\.\\./)+src/host/(?!contract/)',
        message: 'The window knows the host by its contract alone: import from src/host/contract.',
      },
      {
        regex: '^(\\.\\./)+(desktop|local|cli)/',
        message: 'The window finds its shell by app/window/shell/index.ts.',
      },
    ],
  ),
  room(
    ['app/desktop/**/*.ts', 'app/local/**/*.ts'],
    [
      react,
      ffmpeg,
      sqlite,
      simulator,
      {
        regex: '^(\\.\\./)+src/(library|footage|report|review|frames)/',
        message: 'Shells only forward. Ask the host by its port (src/host/port.ts).',
      },
      {
        regex: '^(\\.\\./)+(window|cli)/',
        message: 'Shells do not know the window’s inside, nor each other’s.',
      },
    ],
  ),
  room(['app/local/**/*.ts', 'app/cli/**/*.ts'], [electron, react, ffmpeg, sqlite]),
  room(
    ['scripts/simulator/**/*.ts'],
    [
      {
        regex: '(^|/)(src|app)/',
        message:
          'The simulator must not be the program’s own reflection: it has models of its own, in scripts/simulator.',
      },
    ],
  ),
  // Screens never look into each other; what two of them need belongs to frame, keys, look, map or stores.
  ...screens.map((screen) => ({
    files: [`app/window/${screen}/**/*.ts`, `app/window/${screen}/**/*.tsx`],
    plugins: {},
    rules: {
      'walkback/no-other-screen': ['error', { screen, others: screens.filter((other) => other !== screen) }],
    },
  })),
];
