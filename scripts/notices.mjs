// Third-party notices, made from the tree of packages.
//   node scripts/notices.mjs              writes app/THIRD-PARTY-NOTICES.txt
//   node scripts/notices.mjs --check      exits 1 where that file is not up to date
//   node scripts/notices.mjs --out DIR    writes a copy into DIR
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

const root = join(import.meta.dirname, '..');
const committed = join(root, 'app', 'THIRD-PARTY-NOTICES.txt');

const preface = `Walkback uses the work of others, with thanks. This file is made from the tree of packages by
scripts/notices.mjs; it lists every package that the program runs with, its licence, and the licence's text as it
comes with the package.

Of note:

- FFmpeg and ffprobe. @ffmpeg-installer/* and @ffprobe-installer/* carry the programs ffmpeg and ffprobe, built with
  parts that put these programs under the GNU General Public License, version 3 (on some systems another version or
  the LGPL; see each package). They are separate programs: Walkback starts them as processes of their own and links
  to none of their code. Where the system has its own ffmpeg, that is used instead. Source code: the FFmpeg project.
- mediabunny is under the Mozilla Public License 2.0. It is used unchanged; its source code comes with the package.
- Source Sans 3 is a font under the SIL Open Font License 1.1. It is used unchanged, under its own name.
- Electron (MIT) and the Chromium within it are not part of this tree. Where the desktop window is used, Electron's
  program is downloaded with its own licence files beside it.
`;

const rule = '='.repeat(80);

/** The packages that are no development tools, as package-lock.json names them. */
function packages() {
  const lock = JSON.parse(readFileSync(join(root, 'package-lock.json'), 'utf8')).packages;
  return Object.entries(lock)
    .filter(
      ([path, entry]) =>
        path !== '' && !entry.dev && !entry.devOptional && !/node_modules\/@types\//.test(path),
    )
    .map(([path, entry]) => ({
      path,
      name: path.slice(path.lastIndexOf('node_modules/') + 'node_modules/'.length),
      version: entry.version,
      // Packages for one system only are named, not quoted, so that this file is the same on every system.
      oneSystem: entry.os !== undefined || entry.cpu !== undefined,
      lockLicence: entry.license,
    }))
    .sort((a, b) => (a.name < b.name ? -1 : a.name > b.name ? 1 : a.version < b.version ? -1 : 1));
}

function described({ path, name, version, oneSystem, lockLicence }) {
  const folder = join(root, path);
  const own = oneSystem ? {} : JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8'));
  const licence = lockLicence ?? licenceOf(own) ?? 'not named in its package.json; see the text below';
  const texts = oneSystem ? [] : licenceTexts(folder);
  const body =
    texts.length > 0
      ? texts.join('\n\n')
      : oneSystem
        ? 'For one system only; its licence text comes with the package.'
        : `The package carries no licence text. Its author: ${authorOf(own)}.`;
  return `${rule}\n${name} ${version}\nLicence: ${licence}\n\n${body}\n`;
}

function licenceOf({ license, licenses }) {
  if (typeof license === 'string') return license;
  if (license?.type) return license.type;
  return Array.isArray(licenses) ? licenses.map((l) => l.type ?? l).join(', ') : null;
}

function authorOf({ author, maintainers }) {
  const one = author ?? maintainers?.[0];
  return (typeof one === 'string' ? one : one?.name) ?? 'not named';
}

function licenceTexts(folder) {
  return readdirSync(folder)
    .filter((file) => /^(licen[cs]e|copying|notice|ofl)/i.test(file))
    .sort()
    .map((file) =>
      readFileSync(join(folder, file), 'utf8')
        .replace(/^\uFEFF/, '')
        .replace(/\r\n?/g, '\n')
        .replace(/[ \t]+$/gm, '')
        .trim(),
    );
}

const text = `${preface}\n${packages().map(described).join('\n')}`;
const [option, folder] = process.argv.slice(2);

if (option === '--check') {
  if (!existsSync(committed) || readFileSync(committed, 'utf8') !== text) {
    console.error('app/THIRD-PARTY-NOTICES.txt is not up to date. Run: node scripts/notices.mjs');
    process.exitCode = 1;
  }
} else if (option === '--out' && folder) {
  writeFileSync(join(folder, 'THIRD-PARTY-NOTICES.txt'), text);
} else if (option === undefined) {
  writeFileSync(committed, text);
} else {
  console.error('Usage: node scripts/notices.mjs [--check | --out DIR]');
  process.exitCode = 2;
}
