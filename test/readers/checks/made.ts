import type { CheckedChannel, CheckedRun } from '../../../src/readers/checks/checked.ts';

/** What a made run has besides its samples. */
export interface Made {
  readonly rate?: number | undefined;
  /** First and one past the last row of each stretch. */
  readonly stretches?: readonly (readonly [from: number, to: number])[] | undefined;
  readonly channel?: Partial<CheckedChannel> | undefined;
}

/** A run of the samples of its axes, in g, at 10 Hz and in one stretch unless said. */
export function runOf(
  samples: Readonly<Record<string, readonly number[] | Float64Array>>,
  { rate = 10, stretches, channel }: Made = {},
): CheckedRun {
  const channels = Object.entries(samples).map(([name, values]) => ({
    name,
    unit: 'g',
    axis: true,
    samples: Float64Array.from(values),
    ...channel,
  }));
  const all = stretches ?? [[0, channels[0].samples.length] as const];
  return {
    rate,
    // A gap of a second before each but the first.
    stretches: all.map(([from, to], s) => ({ from, to, start: from / rate + s })),
    channels,
  };
}

/** So many samples of a formula. */
export const samplesOf = (count: number, value: (i: number) => number): number[] =>
  Array.from({ length: count }, (_, i) => value(i));
