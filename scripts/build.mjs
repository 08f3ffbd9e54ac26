// npm run build: builds desktop, host and window into .build, whether or not their sources have changed.
import { build } from './building.mjs';
import { installPackages } from './packages.mjs';

process.exitCode = (await installPackages()) && (await build({ always: true })) ? 0 : 1;
