import type { Act } from './act.ts';
import { keyName, type KeyPress } from './keyName.ts';
import { keyOf, keysOf, type ChangedKeys } from './keyTable.ts';

/** A key press as the keyboard needs it; a DOM KeyboardEvent is one. */
export interface Press extends KeyPress {
  readonly repeat: boolean;
  readonly isComposing: boolean;
  readonly defaultPrevented: boolean;
  readonly target: unknown;
  preventDefault(): void;
}

export type ActHandler = (press: Press) => void;

/** Hands key presses to whoever can do the act. The one that registered last comes first. */
export interface Keyboard {
  readonly acts: readonly Act[];
  /** Registers handlers by act name; returns the way to take them back. */
  register(handlers: ReadonlyMap<string, ActHandler>): () => void;
  /** True where the press was an act that somebody could do. */
  press(press: Press): boolean;
  /** Does an act as its key would, for a button that stands for it. False where nobody can do it now. */
  do(actName: string): boolean;
  /** The key that does this act now; empty where it has none. */
  keyFor(actName: string): string;
  /** True where a handler for this act is registered. */
  awake(actName: string): boolean;
}

/** What an act is told that was not asked for by a key. */
const byButton: Press = {
  key: '',
  ctrlKey: false,
  metaKey: false,
  altKey: false,
  shiftKey: false,
  repeat: false,
  isComposing: false,
  defaultPrevented: false,
  target: null,
  preventDefault: () => undefined,
};

/** Makes a keyboard over a table of acts; `changed` is read at each press. */
export function createKeyboard(acts: readonly Act[], changed: () => ChangedKeys): Keyboard {
  const byName = new Map(acts.map((act) => [act.name, act]));
  const layers: ReadonlyMap<string, ActHandler>[] = [];

  return {
    acts,
    register(handlers) {
      layers.push(handlers);
      return () => {
        const at = layers.indexOf(handlers);
        if (at >= 0) layers.splice(at, 1);
      };
    },
    press(press) {
      if (press.defaultPrevented || press.isComposing) return false;
      const key = keyName(press);
      if (key === null || keyBelongsToTarget(press.target, key)) return false;
      const meant = acts.filter((act) => keysOf(act, changed()).includes(key));
      for (const handlers of [...layers].reverse()) {
        for (const act of meant) {
          const handler = handlers.get(act.name);
          if (!handler) continue;
          press.preventDefault();
          if (!press.repeat || act.repeat === true) handler(press);
          return true;
        }
      }
      return false;
    },
    do(actName) {
      const handler = layers.findLast((handlers) => handlers.has(actName))?.get(actName);
      handler?.(byButton);
      return handler !== undefined;
    },
    keyFor(actName) {
      const act = byName.get(actName);
      return act ? keyOf(act, changed()) : '';
    },
    awake: (actName) => layers.some((handlers) => handlers.has(actName)),
  };
}

const arrows = new Set([
  'ArrowLeft',
  'ArrowRight',
  'ArrowUp',
  'ArrowDown',
  'Home',
  'End',
  'PageUp',
  'PageDown',
]);

const pointing = new Set(['ArrowLeft', 'ArrowRight', 'ArrowUp', 'ArrowDown']);

/**
 * True where the focused element needs this key itself: text fields need all of them, a button Enter and Space,
 * sliders, radio buttons and lists the arrows. An element with `data-own-keys` keeps every key, one with
 * `data-own-arrows` the four arrows and no other.
 */
export function keyBelongsToTarget(target: unknown, key: string): boolean {
  if (typeof Element === 'undefined' || !(target instanceof Element)) return false;
  if (target.closest('[data-own-keys], dialog[open]')) return true;
  // What had the focus in a dialog may be gone: the keys are the dialog's all the same.
  const { body } = target.ownerDocument;
  if (target === body && body.querySelector('dialog[open]')) return true;
  const plain = key.replace(/^Shift\+/, '');
  if (target.closest('[data-own-arrows]')) return pointing.has(plain);
  if (target instanceof HTMLInputElement) {
    if (target.type === 'checkbox' || target.type === 'button' || target.type === 'submit') {
      return plain === 'Space' || plain === 'Enter';
    }
    if (target.type === 'radio' || target.type === 'range') return arrows.has(plain) || plain === 'Space';
    return !/^F\d+$/.test(plain);
  }
  if (target.closest('textarea, [contenteditable]:not([contenteditable="false"])'))
    return !/^F\d+$/.test(plain);
  if (target.closest('select, [role="listbox"], [role="slider"], [role="menu"]')) {
    return arrows.has(plain) || plain === 'Space' || plain === 'Enter' || plain.length === 1;
  }
  // A page that is in front already has no use for its own press.
  if (target.closest('[role="tab"][aria-selected="true"]')) return false;
  if (target.closest('button, a[href], summary, [role="button"]')) {
    return plain === 'Enter' || (plain === 'Space' && !target.closest('a[href]'));
  }
  return false;
}
