import { figures } from './figures.ts';
import { look } from './look.ts';
import { record } from './record.ts';
import { report } from './report.ts';
import { run } from './run.ts';
import { sheet } from './sheet.ts';
import { usage } from './usage.ts';
import { verify } from './verify.ts';

/** A command: gives the exit code. */
type Command = (words: readonly string[]) => Promise<number>;

const commands: Readonly<Record<string, Command>> = { run, look, record, verify, report, figures, sheet };

/** Runs the command line; 2 for wrong usage. */
export async function runCommand(words: readonly string[]): Promise<number> {
  const [name, ...rest] = words;
  if (name === undefined || name === 'help' || name === '--help' || name === '-h') {
    process.stdout.write(usage);
    return name === undefined ? 2 : 0;
  }
  if (name === '--version') {
    process.stdout.write(`${process.env.WASHBOARD_VERSION ?? ''}\n`);
    return 0;
  }
  const command = commands[name];
  if (command !== undefined) return command(rest);
  process.stderr.write(`washboard: there is no command "${name}"; there is ${Object.keys(commands).join(', ')}.\n`);
  return 2;
}
