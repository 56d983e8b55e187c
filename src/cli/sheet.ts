import { existsSync, readdirSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { isRecordingName } from '../disk/recordings.ts';
import { naturalOrder } from '../disk/naturalOrder.ts';
import { abbaOrder } from '../statistics/order.ts';
import { runsNeeded } from '../statistics/repeats.ts';
import { sheetOfFiles, sheetOfOrder } from '../analysis/planning/sheetText.ts';
import { understandWords } from './words.ts';
import { wrong } from './wrong.ts';

/** `washboard sheet`: a run sheet to be filled in, of recordings that are there or of runs to be made. */
export async function sheet(words: readonly string[]): Promise<number> {
  const asked = understandWords(words, ['out', 'runs', 'detect', 'spread', 'conditions']);
  if (typeof asked === 'string') return wrong(asked);
  const { positionals, values } = asked;
  const planned = values.runs !== undefined || values.detect !== undefined;
  if (planned === positionals.length > 0)
    return wrong('name a folder of recordings, or say how many runs are planned.');
  const made = planned ? ofPlan(values) : ofFolder(positionals[0]);
  if (typeof made !== 'string') return wrong(made.wrong, false);
  return hand(made, values.out);
}

interface Wrong {
  readonly wrong: string;
}

function ofFolder(folder: string): string | Wrong {
  if (!existsSync(folder) || !statSync(folder).isDirectory()) return { wrong: `there is no folder ${folder}.` };
  const files = readdirSync(folder).filter(isRecordingName).sort(naturalOrder);
  return files.length === 0 ? { wrong: `no recordings lie in ${folder}.` } : sheetOfFiles(files);
}

function ofPlan(values: { runs?: string; detect?: string; spread?: string; conditions?: string }): string | Wrong {
  const names = (values.conditions ?? 'A,B').split(',').map((name) => name.trim());
  if (names.length !== 2 || names.includes('') || names[0] === names[1])
    return { wrong: '--conditions takes two names, as in "foam,gel".' };
  const runs = values.runs === undefined ? needed(values.detect, values.spread) : Number(values.runs);
  if (typeof runs !== 'number') return runs;
  if (!Number.isInteger(runs) || runs < 1 || runs > 100) return { wrong: '--runs takes a whole number from 1 to 100.' };
  return sheetOfOrder(abbaOrder(runs), [names[0], names[1]]);
}

/** Runs of each that show a reduction of `detect` when runs scatter by `spread`, with 80 % power at 95 % confidence. */
function needed(detect: string | undefined, spread: string | undefined): number | Wrong {
  const [change, scatter] = [detect, spread].map((text) => Number(text?.replace(/\s*%$/, '')));
  if (!(change > 0 && change < 100)) return { wrong: '--detect takes a percentage, such as 5.' };
  if (!(scatter > 0 && scatter < 100))
    return { wrong: '--detect needs --spread, the scatter from run to run in percent, such as 4.' };
  const found = runsNeeded(-change, { spread: scatter / 100, power: 0.8, confidence: 0.95 });
  return (
    found?.runs ?? {
      wrong: `a reduction of ${change} % in a scatter of ${scatter} % would need more runs than can be reckoned with.`,
    }
  );
}

/** Prints the sheet, or writes it; a sheet that is there holds somebody's notes and is left alone. */
function hand(text: string, out: string | undefined): number {
  if (out === undefined) {
    process.stdout.write(text);
    return 0;
  }
  const file = existsSync(out) && statSync(out).isDirectory() ? join(out, 'runs.csv') : out;
  if (existsSync(file)) return wrong(`${file} is there already and is left as it is.`, false);
  writeFileSync(file, text);
  process.stdout.write(`${file}\n`);
  return 0;
}
