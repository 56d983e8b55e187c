import type { AxisCalibration } from '../statistics/stillPositions.ts';
import type { Unit } from '../units/unit.ts';
import { detail, field, figure } from './columns.ts';
import type { Description } from './description.ts';
import { finite } from './jsonNumbers.ts';
import type { Run } from './run.ts';
import { inShort } from './short.ts';
import { counted } from '../result/words.ts';

/** Offset and sensitivity of a sensor's axes, from still positions. */
export interface CalibrationValue {
  readonly kind: 'calibration';
  readonly unit: Unit;
  /** What gravity is taken as, in the unit. */
  readonly gravity: number;
  readonly positions: readonly CalibrationPosition[];
  readonly rows: readonly CalibrationRow[];
}

export interface CalibrationPosition {
  readonly run: Run;
  /** The axis along gravity, and which way: `+z`; undefined of a single position, where it does not matter. */
  readonly along: string | undefined;
}

/** What is found of an axis, in the unit; a sensitivity of 1 is that of a sensor that is right. */
export interface CalibrationRow extends AxisCalibration {
  readonly axis: string;
}

const own = (_: CalibrationRow, { unit }: CalibrationValue): Unit => unit;
const partOf =
  (of: (row: CalibrationRow) => number | undefined, what: string) =>
  (row: CalibrationRow): readonly { input: string; size: number; df: number }[] | undefined => {
    const size = of(row);
    return size === undefined ? undefined : [{ input: `${what} of ${row.axis}, ${row.sensitivity}`, size, df: row.df }];
  };

export const calibrationKind = {
  kind: 'calibration',
  words: 'a calibration',
  summary: ({ rows, positions }) =>
    inShort('a calibration', counted(positions.length, 'position'), counted(rows.length, 'axis', 'axes')),
  caption: ({ positions }) => `Calibration from ${counted(positions.length, 'still position')}`,
  whole: [
    detail('unit', ({ unit }) => unit.symbol, 'text'),
    detail('gravity', ({ gravity }) => finite(gravity), 'number'),
    detail(
      'positions',
      ({ positions }) => positions.map(({ run, along }) => ({ run: run.label, along: along ?? null })),
      'rows',
    ),
  ],
  rows: {
    key: 'rows',
    of: ({ rows }) => rows,
    each: ['axis', 'an axis'],
    names: [figure('axis', '', ({ axis }) => axis)],
    columns: [
      field('offset', own, (row) => row.offset, 'The offset', {
        eitherSign: true,
        parts: partOf(({ offsetUncertainty }) => offsetUncertainty, 'offset'),
      }),
      figure('offset_uncertainty', own, (row) => row.offsetUncertainty, { heading: 'u(offset)', title: 'u(offset)' }),
      field('sensitivity', '', (row) => row.sensitivity, 'The sensitivity, reading over what acts,', {
        digits: 6,
        parts: partOf(({ sensitivityUncertainty }) => sensitivityUncertainty, 'sensitivity'),
      }),
      figure('sensitivity_uncertainty', '', (row) => row.sensitivityUncertainty, {
        heading: 'u(sensitivity)',
        title: 'u(sensitivity)',
      }),
      figure('scatter', own, (row) => row.scatter, { title: 'Scatter about the line' }),
      figure('degrees_of_freedom', '', (row) => row.df, { heading: 'degrees of freedom', each: 'as given' }),
    ],
    pick: { keep: (value, rows) => ({ ...value, rows }) },
  },
  runs: ({ positions }) => positions.map(({ run }) => run),
} satisfies Description<CalibrationValue, CalibrationRow>;
