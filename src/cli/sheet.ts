import { existsSync, readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { mostConditions, runOrder } from '../analysis/planning/runOrder.ts';
import { isSheetHead, sheetOfFiles } from '../analysis/planning/sheetText.ts';
import { naturalOrder } from '../disk/naturalOrder.ts';
import { isRecordingName } from '../disk/recordings.ts';
import { writeProduct, type WriteOptions } from '../disk/writing.ts';
import { success, type Result } from '../result/result.ts';
import { runsNeeded } from '../statistics/repeats.ts';
import { parsed, texts } from './args.ts';
import { exitFor } from './exit.ts';
import { refuse } from './messages.ts';
import { print } from './terminal.ts';

/** `washboard sheet`: a run sheet to be filled in, of recordings that are there or of runs to be made. */
export function sheet(args: readonly string[]): number {
  const given = parsed(args, {
    ...texts('out', 'runs', 'detect', 'spread', 'conditions'),
    force: { type: 'boolean' },
  });
  if (!given.ok) return exitFor(given);
  const { positionals, values } = given.value;
  const planned = values.runs !== undefined || values.detect !== undefined;
  if (planned === positionals.length > 0) return exitFor(refuse('usage.sheet', {}));
  const files = planned ? success([]) : recordingsIn(positionals[0]);
  if (!files.ok) return exitFor(files);
  const made = planned ? ofPlan(values) : success(sheetOfFiles(files.value));
  const kept = files.value.map((file) => ({ path: join(positionals[0], file), as: 'source' as const }));
  return made.ok ? write(made.value, values.out, { force: values.force ?? false, kept }) : exitFor(made);
}

function recordingsIn(folder: string): Result<readonly string[]> {
  if (!existsSync(folder) || !statSync(folder).isDirectory()) return refuse('folder.missing', { folder });
  const files = readdirSync(folder).filter(isRecordingName).sort(naturalOrder);
  return files.length === 0 ? refuse('sheet.recordings', { folder }) : success(files);
}

type Plan = Readonly<Partial<Record<'runs' | 'detect' | 'spread' | 'conditions', string>>>;

function ofPlan({ runs, detect, spread, conditions = 'A,B' }: Plan): Result<string> {
  const names = conditions.split(',').map((name) => name.trim());
  if (names.length < 2 || names.length > mostConditions || names.includes('') || new Set(names).size < names.length)
    return refuse('sheet.conditions', { most: mostConditions });
  const count = runs === undefined ? needed(detect, spread) : success(Number(runs));
  if (!count.ok) return count;
  if (!Number.isInteger(count.value) || count.value < 1 || count.value > 100) return refuse('sheet.runs', {});
  return success(runOrder(count.value, undefined, names).sheet ?? '');
}

/** Runs of each that show a reduction of `detect` when runs scatter by `spread`, with 80 % power at 95 % confidence. */
function needed(detect: string | undefined, spread: string | undefined): Result<number> {
  const [change, scatter] = [detect, spread].map((text) => Number(text?.replace(/\s*%$/, '')));
  if (!(change > 0 && change < 100)) return refuse('sheet.detect', {});
  if (!(scatter > 0 && scatter < 100)) return refuse('sheet.spread', {});
  const found = runsNeeded(-change, { spread: scatter / 100, power: 0.8, confidence: 0.95 });
  return found === undefined ? refuse('sheet.power', { detect: change, spread: scatter }) : success(found.runs);
}

/** Prints the sheet, or writes it; a sheet that is there holds somebody's notes and is left alone. */
function write(text: string, out: string | undefined, options: WriteOptions): number {
  if (out === undefined) {
    print(text);
    return 0;
  }
  const file = existsSync(out) && statSync(out).isDirectory() ? join(out, 'runs.csv') : out;
  const isForced = (found: Buffer): boolean => isSheetHead(found.toString('utf8', 0, 4000));
  const written = writeProduct({ path: file, content: text, kind: 'run sheet', isForced }, options);
  if (!written.ok) return exitFor(written);
  print(`${file}\n`);
  return 0;
}
