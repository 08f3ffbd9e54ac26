import { homedir } from 'node:os';
import { posix, win32 } from 'node:path';

/** What decides where a user's own data belongs. */
export interface UserPlace {
  readonly platform: NodeJS.Platform;
  readonly home: string;
  readonly env: Readonly<Record<string, string | undefined>>;
}

/**
 * The user's own library folder, where the system keeps a program's data: XDG_DATA_HOME or ~/.local/share (XDG
 * Base Directory Specification 0.8), ~/Library/Application Support on macOS, %APPDATA% on Windows.
 */
export function ownLibraryFolder(
  { platform, home, env }: UserPlace = { platform: process.platform, home: homedir(), env: process.env },
): string {
  if (platform === 'win32') {
    const roaming = env['APPDATA'];
    return win32.join(roaming ? roaming : win32.join(home, 'AppData', 'Roaming'), 'Walkback');
  }
  if (platform === 'darwin') return posix.join(home, 'Library', 'Application Support', 'Walkback');
  const data = env['XDG_DATA_HOME'];
  // The specification: a path that is not absolute is to be passed over.
  return posix.join(data && posix.isAbsolute(data) ? data : posix.join(home, '.local', 'share'), 'Walkback');
}
