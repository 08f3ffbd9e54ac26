// Outside source: ffmpeg's own signal sources, whose click and white frame share one time by construction.
import { systemBuild } from './builds.ts';
import { checkSound } from './soundChecks.ts';

checkSound(await systemBuild());
