import { homedir } from 'node:os';
import { join } from 'node:path';

/** Where a user's programs keep what they can make again. */
export function cacheFolder(): string {
  const { XDG_CACHE_HOME: cache, LOCALAPPDATA: local } = process.env;
  if (cache !== undefined && cache !== '') return join(cache, 'washboard');
  if (process.platform === 'win32') return join(local ?? join(homedir(), 'AppData', 'Local'), 'washboard', 'cache');
  return process.platform === 'darwin'
    ? join(homedir(), 'Library', 'Caches', 'washboard')
    : join(homedir(), '.cache', 'washboard');
}

/** Where the packs of one state of the program lie. @param folder of all stores @param engine what tells that state from others */
export const packsIn = (folder: string, engine: string): string => join(folder, engine, 'packs');
