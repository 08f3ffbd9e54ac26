import { readdir } from 'node:fs/promises';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { columns } from '../../src/report/plainText.ts';

/** One line of a bench: what was asked, what was measured here and now, and whether it holds. */
export interface BenchLine {
  readonly figure: string;
  readonly asked: string;
  readonly measured: string;
  readonly holds: boolean;
}

/**
 * Runs tests/bench/NAME.ts, which exports `bench(): Promise<BenchLine[]>`, and prints its table.
 * @param folder where the benches lie
 * @returns the exit code: 0 all hold, 1 one falls short or the bench broke off, 2 no such bench
 */
export async function runBench(
  args: readonly string[],
  folder: string,
  print: (line: string) => void,
): Promise<number> {
  const names = await benchNames(folder);
  const [name, ...more] = args;
  if (name === undefined || more.length > 0 || !names.includes(name)) {
    if (name !== undefined && !names.includes(name)) print(`There is no bench called “${name}”.`);
    print('Usage: npm run -s bench -- NAME');
    print(names.length === 0 ? 'There are no benches yet.' : `Benches: ${names.join(', ')}`);
    return 2;
  }
  const lines = await linesOf(join(folder, `${name}.ts`));
  if (lines.length === 0) {
    print(`The bench “${name}” measured nothing.`);
    return 1;
  }
  const rows = lines.map((l) => [l.figure, l.asked, l.measured, l.holds ? 'holds' : 'falls short']);
  for (const line of columns([['figure', 'asked', 'measured', ''], ...rows])) print(line);
  return lines.every((l) => l.holds) ? 0 : 1;
}

async function benchNames(folder: string): Promise<string[]> {
  const files = await readdir(folder);
  return files
    .filter((f) => f.endsWith('.ts') && f !== 'run.ts')
    .map((f) => f.slice(0, -'.ts'.length))
    .sort();
}

async function linesOf(path: string): Promise<BenchLine[]> {
  const module: unknown = await import(pathToFileURL(path).href);
  if (typeof module !== 'object' || module === null || !('bench' in module)) {
    throw new TypeError(`${path} exports no bench()`);
  }
  const { bench } = module;
  if (typeof bench !== 'function') throw new TypeError(`${path}: bench is not a function`);
  return (bench as () => Promise<BenchLine[]>)();
}

if (import.meta.main) {
  try {
    process.exitCode = await runBench(process.argv.slice(2), import.meta.dirname, console.log);
  } catch (error) {
    console.error(error);
    process.exitCode = 1;
  }
}
