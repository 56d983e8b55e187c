import { existsSync } from 'node:fs';
import { dirname, join } from 'node:path';

/** The project's folder of a notebook outside the editor: the nearest folder above with `.git`, else its own. */
export function projectRoot(folder: string): string {
  for (let above = folder; ; above = dirname(above)) {
    if (existsSync(join(above, '.git'))) return above;
    if (dirname(above) === above) return folder;
  }
}
