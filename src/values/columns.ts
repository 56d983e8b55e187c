import type { Detail, Figure, From, More } from './description.ts';
import type { Unit } from '../units/unit.ts';
import type { Channel, Run } from './run.ts';
import type { Shape } from './shapes.ts';

type Read<Row, V> = Figure<Row, V>['read'];

/** A figure of each row, or a word where its unit is empty; `more` says where it departs from what its key gives. */
export const figure = <Row, V>(
  key: string,
  unit: string | From<Row, V, Unit>,
  read: Read<Row, V>,
  more: More<Row, V> = {},
): Figure<Row, V> => ({ key, unit, read, ...more });

/** A figure that can be asked for by name, as `L.rms`: `doc` stands in completion and in the reference. */
export const field = <Row, V>(
  key: string,
  unit: string | From<Row, V, Unit>,
  read: Read<Row, V>,
  doc: string,
  more: More<Row, V> = {},
): Figure<Row, V> => ({ key, unit, read, doc, ...more });

/** What JSON alone can hold of each row; `shape` goes into the schema of JSON. */
export const detail = <Row, V>(key: string, json: Detail<Row, V>['json'], shape: Shape = 'any'): Detail<Row, V> => ({
  key,
  json,
  shape,
});

/** The name of a row that is of one run. */
export const runName: Figure<{ readonly run: Run }> = figure('run', '', ({ run }) => run.label);

/** The names of a row that is of one channel of one run. */
export const channelNames: readonly Figure<{ readonly run: Run; readonly channel: Channel }>[] = [
  runName,
  figure('channel', '', ({ channel }) => channel.name),
];

/** What is stated of the sensor's sensitivity, where it is stated of any row: all figures in the sensor's unit are uncertain by it. */
export const calibrationFigure = <Row extends { readonly channel: Channel }, V>(
  rowsOf: (value: V) => readonly Row[],
): Figure<Row, V> =>
  figure('calibration_percent', '%', ({ channel }) => inPercent(channel.calibration?.relative), {
    title: 'Calibration ±',
    heading: 'calibration uncertainty',
    digits: 3,
    each: 'as given',
    inTableOf: (value) => rowsOf(value).some(({ channel }) => channel.calibration !== undefined),
    optional: true,
    json: ({ channel }) => (channel.calibration === undefined ? undefined : 100 * channel.calibration.relative),
  });

/** Rows of one run are picked together. */
export const ofRun = ({ run }: { readonly run: Run }): string => run.label;

/** A fraction as a figure in percent. */
export const inPercent = (fraction: number | undefined): number | undefined =>
  fraction === undefined ? undefined : 100 * fraction;
