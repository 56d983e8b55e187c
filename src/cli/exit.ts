import type { Refused } from '../result/result.ts';
import { usage } from './usage.ts';
import { complain } from './terminal.ts';

/** Says on standard error why a command was not carried out; gives the exit code for it. */
export function exitFor(refused: Refused): 2 {
  say(refused);
  // Who mistook the file needs no lesson in the options.
  if (refused.failure.code.startsWith('usage.')) complain(`\n${usage}`);
  return 2;
}

export const say = ({ failure }: Refused): void => complain(`washboard: ${failure.message}\n`);
