import { messages } from '../../result/messages.ts';
import { listed } from '../../result/words.ts';
import { formatNumber } from '../../units/format.ts';
import { interval, plain, signed } from '../../values/number.ts';
import { hertz, seconds } from '../amounts.ts';
import { log10Of } from '../../numbers/logarithm.ts';

/** What one channel reads in one band over what the other logger's reads; percents of the r.m.s. */
export interface ToldReading {
  readonly channel: string;
  readonly from: number;
  readonly to: number;
  readonly percent: number;
  readonly low: number | undefined;
  readonly high: number | undefined;
  readonly leastCoherence: number;
  /** Weighted by mean square. */
  readonly coherence: number;
}

/** B's clock against A's: s, and millionths with the half-width of their interval; undefined where no rate is told. */
export interface ToldClock {
  readonly late: number;
  readonly fast: number | undefined;
  readonly within: number | undefined;
}

/** `a` and `b` are the loggers as the text calls them; times in s, frequencies in Hz. */
export interface LoggersFacts {
  'loggers.runs': { readonly name: string; readonly runs: number };
  'loggers.same': { readonly a: string; readonly b: string; readonly file: string };
  'loggers.channels': {
    readonly a: string;
    readonly b: string;
    readonly ofA: readonly string[];
    readonly ofB: readonly string[];
  };
  'loggers.units': {
    readonly a: string;
    readonly b: string;
    readonly channel: string;
    readonly inA: string;
    readonly inB: string;
  };
  'loggers.unrelated': { readonly a: string; readonly b: string };
  'loggers.crossed': { readonly a: string; readonly b: string; readonly from: string; readonly to: string };
  'loggers.short': { readonly common: number; readonly length: number };
  'loggers.band': { readonly from: number; readonly to: number; readonly most: number };
  'loggers.narrow': { readonly from: number; readonly to: number; readonly spacing: number };
  'loggers.wander': { readonly b: string; readonly by: number; readonly at: number; readonly scatter: number };
  'loggers.reversed': { readonly b: string; readonly channels: readonly string[] };
  'loggers.turned': { readonly a: string; readonly b: string; readonly from: string; readonly to: string };
  'loggers.incoherent': {
    readonly channel: string;
    readonly from: number;
    readonly to: number;
    readonly coherence: number;
  };
  'result.loggers': {
    readonly a: string;
    readonly b: string;
    readonly readings: readonly ToldReading[];
    readonly clock: ToldClock;
    readonly confidence: number;
  };
}

function reading({ percent, low, high }: ToldReading): string {
  if (low === undefined || high === undefined) return sizeOf(percent);
  if (low <= 0 && high >= 0) return `the same within ${plain(Math.max(-low, high), 2)} %`;
  const rounded = interval(percent, low, high);
  return `${interval(Math.abs(percent), low, high).value.replace(/^−/, '')} % ${percent < 0 ? 'lower' : 'higher'}, ${signed(rounded.low)} to ${signed(rounded.high)} %,`;
}

const sizeOf = (percent: number): string => `${plain(Math.abs(percent), 2)} % ${percent < 0 ? 'lower' : 'higher'}`;

/** What every bin of the band is above, rounded down; where something in it is next to still, the mean. */
function coherenceTold({ leastCoherence, coherence }: ToldReading): string {
  const down = (value: number, by: number): string => plain(Math.floor(value * by) / by, 4);
  if (leastCoherence >= 0.9) return `coherence above ${down(Math.min(leastCoherence, 0.99), 100)}`;
  return `coherence ${down(coherence, 1000)} on average`;
}

function rateTold({ fast, within }: ToldClock): string {
  if (fast === undefined || within === undefined)
    return ', and whether it runs fast or slow can’t be told from so short a time';
  if (Math.abs(fast) <= within) return ` and runs at the same rate within ${plain(within, 2)} ppm`;
  const decimals = Math.max(0, 1 - Math.floor(log10Of(within)));
  const [size, wide] = [Math.abs(fast), within].map((value) => value.toFixed(Math.min(decimals, 3)));
  return ` and runs ${size} ± ${wide} ppm ${fast < 0 ? 'slow' : 'fast'}`;
}

const lateTold = ({ late }: ToldClock): string =>
  `${plain(Math.abs(late), late !== 0 && Math.abs(late) < 1 ? 3 : 5)} s ${late < 0 ? 'early' : 'late'}`;

/** What is said of two loggers side by side. */
export const { tell, refuse } = messages<LoggersFacts>({
  'loggers.runs': ({ name, runs }) =>
    `${name} has ${runs} runs, and one of each logger is held against one of the other: pick it, as in "${name}[1]".`,
  'loggers.same': ({ a, b, file }) => `${a} and ${b} are both ${file}: give one file of each logger.`,
  'loggers.channels': ({ a, b, ofA, ofB }) =>
    `${a} has ${listed(ofA)} and ${b} has ${listed(ofB)}: no channel has the same name in both. Name them alike where they are loaded, as in "channel z=\\"sensor 2\\"".`,
  'loggers.units': ({ a, b, channel, inA, inB }) =>
    `${channel} is in ${inA || 'a plain number'} in ${a} and in ${inB || 'a plain number'} in ${b}, which measure different things: state the unit where they are loaded, or take another channel.`,
  'loggers.unrelated': ({ a, b }) =>
    `Nothing stands out that both ${a} and ${b} recorded: the same shaking, with more than one tone in it, must be in both for some ten seconds. A few knocks beside both at the beginning and at the end help.`,
  'loggers.crossed': ({ a, b, from, to }) =>
    `${from} of ${a} goes with ${to} of ${b}, and no channel with its own namesake: the loggers lie turned. Rename one logger’s channels where it is loaded, as in "channel ${from}=\\"${to}\\"".`,
  'loggers.short': ({ common, length }) =>
    `Both hold only ${seconds(common)} at the same time, which is less than two segments of ${seconds(length)}: take a shorter window by "using", or longer recordings.`,
  'loggers.band': ({ from, to, most }) =>
    `The band ${hertz(from)} to ${hertz(to)} reaches past ${hertz(most)}, which is 0.4 × the lower rate: up to there both can be brought onto one clock.`,
  'loggers.narrow': ({ from, to, spacing }) =>
    `The band ${hertz(from)} to ${hertz(to)} holds no bin of ${hertz(spacing)}: take a longer window by "using", or a wider band.`,
  'loggers.wander': ({ b, by, at, scatter }) =>
    `The clock of ${b} is off its straight line by ${formatNumber(1000 * by, 3)} ms at ${seconds(at)} (elsewhere by ${formatNumber(1000 * scatter, 2)} ms): samples may be lost, or its rate changes. Coherence and gain read low at high frequencies; take a stretch before or after it.`,
  'loggers.reversed': ({ b, channels }) =>
    `${listed(channels)} of ${b} ${channels.length === 1 ? 'points' : 'point'} the other way: levels are the same, the phase is 180°.`,
  'loggers.turned': ({ a, b, from, to }) =>
    `${from} of ${a} goes with ${to} of ${b} rather than with its namesake: the loggers may lie turned, or the channels be named in another order.`,
  'loggers.incoherent': ({ channel, from, to, coherence }) =>
    `Only ${formatNumber(100 * coherence, 2)} % of ${channel} from ${hertz(from)} to ${hertz(to)} is common to both (the coherence weighted by mean square): what they read there differs by noise or by place, and the ratio is none of their sensitivities.`,
  'result.loggers': ({ a, b, readings, clock, confidence }) =>
    `Against ${a}, logger ${b} reads ${listed(
      readings.map(
        (one) =>
          `${reading(one)} in ${one.channel} from ${plain(one.from, 4)} to ${hertz(one.to)} (${coherenceTold(one)})`,
      ),
    )}; its clock is ${lateTold(clock)}${rateTold(clock)} (${plain(100 * confidence, 4)} % intervals).`,
});
