import type { RuleBook } from '../course/rules/book.ts';
import type { FaultKind, RankingKey, TimeFaults } from '../course/rules/runRules.ts';
import { faultKinds, runKinds } from '../course/rules/runRules.ts';
import { listed, plural } from './locale.ts';
import { endingNamed, judgedRefusalWords, scoreWords } from './score.ts';
import { obstacleWords } from './trade.ts';

type Told = readonly [string, readonly string[]];

const notCountedWords: Record<FaultKind | 'timeFaults', string> = {
  knockDown: 'bars down',
  missedContact: 'missed contacts',
  refusal: 'refusals',
  handlerTouch: 'handler touches',
  timeFaults: 'time faults',
};

const keyWords: Record<RankingKey, string> = {
  total: 'faults in all',
  courseFaults: 'faults on the course',
  timeFaults: 'time faults',
  refusals: 'refusals',
  time: 'time',
};

/** What the entries about scoring say, by their names. */
export function scoringEntries({ scoring: s }: RuleBook, dialect: 'british' | 'american'): Told[] {
  const told: Told[] = [];
  for (const kind of faultKinds) {
    const price = s.faults[kind];
    if (price) told.push([`scoring.faults.${kind}`, [String(price.value)]]);
  }
  if (s.refusals) {
    told.push(['scoring.refusals', [sentence(s.refusals.value.map((kind) => judgedRefusalWords[kind]))]]);
  }
  if (s.lastRefusal) told.push(['scoring.lastRefusal', [`refusal number ${s.lastRefusal.value}`]]);
  if (s.contacts) {
    told.push([
      'scoring.contacts',
      s.contacts.value.map(({ kind, up, down }) => {
        const zones = [...(up ? ['the way up'] : []), ...(down ? ['the way down'] : [])];
        return `${obstacleWords[dialect][kind]}: ${zones.length === 0 ? 'neither' : listed(zones)}`;
      }),
    ]);
  }
  if (s.pawsToLeave) {
    const paws = plural(s.pawsToLeave.value, { one: '# paw', other: '# paws' });
    told.push(['scoring.pawsToLeave', [`with ${paws} on the ground`]]);
  }
  if (s.eliminations) told.push(['scoring.eliminations', [sentence(s.eliminations.value.map(endingNamed))]]);
  if (s.timeFaults) told.push(['scoring.timeFaults', [timeFaults(s.timeFaults.value)]]);
  if (s.resultClasses) {
    told.push([
      'scoring.resultClasses',
      s.resultClasses.value.map((c) => `${c.name}: up to ${c.upTo.toFixed(2)} faults`),
    ]);
  }
  if (s.ranking) {
    const keys = s.ranking.value.keys.map((key) => keyWords[key]);
    told.push(['scoring.ranking', [`by ${keys.join(', then ')}`, scoreWords.runOff[s.ranking.value.ties]]]);
  }
  s.levels.forEach(({ value }, i) => {
    const off = value.notCounted.map((kind) => notCountedWords[kind]);
    told.push([
      `scoring.levels.${i}`,
      [
        value.id === value.name ? value.name : `${value.name} (${value.id})`,
        ...(value.beginners ? ['for beginners'] : []),
        ...(off.length > 0 ? [`not counted: ${listed(off)}`] : []),
      ],
    ]);
  });
  for (const kind of runKinds) {
    const run = s.runs[kind];
    if (!run) continue;
    const aside = run.value.setAside.map(endingNamed);
    told.push([
      `scoring.runs.${kind}`,
      [
        ...(aside.length > 0 ? [`noted, and ends nothing: ${listed(aside)}`] : []),
        run.value.resultClass ? 'the run gets a class of result' : 'the run gets no class of result',
      ],
    ]);
  }
  return told;
}

const sentence = (items: readonly string[]): string => (items.length === 0 ? 'nothing' : listed(items));

function timeFaults({ points, perSeconds, counting }: TimeFaults): string {
  const price = plural(points, { one: '# fault', other: '# faults' });
  const per = perSeconds === 1 ? 'second' : `${String(perSeconds)} seconds`;
  const how = {
    exact: 'to hundredths',
    begun: 'each one begun counts whole',
    full: 'only whole ones count',
  }[counting];
  return `${price} for each ${per} over the course time, ${how}`;
}
