import { openHost } from '../../../src/host/host.ts';
import { connected, settingsFor } from './lines.ts';
import { standInFootage, standInReport } from './standIns.ts';
import { hostSuite } from './suite.ts';

hostSuite('in this process', () =>
  connected((library) =>
    openHost(settingsFor(library), { footage: standInFootage(), report: standInReport }),
  ),
);
