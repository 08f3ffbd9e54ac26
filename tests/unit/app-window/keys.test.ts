import { describe, expect, it, vi } from 'vitest';
import { placesMeet, type Act } from '../../../app/window/keys/act.ts';
import { allActs } from '../../../app/window/keys/allActs.ts';
import { createKeyboard, type Press } from '../../../app/window/keys/keyboard.ts';
import { keyIsKept, keyName, keyParts } from '../../../app/window/keys/keyName.ts';
import { actHolding, keyConflicts, keysOf } from '../../../app/window/keys/keyTable.ts';

const plain = { ctrlKey: false, metaKey: false, altKey: false, shiftKey: false };
const press = (key: string, part: Partial<Press> = {}): Press => ({
  ...plain,
  key,
  repeat: false,
  isComposing: false,
  defaultPrevented: false,
  target: null,
  preventDefault: vi.fn(),
  ...part,
});

describe('the names of keys', () => {
  it('follow the sign on the key, not the place of the key', () => {
    expect(keyName({ ...plain, key: 'J', shiftKey: true })).toBe('Shift+j');
    expect(keyName({ ...plain, key: 'j' })).toBe('j');
    expect(keyName({ ...plain, key: '?', shiftKey: true })).toBe('?');
    expect(keyName({ ...plain, key: ' ' })).toBe('Space');
    expect(keyName({ ...plain, key: 'ArrowLeft', shiftKey: true })).toBe('Shift+ArrowLeft');
    expect(keyName({ ...plain, key: 'Z', ctrlKey: true, shiftKey: true })).toBe('Ctrl+Shift+z');
    expect(keyName({ ...plain, key: 'z', metaKey: true })).toBe('Ctrl+z');
    expect(keyName({ ...plain, key: 'Shift', shiftKey: true })).toBeNull();
  });

  it('come apart into what is held and what is pressed, the plus sign included', () => {
    expect(keyParts('Ctrl+Shift+z')).toEqual(['Ctrl', 'Shift', 'z']);
    expect(keyParts('+')).toEqual(['+']);
    expect(keyParts('Ctrl++')).toEqual(['Ctrl', '+']);
  });

  it('leave the keys alone that getting about needs', () => {
    expect(['Tab', 'Shift+Tab', 'Escape', 'Enter', 'F5', 'Ctrl+F5'].every(keyIsKept)).toBe(true);
    expect(['j', 'F2', 'Space', 'Backspace'].some(keyIsKept)).toBe(false);
  });
});

describe('the table of all acts', () => {
  it('has no name twice and no key twice where both can be meant', () => {
    expect(new Set(allActs.map((act) => act.name)).size).toBe(allActs.length);
    const conflicts = keyConflicts(allActs, {}).map(
      ({ key, acts }) => `${key}: ${acts[0].name} and ${acts[1].name}`,
    );
    expect(conflicts).toEqual([]);
  });

  it('asks for one hand only: every act has a key with none held', () => {
    expect(allActs.filter((act) => keyParts(act.key).length !== 1).map((act) => act.name)).toEqual([]);
  });

  it('names every act for the reader', () => {
    expect(allActs.filter((act) => act.label.trim() === '').map((act) => act.name)).toEqual([]);
  });
});

const acts: readonly Act[] = [
  { name: 'a', label: 'A', key: 'j', place: 'anywhere' },
  { name: 'b', label: 'B', key: 'k', place: 'review.cross', repeat: true },
  { name: 'c', label: 'C', key: 'k', place: 'review.marks' },
  { name: 'd', label: 'D', key: 'l', also: ['Ctrl+l'], place: 'review' },
];

describe('changed keys', () => {
  it('meet where places surround each other, not where they lie side by side', () => {
    expect(placesMeet('review', 'review.cross')).toBe(true);
    expect(placesMeet('review.cross', 'review.marks')).toBe(false);
    expect(placesMeet('review', 'reviews')).toBe(false);
    expect(placesMeet('anywhere', 'library')).toBe(true);
    expect(keyConflicts(acts, {})).toEqual([]);
    expect(keyConflicts(acts, { d: 'k' }).map((c) => c.acts.map((a) => a.name))).toEqual([
      ['b', 'd'],
      ['c', 'd'],
    ]);
  });

  it('tell who holds a key, and can be switched off', () => {
    const [, b] = acts;
    expect(b && actHolding(acts, {}, b, 'j')?.name).toBe('a');
    expect(b && actHolding(acts, { a: '' }, b, 'j')).toBeUndefined();
    expect(acts[3] && keysOf(acts[3], { d: '' })).toEqual(['Ctrl+l']);
  });
});

describe('the keyboard', () => {
  it('calls the handler that registered last, and forgets it when it goes', () => {
    const keyboard = createKeyboard(acts, () => ({}));
    const [first, second] = [vi.fn(), vi.fn()];
    keyboard.register(new Map([['a', first]]));
    const stop = keyboard.register(new Map([['a', second]]));
    expect(keyboard.press(press('j'))).toBe(true);
    expect([first.mock.calls.length, second.mock.calls.length]).toEqual([0, 1]);
    stop();
    keyboard.press(press('j'));
    expect([first.mock.calls.length, second.mock.calls.length]).toEqual([1, 1]);
  });

  it('does nothing for acts that are asleep, for keys of others, and while words are being composed', () => {
    const keyboard = createKeyboard(acts, () => ({}));
    const handler = vi.fn();
    keyboard.register(new Map([['c', handler]]));
    const untouched = press('j');
    expect(keyboard.press(untouched)).toBe(false);
    expect(untouched.preventDefault).not.toHaveBeenCalled();
    expect(keyboard.press(press('k', { isComposing: true }))).toBe(false);
    expect(keyboard.press(press('k', { defaultPrevented: true }))).toBe(false);
    expect(handler).not.toHaveBeenCalled();
  });

  it('goes on while a key is held only where the act says so', () => {
    const keyboard = createKeyboard(acts, () => ({}));
    const [once, often] = [vi.fn(), vi.fn()];
    keyboard.register(
      new Map([
        ['a', once],
        ['b', often],
      ]),
    );
    keyboard.press(press('j', { repeat: true }));
    keyboard.press(press('k', { repeat: true }));
    expect([once.mock.calls.length, often.mock.calls.length]).toEqual([0, 1]);
  });

  it('follows a changed key at once', () => {
    let changed = {};
    const keyboard = createKeyboard(acts, () => changed);
    const handler = vi.fn();
    keyboard.register(new Map([['a', handler]]));
    changed = { a: 'h' };
    expect(keyboard.press(press('j'))).toBe(false);
    expect(keyboard.press(press('h'))).toBe(true);
    expect(keyboard.keyFor('a')).toBe('h');
    expect(handler).toHaveBeenCalledTimes(1);
  });
});
