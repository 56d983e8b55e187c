import { runCommand } from './commands.ts';

// Exit only once what was printed has been handed over, or a pipe would lose its end.
runCommand(process.argv.slice(2)).then(
  (code) => {
    process.exitCode = code;
  },
  (error: unknown) => {
    process.stderr.write(
      `washboard: this is a fault of the program: ${error instanceof Error ? (error.stack ?? error.message) : String(error)}\n`,
    );
    process.exitCode = 70;
  },
);
