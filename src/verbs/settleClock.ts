import type { Clock } from '../readers/recording.ts';
import type { Run } from './values.ts';

/** Sampling steps that scatter by more than this share of their mean are no uniform rate. */
export const unevenBeyond = 0.05;

/** A run on its recording's clock; where sampling is too uneven for a rate, its times are kept with it. */
export function settleClock(run: Run, clock: Clock): Run {
  const { times, epoch } = clock;
  return { ...run, ...(epoch === undefined ? {} : { epoch }), ...(times === undefined ? {} : { times }) };
}
