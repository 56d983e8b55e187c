import { promises as fs } from 'node:fs';
import { join } from 'node:path';
import { success, type Result } from '../result/result.ts';
import { digest } from './bytes.ts';
import { reasonOf } from './faults.ts';
import { refuse } from './messages.ts';
import { putInPlace } from './putInPlace.ts';

/** How the recordings of a notebook are shared out, as the files were then. */
export interface SharePlan {
  readonly shares: number;
  readonly files: readonly PlannedFile[];
}

/** A recording's file; its path is relative to the notebook's folder. */
export interface PlannedFile {
  readonly path: string;
  readonly bytes: number;
  /** When it was last changed, in ms since 1970. */
  readonly changed: number;
  /** Of the share that it goes to, from 1. */
  readonly share: number;
}

/** What tells whether a file is the one that was planned with. */
export type FileNow = Pick<PlannedFile, 'bytes' | 'changed'>;

/** The file as it is now; undefined where there is none. @param absolute its path */
export async function fileNow(absolute: string): Promise<FileNow | undefined> {
  const found = await fs.stat(absolute).catch(() => undefined);
  return found && { bytes: found.size, changed: found.mtimeMs };
}

/**
 * Shares files out: the longest first, each to the share that has the least, which of several alike is the first.
 * @param shares how many, at least 1
 */
export function sharedOut(files: readonly Omit<PlannedFile, 'share'>[], shares: number): SharePlan {
  const loads = Array.from({ length: shares }, () => 0);
  const longestFirst = [...files].sort((a, b) => b.bytes - a.bytes || (a.path < b.path ? -1 : 1));
  const shared = longestFirst.map((file) => {
    const least = loads.reduce((best, load, at) => (load < loads[best] ? at : best), 0);
    loads[least] += file.bytes;
    return { ...file, share: least + 1 };
  });
  return { shares, files: shared };
}

/** Freezes a plan in a folder of stores; refused where the disk does. @param notebook its absolute path */
export async function freezePlan(folder: string, notebook: string, plan: SharePlan): Promise<Result<void>> {
  const path = placeOf(folder, notebook);
  try {
    await putInPlace(path, `${JSON.stringify(plan)}\n`);
    return success(undefined);
  } catch (error) {
    return refuse('write.failed', { path, ...reasonOf(error) });
  }
}

/** The plan that was frozen last for a notebook; undefined where there is none, or a torn one. @param notebook its absolute path */
export async function frozenPlan(folder: string, notebook: string): Promise<SharePlan | undefined> {
  const text = await fs.readFile(placeOf(folder, notebook), 'utf8').catch(() => undefined);
  try {
    return text === undefined ? undefined : (JSON.parse(text) as SharePlan);
  } catch {
    return undefined;
  }
}

const placeOf = (folder: string, notebook: string): string =>
  join(folder, 'plans', `${digest(notebook).slice(0, 32)}.json`);
