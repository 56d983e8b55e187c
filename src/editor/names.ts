/** Ids by which the editor knows us. They are kept for ever: settings and saved choices refer to them. */
export const notebookType = 'washboard-notebook';
export const languageId = 'washboard';
export const controllerId = 'washboard-kernel';
