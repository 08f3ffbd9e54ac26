import type { Database } from 'better-sqlite3';

/** A picture of a course map, kept by content: its id is the SHA-256 of its bytes. */
export interface Picture {
  readonly id: string;
  readonly name: string;
  /** File name inside the library's folder of pictures. */
  readonly file: string;
  readonly mime: string;
  readonly width: number;
  readonly height: number;
  readonly bytes: number;
}

export interface Pictures {
  get(id: string): Picture | null;
  /** The same content is the same picture. */
  add(picture: Picture): Picture;
}

export function picturesOf(db: Database, author: string): Pictures {
  const byId = db.prepare<[string], Picture>(
    'SELECT id, name, file, mime, width, height, bytes FROM picture WHERE id = ?',
  );
  const insert = db.prepare(
    `INSERT INTO picture (id, author, name, file, mime, width, height, bytes) VALUES (?, ?, ?, ?, ?, ?, ?, ?)
     ON CONFLICT (id) DO NOTHING`,
  );
  return {
    get: (id) => byId.get(id) ?? null,
    add(p) {
      insert.run(p.id, author, p.name, p.file, p.mime, p.width, p.height, p.bytes);
      return byId.get(p.id) ?? p;
    },
  };
}
