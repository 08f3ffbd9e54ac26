// Published source: ffprobe's own listing of decoded frames (`ffprobe -show_frames`), see frameIndex.test.ts.
import { packaged } from './builds.ts';
import { checkCopies } from './copyChecks.ts';

checkCopies(packaged);
