// npm run check: lint, format, types, dead code, notices. Two at a time; says each result, exits 1 where one fails.
import { spawn } from 'node:child_process';
import { readdirSync, readFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { installPackages, node24, root } from './packages.mjs';

const bin = (...path) => join(root, 'node_modules', ...path);
const types = (project) => [bin('typescript', 'bin', 'tsc'), '-p', `.config/tsconfig.${project}.json`];

/** Longest first, so that nothing long is left for the end. Each is run by Node 24. */
const programs = [
  ['lint', [bin('eslint', 'bin', 'eslint.js'), '-c', '.config/eslint.config.js', '--max-warnings', '0', '.']],
  ['types of the tests', types('tests')],
  ['types of the window', types('browser')],
  ['types of the Node parts', types('node')],
  ['types of the pure rooms', types('pure')],
  ['format', [bin('prettier', 'bin', 'prettier.cjs'), '--check', '--log-level', 'warn', '.']],
  ['dead code', [bin('knip', 'bin', 'knip.js'), '--config', '.config/knip.json', '--no-progress']],
  ['notices', [join(root, 'scripts', 'notices.mjs'), '--check']],
];

function runQuietly(args) {
  return new Promise((resolve) => {
    const child = spawn(node24(), args, { cwd: root, stdio: ['ignore', 'pipe', 'pipe'] });
    let said = '';
    child.stdout.on('data', (chunk) => (said += chunk));
    child.stderr.on('data', (chunk) => (said += chunk));
    child.on('error', (error) => resolve({ ok: false, said: error.message }));
    child.on('close', (code) => resolve({ ok: code === 0, said }));
  });
}

/** Style sheets take colours from the tokens; the lint above does not read style sheets. */
function coloursInStyleSheets() {
  const folder = join(root, 'app', 'window');
  const named = /#[0-9a-f]{3,8}\b|\b(?:rgba?|hsla?|hwb|lab|lch|oklab|oklch)\(/i;
  const found = readdirSync(folder, { recursive: true })
    .filter((name) => name.endsWith('.css'))
    .flatMap((name) =>
      readFileSync(join(folder, name), 'utf8')
        .split('\n')
        .map((line, i) =>
          named.test(line) ? `${relative(root, join(folder, name))}:${i + 1}: ${line.trim()}` : null,
        )
        .filter((line) => line !== null),
    );
  const said = [
    ...found,
    'Colours stand in src/look/tokens.ts: add a token there, and use it as var(--…).',
  ].join('\n');
  return { ok: found.length === 0, said };
}

function tell(name, { ok, said }, seconds) {
  console.log(
    `${ok ? 'holds' : 'FAILS'}  ${name}${seconds === undefined ? '' : ` (${seconds.toFixed(1)} s)`}`,
  );
  if (!ok) console.log(said.trimEnd());
  return ok;
}

async function main() {
  if (!(await installPackages())) return false;
  const waiting = [...programs];
  const results = [tell('colours in style sheets', coloursInStyleSheets())];
  const work = async () => {
    for (let next = waiting.shift(); next; next = waiting.shift()) {
      const began = Date.now();
      results.push(tell(next[0], await runQuietly(next[1]), (Date.now() - began) / 1000));
    }
  };
  await Promise.all([work(), work()]);
  return results.every(Boolean);
}

process.exitCode = (await main()) ? 0 : 1;
