import type { DoneOf } from '../../../../src/line/skills.ts';
import { dogWords as words, typedCount } from '../../../../src/words/dog.ts';
import { KeptField } from '../../look/Field.tsx';
import { useWorkbench } from '../../stores/react.ts';

interface CountFieldProps {
  readonly label: string;
  readonly bare?: boolean;
  readonly count: DoneOf | undefined;
  readonly onKeep: (count: DoneOf | undefined) => void;
}

/** So many done of so many tried, and how little few tries tell. */
export function CountField({ label, bare = false, count, onKeep }: CountFieldProps) {
  const { notices } = useWorkbench();
  return (
    <KeptField
      label={label}
      bare={bare}
      inputMode="text"
      value={count ? words.count(count.done, count.tried) : ''}
      placeholder={words.countPlaceholder}
      {...(count ? { hint: words.spread(count.done, count.tried) } : {})}
      onKeep={(text) => {
        const typed = typedCount(text);
        if (typed === null) notices.getState().say(words.notACount(label));
        else onKeep(typed);
      }}
    />
  );
}
