import { chmodSync, readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';

/** The user that owns nothing. */
const nobody = 65_534;

/**
 * Does something while all below a folder has other rights, for which whoever may do everything becomes a user that may not.
 * @param mode of the folder and those in it; files in it may be read if it may
 */
export async function withoutRights<T>(folder: string, mode: number, work: () => Promise<T>): Promise<T> {
  const paths = [
    ...readdirSync(folder, { recursive: true, encoding: 'utf8' }).map((name) => join(folder, name)),
    folder,
  ];
  const before = paths.map((path) => ({ path, stat: statSync(path) }));
  for (const { path, stat } of before) chmodSync(path, stat.isDirectory() ? mode : mode & 0o444);
  const isRoot = process.geteuid?.() === 0;
  if (isRoot) process.seteuid!(nobody);
  try {
    return await work();
  } finally {
    if (isRoot) process.seteuid!(0);
    for (const { path, stat } of before.reverse()) chmodSync(path, stat.mode);
  }
}
