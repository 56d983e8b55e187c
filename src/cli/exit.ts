import type { Message, Refused } from '../result/result.ts';
import { complain } from './terminal.ts';

/** Says on standard error why a command was not carried out; gives the exit code for it. */
export function exitFor(refused: Refused): 2 {
  say(refused);
  // The usage itself would push the sentence out of sight; and who mistook the file needs no lesson in the options.
  if (refused.failure.code.startsWith('usage.')) complain('washboard COMMAND --help says how a command is called.\n');
  return 2;
}

/** Says on standard error what a reader should know of what was done. */
export const remark = ({ message }: Message): void => complain(`washboard: ${message}\n`);

export const say = ({ failure }: Refused): void => complain(`washboard: ${failure.message}\n`);
