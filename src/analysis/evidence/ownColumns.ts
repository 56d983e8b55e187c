// Columns of the run sheet that say which run it was, and nothing of how it was made.

/** What differs from run to run by its nature, what the method takes out, and what names a run. */
const own = [
  ...['file', 'filename', 'recording', 'condition', 'part', 'order', 'date', 'time', 'start', 'end'],
  ...['pair', 'refit', 'day', 'session', 'run', 'no', 'nr', 'number', 'id', 'index', 'label', '#'],
];
const remarks = ['note', 'excluded', 'why', 'reason'];

/** Whether a column, without its unit and in lower case, says nothing of the circumstances of a run. */
export const isOwnColumn = (column: string): boolean => own.includes(column) || remarks.includes(column);

/** Words in the headers of columns that say where, by whom and how runs were made; the sensor is told of by itself. */
const circumstances = new Set([
  ...[
    'surface',
    'road',
    'route',
    'track',
    'path',
    'course',
    'floor',
    'ground',
    'terrain',
    'pavement',
    'lane',
    'direction',
  ],
  ...['place', 'location', 'site', 'room', 'position', 'orientation', 'rider', 'driver', 'operator', 'sitter', 'user'],
  ...[
    'person',
    'helper',
    'pusher',
    'passenger',
    'technician',
    'weather',
    'wind',
    'rain',
    'season',
    'shift',
    'gear',
    'mode',
  ],
  ...[
    'program',
    'programme',
    'setting',
    'settings',
    'flow',
    'throttle',
    'assist',
    'speed',
    'pace',
    'load',
    'cargo',
    'ballast',
  ],
  ...['temperature', 'pressure', 'humidity', 'workpiece', 'range', 'rate', 'filter', 'firmware'],
]);

/**
 * Whether a column of words is of the circumstances of a run. One of any other name may tell what was compared in other words:
 * the part, its serial number, how it is mounted.
 *
 * @param column without its unit and in lower case
 */
export const isCircumstance = (column: string): boolean =>
  column.split(/[^a-z]+/).some((word) => circumstances.has(word));
