import { useEffect } from 'react';
import { useStore } from 'zustand';
import type { PlanSheet } from '../../../../src/plan/plan.ts';
import { useBoard } from '../BoardContext.ts';
import { noOverlay, type Overlay } from '../board/overlay.ts';
import type { ReadHands } from './readOverlay.ts';

/** Lays something over the course while a page is in front. */
export function useOverlay(overlay: Overlay): void {
  const board = useBoard();
  useEffect(() => {
    board.setOverlay(overlay);
  });
  useEffect(
    () => () => {
      board.settle();
      board.setState({ grip: null });
      board.setOverlay(noOverlay);
    },
    [board],
  );
}

/** What of an overlay is in hand, and the acts of the keys for it. */
export function useGripInHand(
  overlay: Overlay,
  without: (grip: string) => ((sheet: PlanSheet) => PlanSheet) | null,
  hands: ReadHands & { readonly awayLabel: string },
): {
  readonly inHand: string | null;
  readonly next: (() => void) | undefined;
  readonly drop: (() => void) | undefined;
} {
  const board = useBoard();
  const grip = useStore(board, (v) => v.grip);
  // Half-way marks of a line are for the pointer: keys move what is there.
  const ids = overlay.grips.map((g) => g.id).filter((id) => !id.startsWith('half'));
  const inHand = grip !== null && ids.includes(grip) ? grip : null;
  const away = inHand === null ? null : without(inHand);
  return {
    inHand,
    next:
      ids.length === 0
        ? undefined
        : () => {
            board.settle();
            const at = inHand === null ? -1 : ids.indexOf(inHand);
            board.setState({ chosen: [], line: null, grip: ids[(at + 1) % ids.length] ?? null });
          },
    drop:
      away === null
        ? undefined
        : () => {
            board.settle();
            hands.keep(hands.awayLabel, away);
            board.setState({ grip: null });
          },
  };
}
