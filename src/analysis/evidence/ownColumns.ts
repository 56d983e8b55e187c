// Columns of the run sheet that say which run it was, and nothing of how it was made.

/** What differs from run to run by its nature, what the method takes out, and what names a run. */
const own = [
  ...['file', 'filename', 'recording', 'condition', 'part', 'order', 'date', 'time', 'start', 'end'],
  ...['pair', 'refit', 'day', 'session', 'run', 'no', 'nr', 'number', 'id', 'index', 'label', '#'],
];
const remarks = ['note', 'excluded', 'why', 'reason'];

/** Whether a column, without its unit and in lower case, says nothing of the circumstances of a run. */
export const isOwnColumn = (column: string): boolean => own.includes(column) || remarks.includes(column);
