import { resolve } from 'node:path';
import { cacheFolder } from '../disk/cacheFolder.ts';
import { KeptStore } from '../disk/keptStore.ts';
import { tell } from './messages.ts';
import { remark } from './exit.ts';

const stores = new Map<string, KeptStore>();

/** The folder of stores: the one that is named, else the user's own. @param named as it was given */
export const folderOfStores = (named: string | undefined): string =>
  named === undefined ? cacheFolder() : resolve(named);

/**
 * Where results are kept; none where sources are run as they are, of which nobody knows whether they are the same.
 * @param named the folder of stores, where one was given
 */
export function keptResults(named?: string): KeptStore | undefined {
  const engine = process.env.WASHBOARD_ENGINE;
  if (engine === undefined || engine === '') return undefined;
  const folder = folderOfStores(named);
  const store = stores.get(folder) ?? new KeptStore(folder, engine);
  stores.set(folder, store);
  return store;
}

/** Waits, on the way out, until all is kept, and says once why results could not be. */
export async function settleKept(): Promise<void> {
  await Promise.all([...stores.values()].map((store) => store.settled()));
  for (const [folder, { trouble }] of stores)
    if (trouble !== undefined) remark(tell('cache.trouble', { folder, reason: trouble }));
}
