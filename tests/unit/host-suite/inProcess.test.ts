import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { link } from '../../../src/host/contract/link.ts';
import { openHost } from '../../../src/host/host.ts';
import { standInFootage, standInReport } from './standIns.ts';
import { hostSuite } from './suite.ts';

hostSuite('in this process', async () => {
  const folder = await mkdtemp(join(tmpdir(), 'walkback-'));
  const host = await openHost(
    { folder: join(folder, 'library'), shell: 'test', version: '0', trustedPaths: true },
    { footage: standInFootage(), report: standInReport },
  );
  let listener: (message: unknown) => void = () => undefined;
  const seat = host.seat((message) => listener(message));
  return {
    link: link({ send: (m) => seat.receive(m), listen: (on) => (listener = on) }),
    async close() {
      await host.close();
      await rm(folder, { recursive: true });
    },
  };
});
