import { connected, forkStandIn } from './lines.ts';
import { hostSuite } from './suite.ts';

hostSuite('in a process of its own', () => connected((library) => forkStandIn(library)));
