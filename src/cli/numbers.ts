import { withNumbers } from '../notebook/proseNumbers.ts';
import { serializeNotebook } from '../notebook/serialize.ts';
import { writeProduct } from '../disk/writing.ts';
import type { NumberCheck } from '../engine/proseNumbers.ts';
import type { Result } from '../result/result.ts';
import { parsed, projectOptions } from './args.ts';
import { exitFor } from './exit.ts';
import { refuse } from './messages.ts';
import { openNotebook, type OpenNotebook } from './notebookFile.ts';
import { runAll } from './runWhole.ts';
import { print } from './terminal.ts';

/**
 * `washboard numbers`: each number of the prose that says what it is, and what became of it; with `--write` those that differ are
 * written as they are now. 0 if all agree, or do now; 1 otherwise.
 */
export async function numbers(args: readonly string[]): Promise<number> {
  const given = parsed(args, { ...projectOptions, write: { type: 'boolean' } });
  if (!given.ok) return exitFor(given);
  const { positionals, values } = given.value;
  if (positionals.length !== 1)
    return exitFor(refuse('usage.notebook', { article: 'one', purpose: 'whose numbers to hold against its results' }));
  const opened = openNotebook(positionals[0], values);
  if (!opened.ok) return exitFor(opened);
  const notebook = opened.value;
  const { numbers: found } = await runAll(notebook, { undrawn: true });
  const isWriting = values.write === true;
  const isOpen = found.map((one, at) => printNumber(notebook, one, at, isWriting)).includes(true);
  if (isWriting && found.some(({ state }) => state === 'differs')) {
    const written = writeNumbers(notebook, found);
    if (!written.ok) return exitFor(written);
  }
  return isOpen ? 1 : 0;
}

/** A line for one number; whether it is still to be put right. */
function printNumber(
  { path, numbers: all }: OpenNotebook,
  found: NumberCheck,
  at: number,
  isWriting: boolean,
): boolean {
  const { line, text, unit, expression } = all[at];
  const head = `${path}:${line}: `;
  switch (found.state) {
    case 'agrees':
      print(`${head}${[text, unit].join(' ').trim()} = ${expression}\n`);
      return false;
    case 'differs':
      print(isWriting ? `${head}${text} is now ${found.text} = ${expression}\n` : `${head}${found.message.message}\n`);
      return !isWriting;
    case 'wrong':
      print(`${head}${found.message.message}\n`);
      return true;
    case 'unknown':
      return true;
  }
}

/** Writes the numbers alone into the file, if it is still as it was read. */
function writeNumbers(
  { path, source, bytes, numbers: all }: OpenNotebook,
  found: readonly NumberCheck[],
): Result<void> {
  const differing = found.flatMap((one, at) => (one.state === 'differs' ? [{ of: all[at], text: one.text }] : []));
  const cells = source.cells.map((cell, part) => ({
    ...cell,
    text: withNumbers(
      cell.text,
      differing.filter(({ of }) => of.part === part),
    ),
  }));
  const content = serializeNotebook({ cells, frame: source.frame });
  const isOurs = (now: Buffer): boolean => now.equals(bytes);
  return writeProduct(
    { path, content, kind: 'notebook as it was read', isOurs, isEdit: true },
    { force: false, kept: [] },
  );
}
