/** What is loaded when a notebook is to become files, or a terminal or a task is to do so. */
export { copyTables, saveFigures, saveReport, saveTables, writeRecord } from './products.ts';
export { offerInTerminals } from './shell.ts';
export { tasks } from './tasks.ts';
export { savePicture, take } from './taking.ts';
