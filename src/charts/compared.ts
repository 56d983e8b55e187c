import type { ComparisonRow, ComparisonValue } from '../values/comparison.ts';
import { bandName } from './names.ts';

/** Metrics of the whole signal, which have no bands. */
const ofSignal = ['vdv', 'p99', 'p99_9'];

export const isOfSignal = ({ metricCode }: ComparisonValue): boolean => ofSignal.includes(metricCode ?? '');

/** What a row of a comparison is of: its band, or the whole signal. */
export const comparedName = (value: ComparisonValue, { band }: ComparisonRow): string =>
  isOfSignal(value) ? 'whole signal' : bandName(band);
