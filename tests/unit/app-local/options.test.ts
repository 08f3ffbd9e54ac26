import { describe, expect, it } from 'vitest';
import { BadOptions, readOptions } from '../../../app/local/options.ts';

describe('the command line', () => {
  it('without options: the user’s own library, any port, the browser opened', () => {
    expect(readOptions([])).toEqual({ open: true, library: null, port: 0, demo: false, allow: [] });
  });

  it('reads every option', () => {
    expect(
      readOptions(['--no-open', '--library', '/l', '--port=4000', '--allow', '/a', '--allow', '/b']),
    ).toEqual({
      open: false,
      library: '/l',
      port: 4000,
      demo: false,
      allow: ['/a', '/b'],
    });
    expect(readOptions(['--demo', '--local'])).toMatchObject({ demo: true, library: null });
    expect(readOptions(['--help', '--port', '1'])).toBe('help');
  });

  it.each([
    [['--bogus'], /--bogus/],
    [['somewhere'], /somewhere/],
    [['--port'], /--port/],
    [['--port', '80'], /“80”/],
    [['--port', '0'], /“0”/],
    [['--port', '65536'], /“65536”/],
    [['--port', '1e4'], /“1e4”/],
    [['--port', '-1'], /port/],
    [['--port', '4000x'], /“4000x”/],
    [['--library', ''], /--library/],
    [['--allow', ''], /--allow/],
    [['--demo', '--library', '/l'], /--demo/],
    [['--demo=yes'], /--demo/],
  ])('refuses %j and names it', (args, message) => {
    expect(() => readOptions(args)).toThrow(BadOptions);
    expect(() => readOptions(args)).toThrow(message);
  });
});
