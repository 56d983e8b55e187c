/** What is loaded when a study is to be begun. */
export { showLook } from './look.ts';
export { writeSheet } from './sheet.ts';
export { newNotebook, notebookFromFiles } from './start.ts';
export { dropped } from './dropped.ts';
export { insertLoad, useRecordings } from './use.ts';
export { welcome } from './welcome.ts';
