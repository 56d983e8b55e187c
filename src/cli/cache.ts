import { clearKept, keptSize, tidyKept } from '../disk/keptFolder.ts';
import { reasonOfException } from '../result/environment.ts';
import { success, type Result } from '../result/result.ts';
import { counted } from '../result/words.ts';
import { parsed, texts } from './args.ts';
import { exitFor, say } from './exit.ts';
import { folderOfStores } from './keptResults.ts';
import { refuse } from './messages.ts';
import { print } from './terminal.ts';

/**
 * `washboard cache`: where results are kept and how much there is of them, the end of it, or of what is too much or too
 * old; 0, 1 where something can't be listed or removed, 2 for wrong usage.
 */
export async function cache(args: readonly string[]): Promise<number> {
  const given = parsed(args, { clear: { type: 'boolean' }, ...texts('keep', 'days') });
  if (!given.ok) return exitFor(given);
  const { values, positionals } = given.value;
  if (positionals.length > 1) return exitFor(refuse('usage.cache', { given: positionals[1] }));
  const bytes = bytesIn(values.keep);
  if (!bytes.ok) return exitFor(bytes);
  const days = daysIn(values.days);
  if (!days.ok) return exitFor(days);
  const folder = folderOfStores(positionals.at(0));
  try {
    if (values.clear === true) await clearKept(folder);
    if (values.keep !== undefined || values.days !== undefined) {
      const engine = process.env.WASHBOARD_ENGINE;
      const limits = { bytes: bytes.value, days: days.value };
      const removed = await tidyKept(folder, limits, { engine, now: Date.now() });
      print(`Removed: ${sizeText(removed)}\n`);
    }
  } catch (error) {
    say(refuse('cache.stuck', { folder, reason: reasonOfException(error) }));
    return 1;
  }
  try {
    print(`${folder}: ${sizeText(await keptSize(folder))}\n`);
    return 0;
  } catch (error) {
    say(refuse('cache.unlisted', { folder, reason: reasonOfException(error) }));
    return 1;
  }
}

const sizeText = ({ entries, bytes }: { readonly entries: number; readonly bytes: number }): string =>
  `${counted(entries, 'entry', 'entries')}, ${(bytes / 1e6).toFixed(1)} MB`;

const multiples: Readonly<Record<string, number>> = { B: 1, kB: 1e3, MB: 1e6, GB: 1e9, TB: 1e12 };

function bytesIn(given: string | undefined): Result<number | undefined> {
  if (given === undefined) return success(undefined);
  const found = /^(\d+(?:\.\d+)?) ?([kMGT]?B)$/.exec(given);
  return found === null ? refuse('usage.keep', { given }) : success(Number(found[1]) * multiples[found[2]]);
}

const daysIn = (given: string | undefined): Result<number | undefined> =>
  given === undefined || /^\d+$/.test(given)
    ? success(given === undefined ? undefined : Number(given))
    : refuse('usage.days', { given });
