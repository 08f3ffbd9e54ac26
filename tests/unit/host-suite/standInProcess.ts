import { openHost } from '../../../src/host/host.ts';
import { processPort } from '../../../src/host/processPort.ts';
import { serve } from '../../../src/host/serve.ts';
import { standInFootage, standInReport } from './standIns.ts';

/** A host process whose footage room runs no ffmpeg; all else is the real thing. */
const served = serve(
  processPort(() => void served.close().finally(() => process.exit(0))),
  (settings) => openHost(settings, { footage: standInFootage(), report: standInReport }),
  (code) => process.exit(code),
);
