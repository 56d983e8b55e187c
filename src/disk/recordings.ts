import { naturalOrder } from './naturalOrder.ts';

/** Endings of files that a logger, or who converts for it, writes. */
const endings = /\.(csv|tsv|txt|dat|log|asc|wav|parquet|uff|unv)(\.gz)?$/i;

/** Whether a file's name is that of a recording; a run sheet beside the recordings is none. */
export const isRecordingName = (name: string): boolean =>
  endings.test(name) && !name.startsWith('.') && !/^runs?([-_ ]?sheet)?\.csv$/i.test(name);

/** Whether a file is a recording, as far as its name and its bytes tell. */
export const isRecordingFile = (path: string, bytes: Uint8Array): boolean =>
  isRecordingPath(path) && looksLikeRecording(path, bytes.subarray(0, headLength));

/** Whether the name of a path's file is that of a recording. */
export const isRecordingPath = (path: string): boolean => isRecordingName(path.split(/[\\/]/).pop() ?? path);

/** Bytes of a file's head by which it is known. */
export const headLength = 4000;

export interface Entry {
  readonly name: string;
  readonly folder: boolean;
}

/** Recordings by their paths below a folder, with `/`, and all files beside them; in natural order. */
export interface FoundRecordings {
  readonly paths: readonly string[];
  readonly besides: readonly string[];
}

/** Folders in which nobody keeps recordings. */
const passedOver = /^(?:\.|node_modules$|out$|dist$|reports?$|figures$|tables$)/;

/** Whether a folder of that name may hold recordings. */
export const isWorthLooking = (folder: string): boolean => !passedOver.test(folder);

/**
 * The recordings of a folder; where it holds none itself, those of the first folder in it that does: a study is of one
 * folder's recordings, and that of another lies beside it.
 *
 * @param list the entries of the folder, or of one in it
 */
export async function recordingsBelow(
  list: (below: string | undefined) => PromiseLike<readonly Entry[]>,
): Promise<FoundRecordings> {
  const entries = await list(undefined);
  const here = recordingsAmong(entries, '');
  if (here.paths.length > 0) return here;
  const names = entries.filter(({ name, folder }) => folder && isWorthLooking(name)).map(({ name }) => name);
  for (const name of names.sort(naturalOrder)) {
    const found = recordingsAmong(await list(name), `${name}/`);
    if (found.paths.length > 0) return found;
  }
  return { paths: [], besides: [] };
}

function recordingsAmong(entries: readonly Entry[], prefix: string): FoundRecordings {
  const files = entries.filter(({ folder }) => !folder).map(({ name }) => name);
  files.sort(naturalOrder);
  return {
    paths: files.filter(isRecordingName).map((name) => `${prefix}${name}`),
    besides: files.map((name) => `${prefix}${name}`),
  };
}

/** The first of `NAME.csv`, `NAME-2.csv`, … that is free among the names that are there, whatever their letters' case. */
export function freeName(name: string, taken: readonly string[]): string {
  const names = new Set(taken.map((one) => one.toLowerCase()));
  const [, stem, endings] = /^(.[^.]*)(.*)$/s.exec(name) ?? [name, name, ''];
  for (let n = 1; ; n++) {
    const free = `${stem}${n === 1 ? '' : `-${n}`}${endings}`;
    if (!names.has(free.toLowerCase())) return free;
  }
}

/** Name of a study's file. */
export const freeStudyName = (taken: readonly string[]): string => freeName('study.washboard.md', taken);

/** Whether the head of a file is that of a recording: rows of two numbers or more in a text, and the name alone in any other. */
export function looksLikeRecording(name: string, head: Uint8Array): boolean {
  if (!/\.(?:csv|tsv|txt|dat|log|asc)$/i.test(name)) return true;
  const text = new TextDecoder(head[0] === 0xff || head[1] === 0 ? 'utf-16le' : 'utf-8').decode(head);
  // The last line of a head may be cut.
  const lines = text.split(/\r?\n/).slice(0, -1);
  const numbers = lines.filter((line) => isRow(line));
  return numbers.length >= 8 && numbers.length >= lines.length / 2;
}

/** Two fields or more, most of them numbers; stamps and dates hold figures too. */
function isRow(line: string): boolean {
  const fields = line
    .trim()
    .split(/[;\t]|,(?!\d+[;\t])|\s+/)
    .filter((field) => field !== '');
  const numeric = fields.filter((field) => /^[-+]?[\d.,:TZ/-]*\d[\d.,:eE+-]*Z?$/.test(field));
  return fields.length >= 2 && numeric.length >= fields.length - 1;
}
