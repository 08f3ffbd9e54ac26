/** The scheme under which the desktop serves the window to itself. */
export const scheme = 'app';

/** The window's own address. */
export const windowAddress = `${scheme}://walkback/`;

/** A written report's address: another host than the window's, so that it is another origin. */
export function reportAddress(mediaId: string): string {
  return `${scheme}://report/${mediaId}`;
}

/**
 * Whether an address belongs to the window. Protocol and host are compared, since the `origin` of an address with
 * a scheme of one's own is the text "null" in Node, the same for all of them.
 */
export function isWindowAddress(address: string): boolean {
  if (!URL.canParse(address)) return false;
  const { protocol, host, username, password } = new URL(address);
  return protocol === `${scheme}:` && host === 'walkback' && username === '' && password === '';
}
