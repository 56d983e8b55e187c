import { existsSync, statSync } from 'node:fs';
import { readdir } from 'node:fs/promises';
import { join, resolve } from 'node:path';
import { diskFiles } from '../disk/files.ts';
import { projectRoot } from '../disk/project.ts';
import { freeStudyName, recordingsBelow, type Entry } from '../disk/recordings.ts';
import { writeProduct } from '../disk/writing.ts';
import { starterNotebook } from '../engine/starter.ts';
import { starterFacts } from '../engine/starterFacts.ts';
import { parsed } from './args.ts';
import { exitFor, remark } from './exit.ts';
import { refuse, tell } from './messages.ts';
import { print } from './terminal.ts';

/** `washboard new`: begins a study in a folder, from the recordings found there; 0, or 2 without a folder. */
export async function newStudy(args: readonly string[]): Promise<number> {
  const given = parsed(args, {});
  if (!given.ok) return exitFor(given);
  const { positionals } = given.value;
  if (positionals.length !== 1) return exitFor(refuse('usage.new', {}));
  const [folder] = positionals;
  if (!existsSync(folder) || !statSync(folder).isDirectory()) return exitFor(refuse('folder.missing', { folder }));
  const { paths, besides } = await recordingsBelow((below) => entriesOf(join(folder, below ?? '')));
  const absolute = resolve(folder);
  const facts = await starterFacts(paths, diskFiles(absolute, projectRoot(absolute)));
  const taken = (await entriesOf(folder)).map(({ name }) => name);
  const path = join(folder, freeStudyName(taken));
  const content = starterNotebook(paths, besides, facts);
  const written = writeProduct({ path, content, kind: 'notebook' }, { force: false, kept: [] });
  if (!written.ok) return exitFor(written);
  if (paths.length === 0) remark(tell('new.recordings', { folder }));
  print(`${path}\n`);
  return 0;
}

/** A folder's entries; none of a folder in it that can't be read. */
async function entriesOf(folder: string): Promise<Entry[]> {
  const entries = await readdir(folder, { withFileTypes: true }).catch(() => []);
  return entries.map((entry) => ({ name: entry.name, folder: entry.isDirectory() }));
}
