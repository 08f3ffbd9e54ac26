import type { Database } from 'better-sqlite3';
import { expect } from 'vitest';
import { Course } from '../../../src/course/course.ts';
import { fci2023 } from '../../../src/course/rules/fci2023.ts';
import { clipsOf, StoredFacts } from '../../../src/library/clips.ts';
import { dogsOf } from '../../../src/library/dogs.ts';
import { packTicks } from '../../../src/library/ticks.ts';
import { ruleBooksOf } from '../../../src/library/ruleBooks.ts';
import { Dog } from '../../../src/line/dog.ts';
import { emptyPlan, Plan } from '../../../src/plan/plan.ts';
import { FootageUse } from '../../../src/review/document.ts';

/** How one step of the file format is tested. */
export interface MigrationCase {
  /** Fills a library of the format before the step with what a user may have had in it. */
  before(db: Database): void;
  /** Checks that all of it is there in the new form. */
  after(db: Database): void;
}

const names = (db: Database): unknown[] =>
  db
    .prepare("SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite_%' ORDER BY name")
    .pluck()
    .all();

/** Footage and the facts of a clip as they were stored at first. */
const olderFootage = JSON.stringify({ id: 'f', clipId: 'c', name: 'n', speed: [], offset: 2.5, rate: 1 });
const olderFacts = JSON.stringify({
  ...{ width: 2, height: 2, rotation: 0, container: 'mp4', codec: 'h264', pixelFormat: 'yuv420p' },
  ...{ sound: null, seconds: 1, decodable: true, why: null },
});

/** A course as it was stored before it could be drawn in the program. */
const olderCourse = JSON.stringify({
  name: 'Ring two',
  ring: { width: 40, length: 20 },
  obstacles: [
    { id: 'a', kind: 'barJump', nickname: '', stand: { x: 14, y: 6.7, headingDegrees: 0 } },
    { id: 'b', kind: 'unknown', nickname: 'the gate' },
  ],
  steps: [
    { number: 1, obstacleId: 'a', direction: 'forward' },
    { number: 2, obstacleId: 'b', direction: 'reverse', onPicture: { x: 0.5, y: 0.25 } },
  ],
});

/** A plan as it was stored when it held crosses and notes alone. */
const olderPlan = {
  crosses: [{ id: 'p', place: 3, kind: 'front', reason: 'the gate', secondChoice: 'rear' }],
  notes: 'Watch the poles.',
};

/** One case for each step, under the number of the format it makes. */
export const migrationCases: Readonly<Record<number, MigrationCase>> = {
  1: {
    before(db) {
      expect(names(db)).toEqual([]);
    },
    after(db) {
      const tables = ['act', 'clip', 'entity', 'migration', 'note', 'picture', 'review', 'table_version'];
      expect(names(db)).toEqual(tables);
      const versioned = db.prepare('SELECT name FROM table_version ORDER BY name').pluck().all();
      expect(versioned).toEqual(['act', 'clip', 'entity', 'note', 'picture', 'review']);
      db.exec(`INSERT INTO review (id, title, author, revision) VALUES ('r', 't', 'a', 1)`);
      const orphan = `INSERT INTO entity VALUES ('none', 'mark', 'm', 'a', 1, 0, 1, '{}')`;
      expect(() => db.exec(orphan)).toThrow(/FOREIGN KEY/);
      const act = `INSERT INTO act VALUES ('r', 1, 'same', 'change', NULL, 'a', '', 0, '[]')`;
      db.exec(act);
      expect(() => db.exec(act.replace('1,', '2,'))).toThrow(/UNIQUE/);
    },
  },
  2: {
    before(db) {
      db.exec(`INSERT INTO review (id, title, author, revision) VALUES ('r', 't', 'a', 1)`);
      db.prepare(`INSERT INTO entity VALUES ('r', 'footage', 'f', 'a', 1, 0, 1, ?)`).run(olderFootage);
    },
    after(db) {
      const body = db.prepare('SELECT body FROM entity').pluck().get();
      expect(FootageUse.parse(JSON.parse(String(body)))).toEqual(JSON.parse(olderFootage));
      const version = db.prepare("SELECT version FROM table_version WHERE name = 'entity'").pluck();
      expect(version.get()).toBe(2);
    },
  },
  3: {
    before(db) {
      db.exec(`INSERT INTO review (id, title, author, revision) VALUES ('r', 't', 'a', 1)`);
      db.prepare(`INSERT INTO entity VALUES ('r', 'footage', 'f', 'a', 1, 0, 1, ?)`).run(olderFootage);
      db.prepare(
        `INSERT INTO clip (id, author, revision, name, sha256, bytes, facts_version, facts, time_base_num,
           time_base_den, pts) VALUES ('c', 'a', 1, 'n', 's', 9, 1, ?, 1, 30, x'00')`,
      ).run(olderFacts);
    },
    after(db) {
      const text = (sql: string): unknown => JSON.parse(String(db.prepare(sql).pluck().get()));
      expect(FootageUse.parse(text('SELECT body FROM entity'))).toEqual(JSON.parse(olderFootage));
      expect(StoredFacts.parse(text('SELECT facts FROM clip'))).toEqual(JSON.parse(olderFacts));
      const version = db.prepare('SELECT version FROM table_version WHERE name = ?').pluck();
      expect(['entity', 'clip', 'act'].map((name) => version.get(name))).toEqual([3, 2, 1]);
    },
  },
  4: {
    before(db) {
      db.prepare(
        `INSERT INTO clip (id, author, revision, name, sha256, bytes, facts_version, facts, time_base_num,
           time_base_den, pts, copy_file, copy_bytes, copy_shift)
         VALUES ('c', 'a', 1, 'n', 's', 9, 1, ?, 1, 30, ?, 'c.mp4', 7, 2)`,
      ).run(olderFacts, packTicks([0, 1]));
    },
    after(db) {
      expect(clipsOf(db, 'a').list()).toMatchObject([
        {
          id: 'c',
          facts: JSON.parse(olderFacts) as object,
          frameCount: 2,
          copy: { file: 'c.mp4', bytes: 7, shift: 2, size: null },
          copyWish: null,
          opened: 0,
          fields: false,
        },
      ]);
      clipsOf(db, 'a').setOpened('c');
      expect(clipsOf(db, 'a').get('c')?.opened).toBe(1);
    },
  },
  5: {
    before(db) {
      db.exec(`INSERT INTO review (id, title, author, revision) VALUES ('r', 't', 'a', 1)`);
      db.prepare(`INSERT INTO entity VALUES ('r', 'course', 'r', 'a', 1, 0, 1, ?)`).run(olderCourse);
    },
    after(db) {
      const body = db.prepare('SELECT body FROM entity').pluck().get();
      expect(Course.parse(JSON.parse(String(body)))).toEqual(JSON.parse(olderCourse));
      const version = db.prepare("SELECT version FROM table_version WHERE name = 'entity'").pluck();
      expect(version.get()).toBe(4);
    },
  },
  6: {
    before(db) {
      db.exec(`INSERT INTO review (id, title, author, revision) VALUES ('r', 't', 'a', 1)`);
      db.prepare(`INSERT INTO entity VALUES ('r', 'course', 'r', 'a', 1, 0, 1, ?)`).run(olderCourse);
    },
    after(db) {
      const body = db.prepare('SELECT body FROM entity').pluck().get();
      expect(Course.parse(JSON.parse(String(body)))).toEqual(JSON.parse(olderCourse));
      const version = db.prepare('SELECT version FROM table_version WHERE name = ?').pluck();
      expect(['entity', 'rule_book', 'library_act'].map((name) => version.get(name))).toEqual([5, 1, 1]);
      const books = ruleBooksOf(
        db,
        'a',
        () => 0,
        () => 'act-1',
      );
      books.take(fci2023, false);
      expect(books.read(fci2023.id)).toEqual(fci2023);
    },
  },
  7: {
    before(db) {
      db.exec(`INSERT INTO review (id, title, author, revision) VALUES ('r', 't', 'a', 1)`);
      const plan = JSON.stringify(olderPlan);
      db.prepare(`INSERT INTO entity VALUES ('r', 'plan', 'r', 'a', 1, 0, 1, ?)`).run(plan);
    },
    after(db) {
      const body = db.prepare('SELECT body FROM entity').pluck().get();
      expect(Plan.parse(JSON.parse(String(body)))).toEqual({ ...emptyPlan(), ...olderPlan });
      const version = db.prepare("SELECT version FROM table_version WHERE name = 'entity'").pluck();
      expect(version.get()).toBe(6);
    },
  },
  8: {
    before(db) {
      const books = ruleBooksOf(
        db,
        'a',
        () => 0,
        () => 'act-1',
      );
      books.take(fci2023, false);
    },
    after(db) {
      const version = db.prepare('SELECT version FROM table_version WHERE name = ?').pluck();
      expect(['dog', 'library_act'].map((name) => version.get(name))).toEqual([1, 2]);
      let n = 1;
      const of = [db, 'a', () => 0, () => `act-${++n}`] as const;
      dogsOf(...of).save(Dog.parse({ id: 'd', name: 'Fen' }), null);
      expect(dogsOf(...of).read('d').name).toBe('Fen');
      // Acts on books that were there before can still be taken back.
      ruleBooksOf(...of).takeBack(1);
      expect(ruleBooksOf(...of).list()).toEqual([]);
    },
  },
};
