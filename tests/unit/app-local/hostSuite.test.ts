import { mkdir } from 'node:fs/promises';
import { join } from 'node:path';
import { expect } from 'vitest';
import { WebSocket } from 'ws';
import { serveLoopback, type Loopback } from '../../../app/local/server.ts';
import { link, type Link } from '../../../src/host/contract/link.ts';
import { keyProtocolPrefix, wireProtocol } from '../../../src/host/contract/loopback.ts';
import { emptyFolder, forkStandIn } from '../host-suite/lines.ts';
import { hostSuite } from '../host-suite/suite.ts';
import { visitor, type Visitor } from './browserLike.ts';

/** A window's web socket, as its page opens it. */
async function windowAt(server: Loopback, { cookie, key }: Visitor): Promise<{ link: Link; leave(): void }> {
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
    leave: () => {
      socket.close();
    },
  };
}

hostSuite('over loopback, with the host in a process of its own', async () => {
  const folder = await emptyFolder();
  const files = join(folder.path, 'files');
  await mkdir(files);
  const host = await forkStandIn(join(folder.path, 'library'), {
    trustedPaths: false,
    allowedFolders: [files],
  });
  const front = { bytes: Buffer.from('x'), mime: 'text/html', lasting: false };
  const server = await serveLoopback({ host, files: new Map([['/', front]]), port: 0 });
  const me = await visitor(server);
  const window = await windowAt(server, me);
  return {
    link: window.link,
    files,
    another: () => windowAt(server, me),
    async read(mediaId) {
      // A report is shown at an address of its own, and only there.
      for (const path of [`/media/${mediaId}`, `/report/${mediaId}`]) {
        const answer = await me.get(path);
        if (answer.status === 200) return answer.body;
      }
      return null;
    },
    async send(name, bytes) {
      const json = { 'content-type': 'application/json' };
      const begun = await me.post('/uploads', JSON.stringify({ name, bytes: bytes.length }), json);
      const { uploadId } = JSON.parse(begun.body.toString()) as { uploadId: string };
      const octets = { 'content-type': 'application/octet-stream' };
      const sent = await me.post(`/uploads/${uploadId}`, bytes, octets);
      expect(sent.status).toBe(204);
      return { uploadId };
    },
    async close() {
      window.leave();
      await server.close();
      await host.close();
      await folder.remove();
    },
  };
});
