import { runCommand } from './commands.ts';
import { exitForFault } from './fault.ts';
import { settleKept } from './keptResults.ts';
import { compileLate } from '../disk/compileLate.ts';
import { keepYoungMemorySmall } from '../disk/youngMemory.ts';

const ended = (error: unknown): void => void process.exit(exitForFault(error));

// Not before all of the program is loaded, which would then be interrupted again and again.
keepYoungMemorySmall();
compileLate();

// A reader that has seen enough, such as `head`, closes the pipe: that is no fault.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code === 'EPIPE') process.exit(process.exitCode ?? 0);
  ended(error);
});
// Where nobody can be told, there is nothing to tell.
process.stderr.on('error', () => process.exit(process.exitCode ?? 2));
process.on('uncaughtException', ended);

// Exit only once what was printed has been handed over, or a pipe would lose its end.
runCommand(process.argv.slice(2)).then(
  (code) => {
    process.exitCode = code;
    return settleKept();
  },
  (error: unknown) => {
    process.exitCode = exitForFault(error);
  },
);
