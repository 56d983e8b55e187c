import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { deciding } from '../rooms.mjs';

/**
 * What tells one state of the rooms that decide a result from another, with the libraries that they use: a result that was kept by
 * another state is none. @param root absolute path of the project
 */
export function engineDigest(root) {
  const hash = createHash('sha256');
  for (const room of deciding) {
    const folder = join(root, 'src', room);
    for (const name of readdirSync(folder, { recursive: true }).sort()) {
      if (!name.endsWith('.ts')) continue;
      hash.update(`${room}/${name.replaceAll('\\', '/')}\0`);
      hash.update(readFileSync(join(folder, name)));
    }
  }
  hash.update(readFileSync(join(root, 'package.json')));
  return hash.digest('hex').slice(0, 24);
}
