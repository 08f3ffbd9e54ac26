/** The parts of a keyboard event that name its key. */
export interface KeyPress {
  readonly key: string;
  readonly ctrlKey: boolean;
  readonly metaKey: boolean;
  readonly altKey: boolean;
  readonly shiftKey: boolean;
}

const heldAlone = new Set(['Control', 'Shift', 'Alt', 'Meta', 'AltGraph', 'Dead', 'Process', 'Unidentified']);

/**
 * The name of a pressed key: "j", "Shift+j", "ArrowLeft", "Space", "?", "Ctrl+z". Letters are small; signs that
 * need Shift carry none, because the layout decides that. Command on a Mac counts as Ctrl. Null for a key that is
 * only held (Shift and the like).
 */
export function keyName(press: KeyPress): string | null {
  if (heldAlone.has(press.key)) return null;
  const letter = press.key.length === 1;
  const cased = letter && press.key.toLowerCase() !== press.key.toUpperCase();
  const base = press.key === ' ' ? 'Space' : cased ? press.key.toLowerCase() : press.key;
  let name = base;
  if (press.shiftKey && (cased || !letter || base === 'Space')) name = `Shift+${name}`;
  if (press.altKey) name = `Alt+${name}`;
  if (press.ctrlKey || press.metaKey) name = `Ctrl+${name}`;
  return name;
}

/** The keys held and the key pressed, apart: ["Ctrl", "z"]. The plus sign itself is a key too. */
export function keyParts(name: string): readonly string[] {
  const held: string[] = [];
  let rest = name;
  for (;;) {
    const match = /^(Ctrl|Alt|Shift)\+(?=.)/.exec(rest);
    if (!match?.[1]) return [...held, rest];
    held.push(match[1]);
    rest = rest.slice(match[0].length);
  }
}

/** Keys that the system, the browser or getting about by keyboard need; an act cannot have them. */
const kept = new Set(['Tab', 'Shift+Tab', 'Escape', 'Enter', 'F5', 'F11', 'F12']);
export const keyIsKept = (name: string): boolean => kept.has(name) || /(^|\+)(Tab|F5)$/.test(name);
