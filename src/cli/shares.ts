import { dirname, resolve } from 'node:path';
import {
  fileNow,
  freezePlan,
  frozenPlan,
  sharedOut,
  type FileNow,
  type PlannedFile,
  type SharePlan,
} from '../disk/sharePlan.ts';
import type { Refused, Result } from '../result/result.ts';
import { success } from '../result/result.ts';
import { exitFor, remark, say } from './exit.ts';
import { folderOfStores, keptResults } from './keptResults.ts';
import { refuse, tell } from './messages.ts';
import type { OpenNotebook } from './notebookFile.ts';
import { terminalWatch } from './progress.ts';
import { allCells } from './runWhole.ts';
import { print } from './terminal.ts';

/** Exit codes of shares: some are missing; it may be tried again, as `EX_TEMPFAIL` of sysexits.h. */
const sharesMissing = 3;
const tryAgain = 75;

/** Most shares of a plan. */
const most = 100_000;

/** What of a run is asked: to share it out, one share of it, or all of them collected. */
export type SharesAsked =
  | { readonly what: 'plan'; readonly shares: number }
  | { readonly what: 'share'; readonly share: number; readonly of: number }
  | { readonly what: 'collect' };

/** Reads `--plan N`, `--share K/N` and `--collect`; undefined where none of them is given. */
export function sharesAsked(given: {
  readonly plan?: string | undefined;
  readonly share?: string | undefined;
  readonly collect?: boolean | undefined;
}): Result<SharesAsked | undefined> {
  const { plan, share, collect = false } = given;
  if ([plan !== undefined, share !== undefined, collect].filter(Boolean).length > 1) return refuse('usage.shares', {});
  if (plan !== undefined) {
    const shares = countIn(plan);
    return shares === undefined ? refuse('usage.plan', { given: plan, most }) : success({ what: 'plan', shares });
  }
  if (share !== undefined) {
    const [one, of] = share.split('/').map(countIn);
    if (share.split('/').length !== 2 || one === undefined || of === undefined || one > of)
      return refuse('usage.share', { given: share });
    return success({ what: 'share', share: one, of });
  }
  return success(collect ? { what: 'collect' } : undefined);
}

function countIn(text: string): number | undefined {
  const count = /^\d{1,6}$/.test(text) ? Number(text) : 0;
  return count >= 1 && count <= most ? count : undefined;
}

/** Where the store and its plans lie, and whose. */
interface StoreOf {
  readonly folder: string;
  readonly notebook: string;
}

const storeOf = ({ path }: OpenNotebook, cache: string | undefined): StoreOf => ({
  folder: folderOfStores(cache),
  notebook: resolve(path),
});

/** `run --plan N`: freezes which recording goes to which share, and says how much there is in each; 0 or 2. */
export async function planShares(notebook: OpenNotebook, shares: number, cache: string | undefined): Promise<number> {
  const listed = await notebook.engine.recordings(allCells(notebook));
  if (!listed.ok) return exitFor(listed);
  const files = [];
  for (const path of listed.value) {
    const now = await nowOf(notebook, path);
    if (now !== undefined) files.push({ path, ...now });
  }
  const plan = sharedOut(files, shares);
  const { folder, notebook: absolute } = storeOf(notebook, cache);
  const frozen = await freezePlan(folder, absolute, plan);
  if (!frozen.ok) return exitFor(frozen);
  const loads = Array.from({ length: shares }, () => ({ recordings: 0, bytes: 0 }));
  for (const { share, bytes } of plan.files) {
    loads[share - 1].recordings++;
    loads[share - 1].bytes += bytes;
  }
  for (const [at, { recordings, bytes }] of loads.entries())
    print(`${at + 1}/${shares}: ${recordings} recordings, ${(bytes / 1e6).toFixed(1)} MB\n`);
  return 0;
}

/** The frozen plan of a notebook, or why there is none to go by. @param shares as many as it must have */
export async function planFor(
  notebook: OpenNotebook,
  cache: string | undefined,
  shares?: number,
): Promise<Result<SharePlan>> {
  const { folder, notebook: absolute } = storeOf(notebook, cache);
  const plan = await frozenPlan(folder, absolute);
  if (plan === undefined || (shares !== undefined && plan.shares !== shares))
    return refuse('share.plan', { notebook: notebook.path, folder, planned: plan?.shares, asked: shares });
  return success(plan);
}

/** `run --share K/N`: works on one share and keeps what it gives; 0, 2, or 75 where the system refused something. */
export async function workOnShare(
  notebook: OpenNotebook,
  { share, of }: { readonly share: number; readonly of: number },
  cache: string | undefined,
): Promise<number> {
  const store = keptResults(cache);
  if (store === undefined) return exitFor(refuse('share.store', {}));
  const plan = await planFor(notebook, cache, of);
  if (!plan.ok) return exitFor(plan);
  const own = plan.value.files.filter((file) => file.share === share);
  const other = await refusedUnless(
    ({ bytes, changed }, now) => now?.bytes === bytes && now.changed === changed,
    own,
    notebook,
  );
  if (other !== undefined) return exitFor(other);
  const paths = new Set(own.map(({ path }) => path));
  const watch = terminalWatch();
  const failures = await notebook.engine.share(allCells(notebook), (path) => paths.has(path), watch);
  watch.done();
  await store.settled();
  for (const failure of failures) say({ ok: false, failure });
  return failures.length > 0 || store.trouble !== undefined ? tryAgain : 0;
}

/** Refuses a plan one of whose files is no longer there: what is collected would lack it without a word. */
export const refusedGone = ({ files }: SharePlan, notebook: OpenNotebook): Promise<Refused | undefined> =>
  refusedUnless((_, now) => now !== undefined, files, notebook);

/** Refuses the first of planned files that is not as it has to be. */
async function refusedUnless(
  isAsPlanned: (file: PlannedFile, now: FileNow | undefined) => boolean,
  files: readonly PlannedFile[],
  notebook: OpenNotebook,
): Promise<Refused | undefined> {
  for (const file of files)
    if (!isAsPlanned(file, await nowOf(notebook, file.path))) return refuse('share.changed', { path: file.path });
  return undefined;
}

const nowOf = (notebook: OpenNotebook, path: string): Promise<FileNow | undefined> =>
  fileNow(resolve(dirname(notebook.path), path));

/** Says which shares are missing, and which file is the first of each that is not there. */
export function sayMissing(plan: SharePlan, missing: ReadonlySet<string>): number {
  const shareOf = new Map(plan.files.map(({ path, share }) => [path, share]));
  const first = new Map<number | undefined, { readonly path: string; count: number }>();
  for (const path of missing) {
    const share = shareOf.get(path);
    const before = first.get(share);
    if (before === undefined) first.set(share, { path, count: 1 });
    else before.count++;
  }
  const shares = [...first].sort(([a = Infinity], [b = Infinity]) => a - b);
  for (const [share, { path, count }] of shares)
    remark(tell('share.missing', { share, of: plan.shares, path, others: count - 1 }));
  return sharesMissing;
}
