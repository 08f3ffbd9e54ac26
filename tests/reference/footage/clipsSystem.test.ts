import { systemBuild } from './builds.ts';
import { checkClips } from './clipChecks.ts';

checkClips(await systemBuild());
