/** What the worker is asked for. */
export interface PageAsked {
  readonly bytes: Uint8Array;
  /** 1 is the first. */
  readonly page: number;
}

/** A page as a picture (PNG, or JPEG of a scan), or why there is none. */
export type PageDrawn =
  | { readonly ok: true; readonly picture: Uint8Array; readonly page: number; readonly pages: number }
  | { readonly ok: false; readonly why: 'noSuchPage'; readonly pages: number }
  | { readonly ok: false; readonly why: 'damaged' | 'locked' | 'tooLong' };
