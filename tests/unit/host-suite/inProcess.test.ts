import { join } from 'node:path';
import { openHost } from '../../../src/host/host.ts';
import { emptyFolder, linkTo, settingsFor } from './lines.ts';
import { standInFootage, standInReport } from './standIns.ts';
import { hostSuite } from './suite.ts';

hostSuite('in this process', async () => {
  const folder = await emptyFolder();
  const host = await openHost(settingsFor(join(folder.path, 'library')), {
    footage: standInFootage(),
    report: standInReport,
  });
  return {
    link: linkTo(host),
    async close() {
      await host.close();
      await folder.remove();
    },
  };
});
