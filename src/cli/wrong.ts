import { usage } from './usage.ts';

/** Says on standard error what is wrong with the call; gives the exit code for it. */
export function wrong(message: string, withUsage = true): 2 {
  process.stderr.write(`washboard: ${message}\n${withUsage ? `\n${usage}` : ''}`);
  return 2;
}
