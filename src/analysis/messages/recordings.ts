import { messages, type Sentences } from '../../result/messages.ts';
import { formatNumber } from '../../units/format.ts';
import { hertz, seconds } from '../amounts.ts';
import { alsoOf } from '../together.ts';

/** Of a warning about one run that is told of others, too. */
interface Shared {
  readonly others: readonly string[];
}

type Goal = 'velocity' | 'displacement';

/** What can be said of recordings and of the conditioning of their samples. Times are in s, frequencies and rates in Hz. */
export interface RecordingFacts {
  'rate.uneven': { readonly run: string; readonly set: string | undefined; readonly rate: number };
  'filter.corner': { readonly run: string; readonly corner: number; readonly half: number };
  'filter.short': { readonly run: string; readonly start: number; readonly samples: number; readonly padding: number };
  'filter.unsettled': Shared & {
    readonly run: string;
    readonly length: number;
    readonly periods: number;
    readonly corner: number;
  };
  'resample.factor': {
    readonly run: string;
    readonly from: number;
    readonly to: number;
    readonly most: number;
  };
  'resample.large': { readonly run: string; readonly most: number };
  'resample.empty': { readonly run: string };
  'resample.up': Shared & { readonly run: string; readonly rate: number };
  'resample.uneven': Shared & { readonly run: string; readonly step: number };
  /** Refused where it is past half the rate; a warning where it decides the result. */
  'integrate.low-cut':
    | { readonly run: string; readonly lowCut: number; readonly half: number }
    | (Shared & {
        readonly run: string;
        readonly channel: string;
        readonly goal: Goal;
        readonly lowCut: number;
        /** Of the mean square, just above the low cut. */
        readonly share: number;
      });
  'integrate.unit': {
    readonly run: string;
    readonly channel: string;
    readonly unit: string;
    readonly goal: Goal;
  };
  'integrate.short': Shared & {
    readonly run: string;
    readonly length: number;
    readonly periods: number;
    readonly lowCut: number;
  };
  'weight.count': { readonly run: string; readonly channels: readonly string[]; readonly weightings: number };
  'weight.twice': { readonly run: string; readonly channel: string; readonly weighting: string };
  'weight.unit': { readonly run: string; readonly channel: string; readonly unit: string };
  'weight.rate': Shared & {
    readonly run: string;
    readonly weighting: string;
    readonly highest: number;
    readonly needed: number;
    readonly rate: number;
  };
  'weight.short': Shared & {
    readonly run: string;
    readonly weighting: string;
    readonly lowest: number;
    readonly length: number;
    readonly needed: number;
  };
}

const sentences: Sentences<RecordingFacts> = {
  'rate.uneven': ({ run, set = 'runs', rate }) =>
    `${run} is sampled too unevenly for this: resample it first, as in "resample ${set} ${Math.floor(rate)} Hz".`,
  'filter.corner': ({ run, corner, half }) =>
    `A corner at ${hertz(corner)} is not below half the rate of ${run}, which is ${hertz(half)}.`,
  'filter.short': ({ run, start, samples, padding }) =>
    `The stretch of ${run} from ${seconds(start)} holds ${samples} samples, and this filter needs more than ${padding}: trim it away, or take a lower order.`,
  'filter.unsettled': ({ run, length, periods, corner, others }) =>
    `A stretch of ${run} lasts ${seconds(length)}, less than ${periods} periods of ${hertz(corner)}: much of it is the filter’s settling.${alsoOf(others)}`,
  'resample.factor': ({ run, from, to, most }) =>
    `${run} is at ${hertz(from)}, and ${hertz(to)} is more than ${most} times ${to > from ? 'faster' : 'slower'}: check the unit of the rate.`,
  'resample.large': ({ run, most }) => `${run} would grow to more than ${formatNumber(most)} samples.`,
  'resample.empty': ({ run }) => `No two readings of ${run} follow each other in time.`,
  'resample.up': ({ run, rate, others }) =>
    `${run} was sampled at ${hertz(rate)}: the higher rate adds nothing above ${hertz(rate / 2)}.${alsoOf(others)}`,
  'resample.uneven': ({ run, step, others }) =>
    `${run} was sampled unevenly, with steps up to ${formatNumber(1000 * step, 3)} ms: what is faster than ${hertz(1 / (2 * step))} is partly interpolated.${alsoOf(others)}`,
  'integrate.low-cut': (facts) => {
    const { run, lowCut } = facts;
    if ('half' in facts)
      return `The low cut of ${hertz(lowCut)} is not below half the rate of ${run}, which is ${hertz(facts.half)}.`;
    const { channel, goal, share, others } = facts;
    return `${Math.round(100 * share)} % of the mean square of the ${goal} of ${run}, ${channel}, lies between ${hertz(lowCut)} and ${hertz(2 * lowCut)}: the low cut decides this figure.${alsoOf(others)}`;
  },
  'integrate.unit': ({ run, channel, unit, goal }) =>
    `${channel} of ${run} is in ${unit || 'no unit'}: ${goal} comes from an acceleration${goal === 'displacement' ? ' or a velocity' : ''}.`,
  'integrate.short': ({ run, length, periods, lowCut, others }) =>
    `A stretch of ${run} lasts only ${seconds(length)}, less than ${periods} periods of the low cut of ${hertz(lowCut)}: take a higher low cut.${alsoOf(others)}`,
  'weight.count': ({ run, channels, weightings }) =>
    `${run} has the channels ${channels.join(', ')}, and ${weightings} weightings are given: give one for all, or one for each.`,
  'weight.twice': ({ run, channel, weighting }) => `${channel} of ${run} is weighted by ${weighting} already.`,
  'weight.unit': ({ run, channel, unit }) =>
    `${channel} of ${run} is in ${unit || 'no unit'}, and only an acceleration can be weighted: take the channels that are one.`,
  'weight.rate': ({ run, weighting, highest, needed, rate, others }) =>
    `${weighting} counts frequencies up to ${hertz(highest)}, for which ${run} should be sampled at ${hertz(needed)} or more, not at ${hertz(rate)}: what is missing is not in the level.${alsoOf(others)}`,
  'weight.short': ({ run, weighting, lowest, length, needed, others }) =>
    `${weighting} counts frequencies down to ${hertz(lowest)}, and a stretch of ${run} lasts only ${seconds(length)}: take at least ${seconds(needed)}.${alsoOf(others)}`,
};

export const { tell, refuse } = messages(sentences);
