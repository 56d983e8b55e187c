import { counted } from '../../result/words.ts';
import type { Sentences } from '../../result/messages.ts';
import { figure, inUnit, measured, percent, squared, times } from './words.ts';

interface OfChannel {
  readonly channel: string;
  /** Unit of the channel's samples, where it is settled. */
  readonly unit?: string | undefined;
}

/** What a message tells of a recording's samples. Lengths in s, frequencies and rates in Hz. */
export interface CheckFacts {
  aliasing: { readonly share: number; readonly from: number };
  /** `top` is the highest edge that is sure, `wantedRate` the rate that the band asks for. */
  'band-high': {
    readonly high: number;
    readonly rate: number;
    readonly share: number;
    readonly top: number;
    readonly wantedRate: number;
    readonly isPastHalf: boolean;
  };
  clipped: OfChannel & { readonly count: number; readonly share: number; readonly at: number };
  'extreme-alike': OfChannel & { readonly count: number; readonly at: number };
  /** `jumps` from one end of the range to the other, and the lowest and highest samples. */
  wrapped: OfChannel & { readonly jumps: number; readonly low: number; readonly high: number };
  /** From start to end, in g. */
  drift: OfChannel & { readonly change: number };
  flat: OfChannel & { readonly value: number };
  stuck: OfChannel & { readonly spans: number; readonly samples: number; readonly seconds: number };
  'readings-repeat': { readonly share: number; readonly rate: number; readonly sensorRate: number };
  /** Length of the mean vector in g. */
  'no-gravity': { readonly length: number };
  gravity: { readonly length: number };
  short: {
    readonly segments: number;
    readonly seconds: number;
    readonly stretches: number;
    readonly fewest: number;
  };
  'segment-short': { readonly seconds: number; readonly low: number; readonly fewest: number };
  resolution: OfChannel & { readonly rms: number; readonly step: number; readonly density: number };
  /** `limit` is the distance in the channel's unit, `deviations` the same in robust standard deviations. */
  spikes: OfChannel & {
    readonly count: number;
    readonly deviations: number;
    readonly limit: number;
    readonly largest: number;
  };
  'one-event': { readonly seconds: number; readonly share: number };
  /** `ratio` of mean squares; undefined where the quietest block is still. */
  'not-stationary': { readonly seconds: number; readonly ratio: number | undefined };
  trend: { readonly change: number };
}

function bandHigh({ high, rate, share, top, wantedRate, isPastHalf }: CheckFacts['band-high']): string {
  return isPastHalf
    ? `The band reaches to ${figure(high)} Hz, past half the rate of ${figure(rate)} Hz, where a recording holds nothing: end it below ${figure(top)} Hz.`
    : `The band reaches to ${figure(high)} Hz, above ${share} of the rate (${figure(top)} Hz), where the logger's filter or folding may show: end it lower, or record at ${figure(wantedRate)} Hz.`;
}

function resolution({ channel, unit, rms, step, density }: CheckFacts['resolution']): string {
  const floor = `${measured(density, undefined)}${unit ? ` ${squared(unit)}` : ''}/Hz`;
  return `${channel} moves by ${measured(rms, unit)} r.m.s., only ${measured(rms / step, undefined)} steps of the converter (${inUnit(step, unit)}), whose rounding alone is ${floor}: record with a smaller range or a finer sensor.`;
}

export const checkSentences: Sentences<CheckFacts> = {
  aliasing: ({ share, from }) =>
    `${percent(share)} of the mean square lies above ${figure(from)} Hz, close to half the rate: what lies beyond may be folded in, so record once at a higher rate, and end bands below ${figure(from)} Hz.`,
  'band-high': bandHigh,
  clipped: ({ channel, unit, count, share, at }) =>
    `${channel} is clipped: ${counted(count, 'sample')} (${percent(share)}) ${count === 1 ? 'stands' : 'stand'} at ${inUnit(at, unit)}, so peak, kurtosis and dose mean nothing and the r.m.s. is too low: record again with a larger range.`,
  'extreme-alike': ({ channel, unit, count, at }) =>
    `${channel} goes no farther than ${inUnit(at, unit)}, where ${count} samples are alike, as happens by chance in one of some hundred channels: look whether the logger’s range ends there, and take its peak for too low if so.`,
  wrapped: ({ channel, unit, jumps, low, high }) =>
    `${channel} jumps ${times(jumps)} between the ends of its range (${measured(low, undefined)} to ${inUnit(high, unit)}) from one sample to the next and goes on from there, as counts do that overflow, so its levels and spectra mean nothing: record again with a larger range.`,
  drift: ({ channel, change }) =>
    `${channel} drifts by ${figure(change)} g from start to end: the mount turned or the sensor warmed up, so look at the mount and write detrend linear before levels below 1 Hz.`,
  flat: ({ channel, value }) =>
    `${channel} holds one value throughout (${figure(value)}): the sensor or its plug is dead, so leave this channel out.`,
  stuck: ({ channel, spans, samples, seconds }) =>
    `${channel} stands still ${times(spans)}, longest for ${samples} samples (${figure(seconds)} s): look at the plug and the cable, and trim those parts off.`,
  'readings-repeat': ({ share, rate, sensorRate }) =>
    `${percent(share)} of the rows repeat the readings of the row before: the sensor measures at about ${figure(sensorRate)} Hz, below the logger's ${figure(rate)} Hz, so trust nothing above ${figure(sensorRate / 2)} Hz.`,
  'no-gravity': ({ length }) =>
    `The mean vector is ${figure(length)} g long: gravity was taken out before, so neither the unit nor the orientation can be checked by it.`,
  gravity: ({ length }) =>
    `The mean vector is ${figure(length)} g long instead of 1 g: check unit, scale and the sensor's offset in six positions; a ratio of two runs of the same sensor is less touched than an absolute level.`,
  short: ({ segments, seconds, stretches, fewest }) => {
    const broken = stretches > 1 ? ` in its ${stretches} stretches between gaps` : '';
    return `The recording gives ${counted(segments, 'segment')} of ${figure(seconds)} s${broken}, fewer than ${fewest}: record for longer, or take shorter segments if the lowest frequency allows it.`;
  },
  'segment-short': ({ seconds, low, fewest }) =>
    `Segments of ${figure(seconds)} s hold ${figure(seconds * low)} periods of ${figure(low)} Hz, fewer than ${fewest}: take segments of ${figure(fewest / low)} s at least.`,
  resolution,
  spikes: ({ channel, unit, count, deviations, limit, largest }) =>
    `${channel} has ${count} lone ${count === 1 ? 'sample' : 'samples'} more than ${deviations} robust standard deviations (${inUnit(limit, unit)}) from the rest, the largest ${figure(largest)}: see whether they are bumps or a bad contact before you trust peak, kurtosis or dose.`,
  'one-event': ({ seconds, share }) =>
    `One stretch of ${seconds} s holds ${percent(share)} of the mean square of the whole recording, so one event dominates every average: trim it off, or give it a test of its own.`,
  'not-stationary': ({ seconds, ratio }) =>
    `The level changes along the recording: the mean square of the loudest ${seconds} s is ${ratio === undefined ? 'without measure above' : `${figure(ratio)} times`} that of the quietest: trim the start and the stop off, or compare parts of one kind.`,
  trend: ({ change }) =>
    `The r.m.s. ${change > 0 ? 'rises' : 'falls'} by ${percent(Math.abs(change))} from start to end of the recording: was the speed, the surface or the load changing?`,
};
