import { cacheFolder, clearKept, keptSize } from '../disk/keptStore.ts';
import { parsed } from './args.ts';
import { exitFor } from './exit.ts';
import { refuse } from './messages.ts';
import { print } from './terminal.ts';

/** `washboard cache`: where results are kept and how much there is of them, or the end of it; 0, 2 for wrong usage. */
export async function cache(args: readonly string[]): Promise<number> {
  const given = parsed(args, { clear: { type: 'boolean' } });
  if (!given.ok) return exitFor(given);
  const { values, positionals } = given.value;
  if (positionals.length > 0) return exitFor(refuse('usage.cache', { given: positionals[0] }));
  const folder = cacheFolder();
  if (values.clear === true) await clearKept(folder);
  const { entries, bytes } = await keptSize(folder);
  print(`${folder}: ${entries} entries, ${(bytes / 1e6).toFixed(1)} MB\n`);
  return 0;
}
