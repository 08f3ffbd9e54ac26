/**
 * Text as it may stand in HTML, in element content and in double-quoted attributes alike. What could act is
 * taken away or made inert: markup characters become references, control characters and lone surrogates the
 * replacement character, and invisible direction overrides (U+202A to U+202E, U+2066 to U+2069) are left out, so
 * that no name can turn the rest of a line around.
 */
export function escaped(text: string): string {
  return (
    text
      // eslint-disable-next-line no-control-regex -- control characters are what is looked for
      .replace(/[\u0000-\u0008\u000B\u000C\u000E-\u001F\u007F-\u009F\uFFFE\uFFFF]|\p{Surrogate}/gu, '\uFFFD')
      .replace(/[\u202A-\u202E\u2066-\u2069]/g, '')
      .replace(/&/g, '&amp;')
      .replace(/</g, '&lt;')
      .replace(/>/g, '&gt;')
      .replace(/"/g, '&quot;')
      .replace(/'/g, '&#39;')
  );
}
