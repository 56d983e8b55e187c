import { calibrationKind } from '../../values/calibration.ts';
import { figuresTable } from './figures.ts';
import type { Presenter } from './kind.ts';

/** The figures of each axis. */
export const presentCalibration: Presenter<'calibration'> = (value) => {
  const { caption, rows } = calibrationKind;
  return [figuresTable(caption(value), [...rows.names, ...rows.columns], value.rows, value)];
};
