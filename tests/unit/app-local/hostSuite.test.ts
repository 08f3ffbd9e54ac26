import { join } from 'node:path';
import { WebSocket } from 'ws';
import { serveLoopback } from '../../../app/local/server.ts';
import { link } from '../../../src/host/contract/link.ts';
import { keyProtocolPrefix, wireProtocol } from '../../../src/host/contract/loopback.ts';
import { emptyFolder, forkStandIn } from '../host-suite/lines.ts';
import { hostSuite } from '../host-suite/suite.ts';
import { visitor } from './browserLike.ts';

hostSuite('over loopback, with the host in a process of its own', async () => {
  const folder = await emptyFolder();
  const host = await forkStandIn(join(folder.path, 'library'));
  const front = { bytes: Buffer.from('x'), mime: 'text/html', lasting: false };
  const server = await serveLoopback({ host, files: new Map([['/', front]]), port: 0 });
  const { cookie, key } = await visitor(server);
  const socket = new WebSocket(`ws://${server.place}/wire`, [wireProtocol, `${keyProtocolPrefix}${key}`], {
    headers: { cookie, origin: `http://${server.place}` },
  });
  await new Promise((resolve, reject) => {
    socket.once('open', resolve);
    socket.once('error', reject);
  });
  return {
    link: link({
      send: (message) => {
        socket.send(JSON.stringify(message));
      },
      listen: (on) => {
        socket.on('message', (data: Buffer) => {
          on(JSON.parse(data.toString('utf8')));
        });
      },
    }),
    async close() {
      socket.close();
      await server.close();
      await host.close();
      await folder.remove();
    },
  };
});
