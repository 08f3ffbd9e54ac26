import { spawn } from 'node:child_process';
import { startWords } from '../../src/words/start.ts';

/**
 * Opens an address in the user's browser, by the system's own means. The address is one argument of its own and
 * is never read by a command line.
 */
export function openBrowser(address: string, platform: NodeJS.Platform = process.platform): void {
  const [program, ...args] = opener(platform);
  const child = spawn(program, [...args, address], { stdio: 'ignore', detached: true });
  const failed = (): void => {
    console.error(startWords.noBrowser);
  };
  child.on('error', failed);
  child.on('exit', (code) => {
    if (code !== 0) failed();
  });
  child.unref();
}

function opener(platform: NodeJS.Platform): readonly [string, ...string[]] {
  if (platform === 'darwin') return ['open'];
  if (platform === 'win32') return ['rundll32', 'url.dll,FileProtocolHandler'];
  return ['xdg-open'];
}
