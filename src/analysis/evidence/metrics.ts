import { weightingNames, type WeightingName } from '../../signal/weighting.ts';
import { capitalised } from '../../result/words.ts';
import { quantityOf } from '../recordings/dimensions.ts';
import { isOfSignal } from '../../values/comparison.ts';
import { lineOf, type LineMetric } from './lineMetric.ts';
import type { Side } from './sides.ts';

/** What can be compared, by the name that requests have for it. */
const metrics = {
  rms: 'band r.m.s.',
  vdv: 'vibration dose value',
  p99: '99 % level of |x − mean|',
  p99_9: '99.9 % level of |x − mean|',
} as const;

/** The word of a line that goes with the speed, which is followed by its order and the column of speeds. */
export const lineMetricWord = 'line';

/** The metrics and the weightings by which an r.m.s. can be compared. */
export const metricNames: readonly string[] = [...Object.keys(metrics), ...weightingNames];

/** Whether a metric is an r.m.s. by this frequency weighting. */
export const isWeighting = (metric: string): metric is WeightingName =>
  (weightingNames as readonly string[]).includes(metric);

/** Whether a metric is of peaks, which clipping takes the most from. */
export const isOfPeaks = isOfSignal;

/** A metric in words by itself, as a plan states it: `r.m.s. weighted by wk`. */
export function plannedMetric(metric: string): string {
  const line = lineOf(metric);
  if (line !== undefined) return lineTitle(line);
  return isWeighting(metric) ? `r.m.s. weighted by ${metric}` : metrics[metric as keyof typeof metrics];
}

const lineTitle = ({ order, column }: LineMetric): string => `r.m.s. of the line at ${order} × ${column}`;

/** What a metric of a side is called, with its quantity: `acceleration r.m.s.`. */
export function levelName(metric: string, { transfers, tracks }: Side): string {
  if (transfers !== undefined) return 'transmissibility';
  const [{ channel }] = tracks;
  const weighting = isWeighting(metric) ? capitalised(metric) : channel.weighting;
  const quantity = [...(weighting === undefined ? [] : [`${weighting}-weighted`]), ...quantityOf(channel.unit)];
  if (metric === 'vdv') return [...quantity.slice(0, -1), metrics.vdv].join(' ');
  if (metric === 'p99' || metric === 'p99_9')
    return [...quantity, `${metric === 'p99' ? '99' : '99.9'} % level about the mean`].join(' ');
  const line = lineOf(metric);
  return [...quantity, line === undefined ? 'r.m.s.' : lineTitle(line)].join(' ');
}
