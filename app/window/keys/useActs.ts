import { useLayoutEffect, useRef } from 'react';
import { useWorkbench } from '../stores/react.ts';
import type { ActName } from './allActs.ts';
import type { ActHandler } from './keyboard.ts';

/** What a component can do now; undefined entries are asleep. */
export type ActHandlers = Partial<Record<ActName, ActHandler | undefined>>;

/** Registers acts while the component is there. Handlers may change at each drawing; the newest are called. */
export function useActs(handlers: ActHandlers): void {
  const { keyboard } = useWorkbench();
  const newest = useRef(handlers);
  // Before the screen is painted: a key pressed on what is seen must find its act.
  useLayoutEffect(() => {
    newest.current = handlers;
  });
  const names = (Object.keys(handlers) as ActName[]).filter((name) => handlers[name]);
  const list = names.sort().join(' ');
  useLayoutEffect(() => {
    const entries = list === '' ? [] : (list.split(' ') as ActName[]);
    return keyboard.register(
      new Map(entries.map((name) => [name, (press) => newest.current[name]?.(press)] as const)),
    );
  }, [keyboard, list]);
}
