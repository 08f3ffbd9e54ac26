import { z } from 'zod';
import { LibraryTrouble, asLibraryTrouble } from '../library/trouble.ts';
import { hostTroubles } from '../words/hostTroubles.ts';
import { HostTrouble } from './contract/link.ts';
import { Trouble } from './contract/shapes.ts';

/** An error that a handler raises on purpose. */
export const trouble = (code: Trouble['code'], message: string): HostTrouble =>
  new HostTrouble({ code, message });

const codes: ReadonlySet<string> = new Set(Trouble.shape.code.options);

/**
 * The form in which an error travels to a window. Errors of the rooms carry a code and a sentence of their own;
 * anything else is a fault of the program: it is told as such, and `onFault` gets it whole.
 */
export function toTrouble(folder: string, error: unknown, onFault: (error: unknown) => void): Trouble {
  const known = asLibraryTrouble(folder, error);
  if (known instanceof HostTrouble || known instanceof LibraryTrouble) {
    return { code: known.code, message: known.message };
  }
  if (known instanceof Error && known.name === 'AbortError') {
    return { code: 'cancelled', message: hostTroubles.stopped };
  }
  if (known instanceof z.ZodError) {
    const issue = known.issues[0];
    const place = issue?.path.map(String).join('.') ?? '';
    return { code: 'badInput', message: hostTroubles.cannotBeTaken(place, issue?.message ?? '') };
  }
  if (known instanceof Error && 'code' in known && typeof known.code === 'string' && codes.has(known.code)) {
    return { code: known.code as Trouble['code'], message: known.message };
  }
  onFault(known);
  return {
    code: 'internal',
    message: hostTroubles.internal(known instanceof Error ? known.message : String(known)),
  };
}
