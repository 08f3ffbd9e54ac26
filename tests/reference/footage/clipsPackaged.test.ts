import { packaged } from './builds.ts';
import { checkClips } from './clipChecks.ts';

checkClips(packaged);
