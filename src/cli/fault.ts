import { isDiskFault, reasonOf } from '../disk/faults.ts';
import { refuse } from '../disk/messages.ts';
import { exitFor } from './exit.ts';

/** Tells what ended a command that should have come to an end of its own; gives the exit code for it. */
export function exitForFault(error: unknown): 2 | 70 {
  // What the system refuses is no fault of the program's.
  if (isDiskFault(error)) return exitFor(refuse('disk.failed', { path: error.path, ...reasonOf(error) }));
  const reason = error instanceof Error ? (error.stack ?? error.message) : String(error);
  process.stderr.write(`washboard: this is a fault of the program: ${reason}\n`);
  return 70;
}
