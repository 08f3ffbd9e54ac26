import { openHost } from './host.ts';
import { processPort } from './processPort.ts';
import { ownRooms } from './ownRooms.ts';
import { serve } from './serve.ts';

/** The host's own process, started by a shell. It ends when the host is closed or the shell is gone. */
const served = serve(
  processPort(() => void served.close().finally(() => process.exit(0))),
  async (settings) => openHost(settings, await ownRooms()),
  (code) => process.exit(code),
);
