import { describe, expect, it } from 'vitest';
import { ownLibraryFolder } from '../../../src/host/libraryFolder.ts';

describe('where the user’s own library is kept', () => {
  // XDG Base Directory Specification 0.8: $XDG_DATA_HOME, by default $HOME/.local/share; relative paths are ignored.
  it.each([
    ['linux', {}, '/home/u/.local/share/Walkback'],
    ['linux', { XDG_DATA_HOME: '/data' }, '/data/Walkback'],
    ['linux', { XDG_DATA_HOME: 'data' }, '/home/u/.local/share/Walkback'],
    ['linux', { XDG_DATA_HOME: '' }, '/home/u/.local/share/Walkback'],
    ['darwin', {}, '/home/u/Library/Application Support/Walkback'],
  ] as const)('on %s with %j: %s', (platform, env, folder) => {
    expect(ownLibraryFolder({ platform, home: '/home/u', env })).toBe(folder);
  });

  it('on Windows, under APPDATA', () => {
    const home = 'C:\\Users\\u';
    const own = 'C:\\Users\\u\\AppData\\Roaming\\Walkback';
    expect(ownLibraryFolder({ platform: 'win32', home, env: {} })).toBe(own);
    expect(ownLibraryFolder({ platform: 'win32', home, env: { APPDATA: 'D:\\R' } })).toBe('D:\\R\\Walkback');
  });
});
