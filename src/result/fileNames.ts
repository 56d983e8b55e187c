/** The folder of a path, with its `/`; nothing where it has none. */
export const folderOf = (path: string): string => path.slice(0, path.lastIndexOf('/') + 1);

/** The name of a path's file. */
export const fileOf = (path: string): string => path.slice(path.lastIndexOf('/') + 1);

const endings = /(\.[A-Za-z0-9]{1,8}){1,2}$/;

/** The ending of a path, a second one such as `.csv.gz` included. */
export const endingOf = (path: string): string => endings.exec(fileOf(path))?.[0] ?? '';

/** A file's name without folder and endings, by which its run is called. */
export const bareName = (path: string): string => fileOf(path).replace(endings, '');

/** Whether a file's name is that of a notebook. */
export const isNotebookName = (path: string): boolean => path.toLowerCase().endsWith('.washboard.md');

/** The path of a notebook, without its ending, beside which its products stand. */
export const notebookStem = (notebook: string): string => notebook.replace(/(\.washboard)?\.md$/, '');

const recordEnding = '.record.json';

/** Where a notebook's record stands: `ride.washboard.md` has `ride.record.json` beside it. */
export const recordPath = (notebook: string): string => notebookStem(notebook) + recordEnding;

/** Whether a file's name is that of a record. */
export const isRecordName = (path: string): boolean => path.toLowerCase().endsWith(recordEnding);
