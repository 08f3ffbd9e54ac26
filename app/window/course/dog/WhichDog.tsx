import { FileInput } from 'lucide-react';
import { useState } from 'react';
import { longestDogName } from '../../../../src/line/dog.ts';
import { dogWords as words } from '../../../../src/words/dog.ts';
import { dogFileWords } from '../../../../src/words/dogFile.ts';
import { Button } from '../../look/Button.tsx';
import { KeptField, SelectField, TextField } from '../../look/Field.tsx';
import styles from './DogPage.module.css';
import type { DogDesk } from './useDogDesk.ts';

/** Stands in the list for a name that no dog of the library has. No id is empty or this short. */
const notKept = '?';

/** Which dog the review is about: chosen, added, renamed. */
export function WhichDog({ desk }: { readonly desk: DogDesk }) {
  const { named, dogs, kept, dog } = desk;
  const unknown = named !== '' && !kept;
  return (
    <section className={styles['part']}>
      <h2>{words.title}</h2>
      <SelectField
        label={words.which}
        value={kept?.id ?? (unknown ? notKept : '')}
        options={[
          ['', words.nobody],
          ...(unknown ? [[notKept, words.unknown(named)] as const] : []),
          ...dogs.map(({ id, name }) => [id, name] as const),
        ]}
        onChange={(id) => {
          if (id !== notKept) desk.name(dogs.find((d) => d.id === id)?.name ?? '');
        }}
      />
      {unknown && (
        <>
          <p className={styles['soft']}>{words.assumedSoFar(named)}</p>
          <div>
            <Button kind="main" onClick={() => void desk.add(named)}>
              {words.add(named)}
            </Button>
          </div>
        </>
      )}
      {named === '' && <NewDog desk={desk} />}
      {kept && !dog && <p role="alert">{words.damaged(kept.name)}</p>}
      <div>
        <Button kind="quiet" icon={<FileInput aria-hidden />} onClick={desk.take}>
          {dogFileWords.take}
        </Button>
      </div>
      {dog && (
        <KeptField
          label={words.name}
          value={dog.name}
          maxLength={longestDogName}
          {...(dog.alsoCalled.length > 0 ? { hint: words.alsoCalled(dog.alsoCalled) } : {})}
          onKeep={(name) => void desk.rename(name)}
        />
      )}
    </section>
  );
}

/** A dog by a name of her own, where the review names none. */
function NewDog({ desk }: { readonly desk: DogDesk }) {
  const [name, setName] = useState('');
  const blank = name.trim() === '';
  return (
    <form
      className={styles['part']}
      onSubmit={(event) => {
        event.preventDefault();
        if (!blank) void desk.add(name);
      }}
    >
      <p className={styles['soft']}>{words.start}</p>
      <TextField label={words.newName} value={name} maxLength={longestDogName} onChange={setName} />
      <div>
        <Button type="submit" disabled={blank}>
          {words.addNew}
        </Button>
      </div>
    </form>
  );
}
