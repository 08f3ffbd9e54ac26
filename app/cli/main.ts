import { standardOutput } from './output.ts';
import { run } from './program.ts';

const stop = new AbortController();
for (const signal of ['SIGINT', 'SIGTERM'] as const) process.once(signal, () => stop.abort());

process.exitCode = await run(process.argv.slice(2), standardOutput(), stop.signal);
