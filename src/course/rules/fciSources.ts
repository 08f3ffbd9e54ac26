import type { Source } from './entry.ts';

const of = (kind: Source['kind'], edition: Source['edition'], text: string): Source => ({
  text,
  kind,
  edition,
});

/** Changes of 2023 as a national kennel club states them. */
export const singapore = of(
  'nationalBody',
  'this',
  'Singapore Kennel Club, FCI 2023 changes (skc.org.sg/rules-1)',
);
export const finland = of('nationalBody', 'unstated', 'Finnish Agility Association (agilityliitto.fi)');
export const spain = of('nationalBody', 'unstated', 'RSCE, Spain, judging notes (copy on lealcan.com)');
export const denmark = of('nationalBody', 'otherBody', 'DGI Denmark, course times (dgi.dk); not an FCI body');
/** Numbers of 2018 that nobody read: from memory. */
export const remembered2018 = of('original', 'earlier', 'FCI Agility Regulations, 1 January 2018');
export const changes2012 = of('secondary', 'earlier', 'FCI changes from 1 January 2012 (jps.pesprotebe.cz)');

/** Pages that tell the rules again. */
export const various = {
  fourHeights: of('secondary', 'unstated', 'agilitynow.eu, bar heights of the four categories'),
  equipment: of('secondary', 'unstated', 'agility-allstars.sk'),
  equipment2012: of('secondary', 'earlier', 'agility-allstars.sk, from 2012'),
  longJump: of('secondary', 'unstated', 'clubdogs.estranky.sk'),
  older: of('secondary', 'earlier', 'FCI text before 2012 (k9puppydogs.com)'),
  olderFrench: of('secondary', 'earlier', 'Club canin de Dumbéa, older edition'),
  olderEliminations: of(
    'secondary',
    'earlier',
    'FCI text before 2012 (k9puppydogs.com); sheet of club.canin.valognes',
  ),
  faults: of(
    'secondary',
    'unstated',
    'kvdedrielinden.be; agility-allstars.sk; Club canin de Dumbéa; DGI Denmark',
  ),
  timeFaults: of('secondary', 'unstated', 'kvdedrielinden.be; DGI Denmark'),
  refusals: of('secondary', 'unstated', 'kvdedrielinden.be; agility-allstars.sk'),
  tunnelWidth: of('secondary', 'unstated', 'ostrovzvirat.cz'),
  tunnelLength: of('secondary', 'unstated', 'ostrovzvirat.cz; novascotiannoutaja.fi'),
  poles: of('secondary', 'unstated', 'novascotiannoutaja.fi'),
} as const;

/** What the trade does, where no text was read. */
export const practice = of('own', 'unstated', 'common practice');
