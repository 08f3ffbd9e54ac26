import { join } from 'node:path';
import { emptyFolder, forkStandIn, linkTo } from './lines.ts';
import { hostSuite } from './suite.ts';

hostSuite('in a process of its own', async () => {
  const folder = await emptyFolder();
  const host = await forkStandIn(join(folder.path, 'library'));
  return {
    link: linkTo(host),
    async close() {
      await host.close();
      await folder.remove();
    },
  };
});
