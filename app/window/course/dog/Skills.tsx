import { obstacleKinds } from '../../../../src/course/kinds.ts';
import { fromUnit, inUnit } from '../../../../src/course/grid.ts';
import type { Dog } from '../../../../src/line/dog.ts';
import { entryBands, entrySides, farthestSent } from '../../../../src/line/skills.ts';
import { withEntry, withSkill, withTurn } from '../../../../src/line/noteSkill.ts';
import { dogWords as words } from '../../../../src/words/dog.ts';
import { plainFigure } from '../../../../src/words/drawing.ts';
import { obstacleWords } from '../../../../src/words/trade.ts';
import { KeptField, SelectField } from '../../look/Field.tsx';
import { usePreferences, useWorkbench } from '../../stores/react.ts';
import { CountField } from './CountField.tsx';
import styles from './DogPage.module.css';
import type { DogDesk } from './useDogDesk.ts';
import { typedNumber } from '../rules/timing.ts';

interface SkillsProps {
  readonly desk: DogDesk;
  readonly dog: Dog;
}

const kinds = obstacleKinds.filter((kind) => kind !== 'unknown');

/** What she can do, as far as it is noted. */
export function Skills({ desk, dog }: SkillsProps) {
  const { notices } = useWorkbench();
  const lengths = usePreferences((p) => p.lengths);
  const trade = obstacleWords[usePreferences((p) => p.dialect)];
  const { skills } = dog;
  const sent = words.sent(lengths);
  return (
    <section className={styles['part']}>
      <h2>{words.skills}</h2>
      <p className={styles['soft']}>{words.skillsIntro}</p>
      <WeaveEntries desk={desk} dog={dog} />
      <div className={styles['fields']}>
        <CountField
          label={words.rearCross}
          count={skills.rearCrossAtPoles}
          onKeep={(count) => {
            desk.changeSkills(words.rearCross, (s) => withSkill(s, 'rearCrossAtPoles', count));
          }}
        />
        <CountField
          label={words.stay}
          count={skills.stay}
          onKeep={(count) => {
            desk.changeSkills(words.stay, (s) => withSkill(s, 'stay', count));
          }}
        />
        {(['left', 'right'] as const).map((way) => (
          <SelectField<'unknown' | 'yes' | 'no'>
            key={way}
            label={words.turns[way]}
            value={turnOf(skills.verbalTurns[way])}
            options={[
              ['unknown', words.turn.unknown],
              ['yes', words.turn.yes],
              ['no', words.turn.no],
            ]}
            onChange={(turn) => {
              const turns = turn === 'unknown' ? undefined : turn === 'yes';
              desk.changeSkills(words.turns[way], (s) => withTurn(s, way, turns));
            }}
          />
        ))}
        <KeptField
          label={sent}
          hint={words.sentHint}
          inputMode="decimal"
          value={skills.sentMetres === undefined ? '' : plainFigure(inUnit(skills.sentMetres, lengths))}
          onKeep={(text) => {
            const most = inUnit(farthestSent, lengths);
            const typed = typedNumber(text, 0, most);
            if (typed === null) notices.getState().say(words.notADistance(plainFigure(most)));
            else {
              const metres = typed === undefined ? undefined : fromUnit(typed, lengths);
              desk.changeSkills(sent, (s) => withSkill(s, 'sentMetres', metres));
            }
          }}
        />
      </div>
      <fieldset className={styles['met']}>
        <legend>{words.neverMet}</legend>
        {kinds.map((kind) => (
          <label key={kind}>
            <input
              type="checkbox"
              checked={skills.neverMet.includes(kind)}
              onChange={({ target: { checked } }) => {
                desk.changeSkills(`${words.neverMet}: ${trade[kind]}`, (s) => ({
                  ...s,
                  neverMet: [...s.neverMet.filter((k) => k !== kind), ...(checked ? [kind] : [])],
                }));
              }}
            />
            {trade[kind]}
          </label>
        ))}
      </fieldset>
    </section>
  );
}

const turnOf = (known: boolean | undefined): 'unknown' | 'yes' | 'no' =>
  known === undefined ? 'unknown' : known ? 'yes' : 'no';

/** Entries into the poles, by side and angle. */
function WeaveEntries({ desk, dog }: SkillsProps) {
  const trade = obstacleWords[usePreferences((p) => p.dialect)];
  return (
    <>
      <table className={styles['entries']}>
        <caption>{words.weaves(trade)}</caption>
        <thead>
          <tr>
            <th scope="col">{words.angle}</th>
            {entrySides.map((side) => (
              <th key={side} scope="col">
                {words.sides[side]}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {entryBands.map((band) => (
            <tr key={band}>
              <th scope="row">{words.bands[band]}</th>
              {entrySides.map((side) => {
                const label = words.entry(side, band);
                return (
                  <td key={side}>
                    <CountField
                      bare
                      label={label}
                      count={dog.skills.weaveEntries.find((e) => e.side === side && e.band === band)?.count}
                      onKeep={(count) => {
                        desk.changeSkills(words.entryAct(side, band), (s) => withEntry(s, side, band, count));
                      }}
                    />
                  </td>
                );
              })}
            </tr>
          ))}
        </tbody>
      </table>
      <p className={styles['small']}>
        {words.weavesHint} {words.spreadHint}
      </p>
    </>
  );
}
