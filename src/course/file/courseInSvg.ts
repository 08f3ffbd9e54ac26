import { SaxesParser, type SaxesTagNS } from 'saxes';

/** Namespace of the one element of a drawing that is read back. */
export const courseNamespace = 'urn:walkback:course';
const svgNamespace = 'http://www.w3.org/2000/svg';

/** Deepest nesting that is followed: ours is three deep, and a drawing program's is rarely over thirty. */
const deepest = 200;

export type SvgCourse =
  | { readonly found: 'text'; readonly text: string }
  /** It is a drawing, but carries no course. */
  | { readonly found: 'none' }
  /** Not an SVG drawing, not well-formed, or with a document type of its own. */
  | {
      readonly found: 'bad';
      readonly why: 'notSvg' | 'doctype' | 'tooDeep' | 'malformed';
      readonly detail: string;
    };

/**
 * The text of the course that an SVG drawing carries in its `metadata`. The drawing is read as XML, strictly, and
 * nothing else of it is looked at: no script, style, link or picture means anything here. A document type is refused,
 * and with it every entity of the file's own (XML 1.0, 4.1), so that no text can be made to grow.
 */
export function courseInSvg(svg: string): SvgCourse {
  const parser = new SaxesParser({ xmlns: true });
  let bad: Extract<SvgCourse, { found: 'bad' }> | null = null;
  let text: string | null = null;
  let inside = false;
  const open: string[] = [];
  const stop = (why: Extract<SvgCourse, { found: 'bad' }>['why'], detail = ''): void => {
    bad ??= { found: 'bad', why, detail };
  };
  parser.on('error', (error) => {
    stop('malformed', error.message);
  });
  parser.on('doctype', () => {
    stop('doctype');
  });
  parser.on('opentag', (tag: SaxesTagNS) => {
    if (bad !== null) return;
    const name = `${tag.uri} ${tag.local}`;
    if (open.length === 0 && name !== `${svgNamespace} svg`) stop('notSvg');
    if (open.length >= deepest) stop('tooDeep');
    const inMetadata = open.length === 2 && open[1] === `${svgNamespace} metadata`;
    inside = text === null && inMetadata && name === `${courseNamespace} course`;
    if (inside) text = '';
    open.push(name);
  });
  parser.on('closetag', () => {
    open.pop();
    inside = false;
  });
  const take = (more: string): void => {
    if (inside) text = (text ?? '') + more;
  };
  parser.on('text', take);
  parser.on('cdata', take);
  // In pieces, so that a bad drawing is left at its first fault instead of being read to its end.
  for (let at = 0; at < svg.length && bad === null; at += pieceLength)
    parser.write(svg.slice(at, at + pieceLength));
  if (bad === null) parser.close();
  if (bad !== null) return bad;
  return text === null ? { found: 'none' } : { found: 'text', text };
}

const pieceLength = 4 * 1024;
