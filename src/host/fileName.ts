/** Names that mean a device on Windows, whatever their ending. */
const devices = /^(con|prn|aux|nul|com\d|lpt\d)(\.|$)/i;

/**
 * A file name that came from outside, in a form that is safe in a folder of the library on every system: nothing that
 * leads elsewhere, no control characters, at most 60 characters before its ending.
 */
export function safeFileName(name: string): string {
  const plain = name
    .normalize('NFC')
    .replace(/[\p{Cc}\p{Cf}\p{Cs}\p{Zl}\p{Zp}/\\:*?"<>|]+/gu, '_')
    .replace(/^[. ]+|[. ]+$/g, '');
  const ending = /\.[a-z0-9]{1,8}$/i.exec(plain)?.[0] ?? '';
  const stem = Array.from(plain.slice(0, plain.length - ending.length))
    .slice(0, 60)
    .join('');
  const whole = `${stem === '' ? 'file' : stem}${ending}`;
  return devices.test(whole) ? `_${whole}` : whole;
}
