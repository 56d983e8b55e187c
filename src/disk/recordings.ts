/** Endings of files that a logger, or who converts for it, writes. */
const endings = /\.(csv|tsv|txt|dat|log|asc|wav|parquet|uff|unv)(\.gz)?$/i;

/** Whether a file's name is that of a recording; a run sheet beside the recordings is none. */
export const isRecordingName = (name: string): boolean =>
  endings.test(name) && !name.startsWith('.') && !/^runs?([-_ ]?sheet)?\.csv$/i.test(name);
