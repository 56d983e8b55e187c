import { changed } from './changed.ts';
import { cache } from './cache.ts';
import { exitFor } from './exit.ts';
import { figures } from './figures.ts';
import { look } from './look.ts';
import { refuse } from './messages.ts';
import { newStudy } from './new.ts';
import { numbers } from './numbers.ts';
import { record } from './record.ts';
import { report } from './report.ts';
import { run } from './run.ts';
import { sheet } from './sheet.ts';
import { tables } from './tables.ts';
import { usageOf } from './usage.ts';
import { verify } from './verify.ts';
import { print } from './terminal.ts';

/** A command: gives the exit code. */
type Command = (args: readonly string[]) => number | Promise<number>;

const commands: ReadonlyMap<string, Command> = new Map(
  Object.entries({ new: newStudy, run, look, record, verify, changed, numbers, report, figures, tables, sheet, cache }),
);

/** Runs the command line; 2 for wrong usage. */
export async function runCommand(args: readonly string[]): Promise<number> {
  const name = args.at(0);
  if (name === undefined || name === 'help' || name === '--help' || name === '-h') {
    print(usageOf(args.at(1)));
    return name === undefined ? 2 : 0;
  }
  if (name === '--version') return printVersion();
  const command = commands.get(name);
  if (command !== undefined) {
    const flags = flagsOf(args.slice(1));
    if (flags.includes('--help') || flags.includes('-h')) {
      print(usageOf(name));
      return 0;
    }
    if (flags.includes('--version')) return printVersion();
  }
  return command?.(args.slice(1)) ?? exitFor(refuse('command.unknown', { name, commands: [...commands.keys()] }));
}

function printVersion(): 0 {
  print(`${process.env.WASHBOARD_VERSION ?? ''}\n`);
  return 0;
}

/** What may be an option: all before a `--`, after which there are only names of files. */
function flagsOf(args: readonly string[]): readonly string[] {
  const end = args.indexOf('--');
  return end < 0 ? args : args.slice(0, end);
}
