/** What the loopback server and the window agree on, beyond the messages. */

/** Sub-protocol of the web socket. */
export const wireProtocol = 'walkback.1';

/** Second sub-protocol offered by the window: this prefix, then its key. */
export const keyProtocolPrefix = 'key.';

/** Header in which the window shows its key on other requests. */
export const keyHeader = 'x-walkback-key';

/** Name in the fragment of the first address, under which the window is given its key. */
export const keyInFragment = 'key';

/** Name in the first address, and in its fragment, that asks the window to show its start. */
export const startInAddress = 'start';

/** Close code by which the server tells that the host process has ended. */
export const hostEndedCode = 4001;
