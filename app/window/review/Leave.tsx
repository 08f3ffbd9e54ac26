import type { ReactNode } from 'react';
import { Button } from '../look/Button.tsx';
import { useDesk } from './DeskContext.ts';

/** The button that ends what the hands are at, as Esc does. */
export function Leave({ kind, children }: { readonly kind?: 'main'; readonly children: ReactNode }) {
  const { hands } = useDesk();
  return (
    <Button
      {...(kind ? { kind } : {})}
      act="review.leave"
      onClick={() => {
        hands.leave();
      }}
    >
      {children}
    </Button>
  );
}
