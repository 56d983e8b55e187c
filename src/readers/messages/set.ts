import type { Sentences } from '../../result/messages.ts';
import { figure, measured, percent } from './words.ts';
import { sinOf } from '../../numbers/trigonometry.ts';

interface OfRun {
  /** The run's name in legends. */
  readonly run: string;
}

/** What a message tells of a run beside the others of its set. Lengths in s, rates in Hz. */
export interface SetFacts {
  'set-rate': OfRun & { readonly rate: number; readonly usual: number };
  'set-length': OfRun & { readonly seconds: number; readonly usual: number };
  /** Angle in degrees from the mean vector of the first run. */
  'set-gravity': OfRun & { readonly first: string; readonly angle: number };
  'set-still': OfRun & {
    readonly seconds: number;
    readonly level: number;
    readonly unit: string | undefined;
    readonly usual: number;
  };
  'set-channels': OfRun & { readonly lacking: readonly string[] };
  /** A line at one frequency in every run; its share of the mean square, of a band where one was asked for. */
  'set-line': OfRun & {
    readonly channel: string;
    readonly frequency: number;
    readonly share: number;
    readonly runs: number;
    /** Whether one that follows the speed would stand elsewhere in some run. */
    readonly speeds: 'differ' | 'alike' | 'unknown';
    readonly low: number | undefined;
    readonly high: number | undefined;
  };
  'set-copy': OfRun & { readonly twin: string };
}

const fromWhere = {
  differ: 'although their speeds differ, so it does not come from what moves',
  alike: 'a frequency of mains; the speeds of the runs are too alike to tell whether it follows them',
  unknown: 'a frequency of mains; whether it follows the speed of the runs is not known',
} as const;

function lineText({ channel, frequency, share, runs, speeds, low, high }: SetFacts['set-line']): string {
  const band = low === undefined || high === undefined ? '' : ` from ${figure(low)} to ${figure(high)} Hz`;
  return `A line stands at ${figure(Number(frequency.toPrecision(3)))} Hz in all ${runs} runs, ${fromWhere[speeds]}: look for mains, a fan or a pump. It holds ${percent(share)} of the mean square of ${channel}${band}, which no part that you change can take away: end the bands beside it, or switch it off.`;
}

/** From so many degrees on a sensor is taken to lie upside down. */
const upsideDown = 175;

/** What a sensor that is turned by an angle in degrees does to its axes. */
function mixed(angle: number): string {
  const share = Math.abs(sinOf((angle * Math.PI) / 180));
  const shows = `up to ${percent(share)} of one axis shows in another`;
  if (angle <= upsideDown) return shows;
  return `two axes read with the other sign${share < 0.001 ? '' : `, and ${shows}`}`;
}

export const setSentences: Sentences<SetFacts> = {
  'set-rate': ({ run, rate, usual }) =>
    `${run} was sampled at ${figure(rate)} Hz and the set at ${figure(usual)} Hz: segments of equal length in s still compare, but find out whether the setting or the clock changed.`,
  'set-length': ({ run, seconds, usual }) =>
    `${run} lasts ${figure(seconds)} s and the set ${figure(usual)} s: was the route or the speed another? Trim all to the same stretch.`,
  'set-gravity': ({ run, first, angle }) =>
    `Gravity points ${figure(angle)}° away from where it does in ${first}: ${run} was mounted ${angle > upsideDown ? 'upside down' : 'another way'}, and ${mixed(angle)}; compare the resultant, or mount alike.`,
  'set-still': ({ run, seconds, level, unit, usual }) =>
    `The quietest ${seconds} s of ${run} is at ${measured(level, unit)} r.m.s., ${figure(Math.max(level / usual, usual / level))} times ${level > usual ? 'above' : 'below'} the set's usual: did something else run, or was the range or the mount another?`,
  'set-channels': ({ run, lacking }) =>
    `${run} has no channel ${lacking.join(', ')}, which another run of the set has: name the channels to compare.`,
  'set-line': (facts) => lineText(facts),
  'set-copy': ({ run, twin }) =>
    `${run} holds the very same samples as ${twin}: a copy of a recording is no second run, so leave one out.`,
};
