import { mkdirSync } from 'node:fs';
import { join } from 'node:path';

/** Where things lie in a library's folder. All of it belongs to the library; originals stay where they are. */
export interface Layout {
  readonly folder: string;
  readonly database: string;
  /** Pictures of course maps, named by content. */
  readonly pictures: string;
  readonly reports: string;
  /** Working copies, named by clip. */
  readonly copies: string;
  /** Clips that came in as uploads and therefore have no other place. */
  readonly clips: string;
  /** Uploads under way; swept at start. */
  readonly incoming: string;
}

export function layoutOf(folder: string): Layout {
  return {
    folder,
    database: join(folder, 'walkback.sqlite'),
    pictures: join(folder, 'pictures'),
    reports: join(folder, 'reports'),
    copies: join(folder, 'copies'),
    clips: join(folder, 'clips'),
    incoming: join(folder, 'incoming'),
  };
}

export function makeFolders(layout: Layout): void {
  for (const folder of [layout.pictures, layout.reports, layout.copies, layout.clips, layout.incoming]) {
    mkdirSync(folder, { recursive: true });
  }
}
