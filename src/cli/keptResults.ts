import { cacheFolder, KeptStore } from '../disk/keptStore.ts';
import { tell } from './messages.ts';
import { remark } from './exit.ts';

let store: KeptStore | undefined;

/** Where results are kept; none where sources are run as they are, of which nobody knows whether they are the same. */
export function keptResults(): KeptStore | undefined {
  const engine = process.env.WASHBOARD_ENGINE;
  if (engine !== undefined && engine !== '') store ??= new KeptStore(cacheFolder(), engine);
  return store;
}

/** Says once, on the way out, why results could not be kept. */
export function sayTrouble(): void {
  if (store?.trouble !== undefined) remark(tell('cache.trouble', { folder: cacheFolder(), reason: store.trouble }));
}
