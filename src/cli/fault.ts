import { debuglog } from 'node:util';
import { reasonOf } from '../disk/faults.ts';
import { refuse as refuseDisk } from '../disk/messages.ts';
import { isOutOfMemory, isSystemRefusal, wordsOf } from '../result/environment.ts';
import { exitFor, say } from './exit.ts';
import { refuse } from './messages.ts';

/** Silent, unless NODE_DEBUG=washboard asks where in the program a fault came from. */
const trace = debuglog('washboard');

/** Tells what ended a command that should have come to an end of its own; gives the exit code for it. */
export function exitForFault(error: unknown): 2 | 70 {
  if (error instanceof Error) trace('%s', error.stack);
  // What the system refuses is no fault of the program's.
  if (isSystemRefusal(error)) return exitFor(refuseDisk('disk.failed', { path: error.path, ...reasonOf(error) }));
  if (isOutOfMemory(error)) return exitFor(refuse('memory', {}));
  say(refuse('fault', { reason: wordsOf(error) }));
  return 70;
}
