import Sqlite from 'better-sqlite3';
import { fork } from 'node:child_process';
import { copyFileSync, existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import type { TopicEvent } from '../../../src/host/contract/calls.ts';
import type { Link } from '../../../src/host/contract/link.ts';
import { childPort, openRemote } from '../../../src/host/remote.ts';
import { applyChanges, type Change, type ReviewState } from '../../../src/review/entities.ts';
import { emptyFolder, linkTo, settingsFor } from '../host-suite/lines.ts';
import { mark, note, unmark } from '../library/examples.ts';

const kills = 50;
const entry = join(import.meta.dirname, '../host-suite/standInProcess.ts');

/** An act as it is asked for. */
type Asked = { readonly changes: Change[] } | 'undo';

/** What a coach at the keyboard does: marks, takes some away, undoes now and then. */
function nextAct(n: number, random: () => number, canUndo: boolean): Asked {
  if (canUndo && random() < 0.2) return 'undo';
  if (n > 3 && random() < 0.2)
    return { changes: [unmark(`m${Math.floor(random() * n)}`), mark(note(`x${n}`, n))] };
  return { changes: [mark(note(`m${n}`, n, 'seen from the ringside'))] };
}

/** The review after each act, with what undo goes back to. */
class Model {
  readonly #past: ReviewState[] = [];
  #now: ReviewState;
  constructor(first: ReviewState) {
    this.#now = first;
  }
  get canUndo(): boolean {
    return this.#past.length > 0;
  }
  do(asked: Asked): void {
    if (asked === 'undo') {
      this.#now = this.#past.pop() ?? this.#now;
      return;
    }
    this.#past.push(this.#now);
    this.#now = applyChanges(this.#now, asked.changes);
  }
  /** Marks by id; the order of a list differs where undo has brought something back. */
  marks(): unknown[] {
    return sorted(this.#now);
  }
}

const sorted = (state: ReviewState) => state.marks.toSorted((a, b) => (a.id < b.id ? -1 : 1));

const wholeOf = (host: Link, reviewId: string): Promise<TopicEvent<'review'>> =>
  new Promise((resolve, reject) => {
    host.subscribe('review', { reviewId }, resolve, reject);
  });

/** Asks SQLite to check every page of what the killed process left, on a copy: the log is for the next host to find. */
function integrity(library: string): unknown {
  const copy = mkdtempSync(join(tmpdir(), 'walkback-'));
  try {
    for (const end of ['', '-wal']) {
      const from = join(library, `walkback.sqlite${end}`);
      if (existsSync(from)) copyFileSync(from, join(copy, `walkback.sqlite${end}`));
    }
    const db = new Sqlite(join(copy, 'walkback.sqlite'));
    const found = db.pragma('integrity_check', { simple: true });
    db.close();
    return found;
  } finally {
    rmSync(copy, { recursive: true });
  }
}

test(`killed ${kills} times in the middle of marking: no act that was answered is lost, and the library opens`, async () => {
  const root = await emptyFolder();
  const library = join(root.path, 'library');
  const seed = Date.now() % 1_000_000;
  const random = seeded(seed);
  const sent: Asked[] = [];
  let reviewId = '';
  let first: ReviewState | null = null;
  let answered = 1;
  let unanswered = 0;

  const open = async () => {
    const child = fork(entry, [], {
      execArgv: [],
      // Fifty starts: what Node has compiled once need not be compiled again.
      env: { ...process.env, NODE_COMPILE_CACHE: join(root.path, 'compiled') },
      serialization: 'advanced',
      stdio: ['ignore', 2, 'inherit', 'ipc'],
    });
    const host = await openRemote(childPort(child), settingsFor(library));
    return { child, host, link: linkTo(host) };
  };
  /** Compares what is stored with what was asked for; forgets what the kill has cut off. */
  const compare = async (link: Link): Promise<Model> => {
    const whole = await wholeOf(link, reviewId);
    if (whole.type !== 'whole') throw new Error('An act came before the whole');
    first ??= whole.state;
    // Act 1 made the review; every later number is one act that was asked for, in order.
    expect(whole.act, `seed ${seed}`).toBeGreaterThanOrEqual(answered);
    expect(whole.act - 1, `seed ${seed}`).toBeLessThanOrEqual(sent.length);
    unanswered += whole.act - answered;
    sent.length = whole.act - 1;
    const model = new Model(first);
    for (const asked of sent) model.do(asked);
    expect(sorted(whole.state), `seed ${seed}`).toEqual(model.marks());
    return model;
  };

  try {
    for (let round = 0; round < kills; round++) {
      const { child, host, link } = await open();
      if (round === 0) ({ reviewId } = await link.call('review.create', { title: 'Killed', obstacles: 19 }));
      const model = await compare(link);
      const before = answered;
      let dead = false;
      const deadline = 1 + Math.floor(random() * 25);
      const waiting: Promise<void>[] = [];
      while (!dead) {
        const asked = nextAct(sent.length, random, model.canUndo);
        model.do(asked);
        sent.push(asked);
        const work =
          asked === 'undo'
            ? link.call('review.undo', { reviewId })
            : link.call('review.apply', {
                reviewId,
                actId: crypto.randomUUID(),
                label: 'x',
                changes: asked.changes,
              });
        waiting.push(
          work.then(
            ({ act }) => {
              answered = Math.max(answered, act);
              // Killed on an answer: while others are on their way, at a moment that differs each time.
              if (answered - before >= deadline && !dead) dead = child.kill('SIGKILL');
            },
            () => undefined,
          ),
        );
        // A few acts are always under way at once.
        if (waiting.length % 4 === 0) await waiting[waiting.length - 4];
        if (waiting.length > 2000) throw new Error('The host was never killed');
      }
      await Promise.all(waiting);
      await host.gone;
      expect(integrity(library), `seed ${seed}`).toBe('ok');
    }
    const { host, link } = await open();
    await compare(link);
    await host.close();
    expect(answered).toBeGreaterThan(kills);
    console.log(
      `seed ${seed}: ${answered - 1} acts answered, ${unanswered} more were stored without an answer`,
    );
  } finally {
    await root.remove();
  }
}, 900_000);

/** Numbers from 0 to 1 that a seed decides (mulberry32, public domain). */
function seeded(seed: number): () => number {
  let a = seed;
  return () => {
    a = (a + 0x6d2b79f5) | 0;
    let t = Math.imul(a ^ (a >>> 15), 1 | a);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}
