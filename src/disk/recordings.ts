import { naturalOrder } from './naturalOrder.ts';

/** Endings of files that a logger, or who converts for it, writes. */
const endings = /\.(csv|tsv|txt|dat|log|asc|wav|parquet|uff|unv)(\.gz)?$/i;

/** Whether a file's name is that of a recording; a run sheet beside the recordings is none. */
export const isRecordingName = (name: string): boolean =>
  endings.test(name) && !name.startsWith('.') && !/^runs?([-_ ]?sheet)?\.csv$/i.test(name);

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
  const names = entries.filter(({ name, folder }) => folder && !passedOver.test(name)).map(({ name }) => name);
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

/** Name of a study's file: the first that is free among those that are there, whatever their letters' case. */
export function freeStudyName(taken: readonly string[]): string {
  const names = new Set(taken.map((name) => name.toLowerCase()));
  for (let n = 1; ; n++) {
    const name = `study${n === 1 ? '' : `-${n}`}.washboard.md`;
    if (!names.has(name)) return name;
  }
}
