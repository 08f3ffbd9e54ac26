/**
 * A sentence with something other than text in it: figures, words of the reader's own. Pieces in reading order,
 * so that each writer (page, plain text) can render its own figures.
 */
export type Sentence<Piece> = readonly (string | Piece)[];

/** Template tag: keeps the pieces apart and drops empty text. */
export function say<Piece>(
  text: TemplateStringsArray,
  ...pieces: readonly (string | Piece)[]
): Sentence<Piece> {
  return text.flatMap((t, i): (string | Piece)[] => {
    const piece = pieces[i];
    const rest = piece === undefined || piece === '' ? [] : [piece];
    return t === '' ? rest : [t, ...rest];
  });
}

/** The text with a capital first letter. */
export function capital(text: string): string {
  return text.charAt(0).toLocaleUpperCase() + text.slice(1);
}
