import type { ComparisonRow, ComparisonValue } from '../values/comparison.ts';
import { bandName } from './names.ts';
import { percent } from './number.ts';

/** Metrics of the whole signal, which have no bands. */
const ofSignal = ['vdv', 'p99', 'p99_9'];

export const isOfSignal = ({ metricCode }: ComparisonValue): boolean => ofSignal.includes(metricCode ?? '');

/** What a row of a comparison is of: its band, or the whole signal. */
export const comparedName = (value: ComparisonValue, { band }: ComparisonRow): string =>
  isOfSignal(value) ? 'whole signal' : bandName(band);

/** What the printed intervals are: for all bands together where several are stated together. */
export const intervalName = ({ confidence, family = 1 }: ComparisonValue): string =>
  family === 1 ? `${percent(confidence)} interval` : `${percent(confidence)} interval for all ${family} bands together`;

/** The same of one row: the primary one stands by itself. */
export const rowIntervalName = (value: ComparisonValue, { primary }: ComparisonRow): string =>
  intervalName(primary === true ? { ...value, family: 1 } : value);
