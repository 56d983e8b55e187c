import { messages } from '../../result/messages.ts';
import { capitalised, counted, listed, listedInFew } from '../../result/words.ts';
import { formatNumber } from '../../units/format.ts';
import type { Band } from '../../values/band.ts';
import { hertz, seconds } from '../amounts.ts';
import type { NoSpeed } from '../recordings/turningRate.ts';
import { noSpeedText } from './noSpeed.ts';
import { alsoOf } from '../together.ts';

/** Of a warning about one run that is told of others, too. */
interface Shared {
  readonly others: readonly string[];
}

/** What each message about spectra is told of. Times in s, frequencies in Hz; `run` is a label. */
export interface SpectraFacts {
  /** The figures that call for more than the weighted r.m.s., each where it does. */
  'levels.additional': Shared & {
    readonly run: string;
    readonly channel: string;
    readonly crest: number | undefined;
    /** MTVV over the weighted r.m.s. */
    readonly transient: number | undefined;
    /** VDV over the weighted r.m.s. and the fourth root of the duration. */
    readonly dose: number | undefined;
  };
  /** Stretches that are shorter than 1 s, samples in them, and all of the run. */
  'levels.mtvv-short': Shared & {
    readonly run: string;
    readonly stretches: number;
    readonly samples: number;
    readonly all: number;
  };
  'running.short': { readonly over: number; readonly run: string };
  'running.long': { readonly over: number; readonly run: string; readonly longest: number };
  'running.few': Shared & { readonly over: number; readonly run: string; readonly samples: number };
  /** `of` so many values two are kept. */
  'running.thinned': Shared & { readonly run: string; readonly of: number };
  /** Averages are independent ones; the `others` are of fewer than `fewest`, as the run is. */
  'spectrum.few': Shared & {
    readonly run: string;
    readonly segments: number;
    readonly averages: number;
    readonly fewest: number;
  };
  'spectrum.orders': { readonly axis: string };
  'window.long': SegmentFacts;
  /** Unbroken stretches that hold no segment, or no span, and samples in them; what is asked of the run in words. */
  'window.short-stretches': Shared & {
    readonly run: string;
    readonly stretches: number;
    readonly samples: number;
    readonly all: number;
    readonly length: number;
    readonly of: 'segment' | 'span';
  };
  'band.outside': {
    readonly from: number;
    readonly to: number;
    readonly run: string;
    readonly half: number;
    /** The part of an octave and the band's nominal frequency, where it is one of those. */
    readonly octave?: { readonly fraction: string; readonly label: string };
  };
  'band.zero': { readonly low: number };
  'band.below-cut': {
    readonly from: number;
    readonly to: number;
    readonly run: string;
    readonly lowCut: number;
    /** Whether a high-pass took out what is below, and not the integration alone. */
    readonly filtered: boolean;
  };
  'band.none': { readonly from: number; readonly to: number; readonly fraction: string };
  'band.narrow': { readonly from: number; readonly to: number; readonly spacing: number };
  'band.few-bins': {
    readonly count: number;
    /** Nominal frequencies of the lowest and the highest of them. */
    readonly first: string;
    readonly last: string;
    readonly fewest: number;
    readonly spacing: number;
    readonly window: number;
  };
  'peaks.none': { readonly range?: Band };
  /** Resonances of too few bins, the narrowest first: where and how wide at half power, in Hz. */
  'peaks.unresolved': {
    readonly peaks: readonly { readonly frequency: number; readonly width: number }[];
    readonly spacing: number;
    readonly fewest: number;
  };
  /** Peaks that neighbours reach into; `loss` is the most by which a line between bins reads low, as a fraction. */
  'peaks.blurred': { readonly frequencies: readonly number[]; readonly loss: number };
  'orders.speed': object;
  'orders.ways': object;
  'orders.column': NoSpeed;
  'orders.channel': { readonly run: string; readonly channel: string; readonly known: readonly string[] };
  'orders.alone': { readonly run: string; readonly channel: string };
  'orders.still': { readonly run: string; readonly channel: string };
  /** When the pulse comes, in s on the recording's time axis. */
  'orders.pulses': { readonly run: string; readonly at: number };
  /** Whole turns of a segment and those that a run has at most; the window's length in s. */
  'orders.short': { readonly run: string; readonly turns: number; readonly most: number; readonly length: number };
  'transfer.resultant': { readonly run: string; readonly axes: readonly string[] };
  'shock.resultant': { readonly run: string; readonly axes: readonly string[] };
  /** Hz: the highest natural frequency that is asked for, and the rate of the run. */
  'shock.rate': { readonly run: string; readonly to: number; readonly rate: number };
  'transfer.same': { readonly channel: string };
  'transfer.few': Shared & { readonly run: string; readonly averages: number };
  'transfer.incoherent': Shared & {
    readonly run: string;
    readonly from: string;
    readonly to: string;
    readonly least: number;
  };
  'transfer.delay': Shared & {
    readonly run: string;
    readonly from: string;
    readonly to: string;
    /** By how much the output comes later, and the length of a segment, in s. */
    readonly delay: number;
    readonly segment: number;
  };
  'transfer.unaligned': Shared & { readonly run: string; readonly from: string; readonly to: string };
  'profile.mixed': object;
  'profile.few': object;
  'profile.slopes': object;
  /** What stands where a frequency is wanted. */
  'profile.frequency': { readonly found: string };
  'profile.density': { readonly at: string };
  'profile.unit': ProfileUnitFacts;
  /** Which breakpoint, from 1. */
  'profile.zero': { readonly breakpoint: number };
  'profile.order': { readonly frequency: number; readonly before: number };
  'profile.outside': { readonly last: number; readonly run: string; readonly half: number };
  'profile.bins': { readonly run: string };
}

/** Why a run can't be cut into segments of a window: `length` in s. */
export type SegmentFacts =
  | { readonly why: 'samples'; readonly length: number; readonly samples: number; readonly rate: number }
  | {
      readonly why: 'stretch';
      readonly run: string;
      readonly length: number;
      readonly longest: number;
      readonly gaps: boolean;
    }
  | { readonly why: 'single'; readonly run: string; readonly length: number };

/** Units that do not go together: of two breakpoints, of one by itself, or of a profile and a spectrum. */
export type ProfileUnitFacts =
  | { readonly why: 'mixed'; readonly density: string; readonly unit: string }
  | { readonly why: 'density'; readonly unit: string }
  | {
      readonly why: 'spectrum';
      readonly run: string;
      readonly channel: string;
      readonly own: string;
      readonly unit: string;
    };

export const { tell, refuse, toldAgain } = messages<SpectraFacts>({
  'levels.additional': ({ run, channel, crest, transient, dose, others }) => {
    const signs = [
      crest === undefined ? [] : `the crest factor ${formatNumber(crest, 3)} is above 9`,
      transient === undefined ? [] : `MTVV/a_w ${formatNumber(transient, 3)} is above 1.5`,
      dose === undefined ? [] : `VDV/(a_w T^¼) ${formatNumber(dose, 3)} is above 1.75`,
    ].flat();
    return `${run}, ${channel}: ${signs.join(' and ')}, so the weighted r.m.s. alone may say too little: read MTVV and VDV too (ISO 2631-1:1997, 6.2.1 and 6.3.3).${alsoOf(others)}`;
  },
  'levels.mtvv-short': ({ run, stretches, samples, all, others }) =>
    `The MTVV of ${run} is without ${counted(stretches, 'unbroken stretch', 'unbroken stretches')} of less than its span of 1 s, with ${samples} of ${all} samples; all other levels take all samples.${alsoOf(others)}`,
  'running.short': ({ over, run }) => `A span of ${over} s holds no sample of ${run}: take a longer one.`,
  'running.long': ({ over, run, longest }) =>
    `The longest unbroken stretch of ${run} is ${seconds(longest)}, and a span of ${seconds(over)} does not fit in it.`,
  'running.few': ({ over, run, samples, others }) =>
    `A span of ${seconds(over)} holds only ${counted(samples, 'sample')} of ${run}: it follows the wave itself rather than its level.${alsoOf(others)}`,
  'running.thinned': ({ run, of, others }) =>
    `${run} has more values than fit into memory: of every ${of} the lowest and the highest are kept.${alsoOf(others)}`,
  'spectrum.few': ({ run, segments, averages, fewest, others }) =>
    `Only ${segments} ${segments === 1 ? 'segment goes' : 'segments go'} into the spectrum of ${run}, so each bin is uncertain by ${Math.round(100 / Math.sqrt(averages))} %: use a shorter window or a longer stretch.${fewToo(others, fewest)}`,
  'spectrum.orders': ({ axis }) =>
    `This spectrum is over ${axis}, not over frequency: take the spectrum it was made from.`,
  'window.long': (facts) => noSegment(facts),
  'window.short-stretches': ({ run, stretches, samples, all, length, of, others }) =>
    `${capitalised(counted(stretches, 'unbroken stretch', 'unbroken stretches'))} of ${run}, with ${samples} of its ${all} samples, ${stretches === 1 ? 'is' : 'are'} shorter than a ${of} of ${seconds(length)} and left out here; \`levels\` take all samples.${alsoOf(others)}`,
  'band.outside': ({ from, to, run, half, octave }) =>
    octave === undefined
      ? `The band ${hertz(from)} to ${hertz(to)} reaches past half the rate of ${run}, which is ${hertz(half)}.`
      : `The ${octave.fraction} band of ${octave.label} Hz reaches to ${hertz(to)}, past half the rate of ${run}, which is ${hertz(half)}: end the range below ${hertz(from)}.`,
  'band.zero': ({ low }) => `Bands of an octave begin above 0 Hz: the lowest of the range is ${hertz(low)}.`,
  'band.below-cut': ({ from, to, run, lowCut, filtered }) =>
    `The band ${hertz(from)} to ${hertz(to)} begins below ${hertz(lowCut)}, under which ${
      filtered
        ? `a high-pass left nothing of ${run}: begin it there, or lower the corner of the high-pass.`
        : `${run} was not integrated: begin it there, or integrate above a lower frequency.`
    }`,
  'band.none': ({ from, to, fraction }) =>
    `No whole ${fraction} band lies within ${hertz(from)} to ${hertz(to)}: name the first and the last band by their nominal frequencies, as in "third-octave 25..80 Hz", or take a wider range.`,
  'band.narrow': ({ from, to, spacing }) =>
    `The band ${hertz(from)} to ${hertz(to)} covers only ${formatNumber((to - from) / spacing, 2)} bins of ${hertz(spacing)}: take a longer window for so narrow a band.`,
  'band.few-bins': ({ count, first, last, fewest, spacing, window }) => {
    const which = count === 1 ? `The band of ${first} Hz holds` : `${count} bands from ${first} to ${last} Hz hold`;
    return `${which} fewer than ${fewest} bins of ${hertz(spacing)}, too few for a level, and ${count === 1 ? 'is' : 'are'} left empty: a window of ${formatNumber(window)} s resolves them.`;
  },
  'peaks.none': ({ range }) =>
    `Nothing stands out of the confidence band${range === undefined ? '' : ` between ${hertz(range.from)} and ${hertz(range.to)}`}: a longer stretch gives more averages, and so a narrower band.`,
  'peaks.unresolved': ({ peaks: [narrowest, ...others], spacing, fewest }) => {
    const also = others.length === 0 ? '' : ` (and ${counted(others.length, 'other', 'others')})`;
    return `The resonance at ${hertz(narrowest.frequency)}${also} is only ${formatNumber(narrowest.width / spacing, 2)} bins wide at half power: its height reads low and its damping ratio is left out. From ${fewest} bins on both can be read, which takes a window of ${formatNumber(Math.ceil(fewest / narrowest.width), 3)} s or more.`;
  },
  'peaks.blurred': ({ frequencies, loss }) =>
    `${frequencies.length === 1 ? 'The peak' : 'The peaks'} at ${listed(frequencies.map(hertz), 'and', 5)} can't be told apart from what lies beside ${frequencies.length === 1 ? 'it' : 'them'}, so the height is that of the bin, up to ${formatNumber(100 * loss, 2)} % low: a longer window parts them.`,
  'orders.speed': () => 'orders needs the speed, as in "orders S by 1.2 m/s", or the turning rate.',
  'orders.ways': () =>
    'Orders go by one speed ("by 1.2 m/s"), by a column of the run sheet ("column speed"), or, of runs, by a channel that counts turns ("tacho pulse pulses 2"): give one of them.',
  'orders.column': noSpeedText,
  'orders.channel': ({ run, channel, known }) =>
    `${run} has no channel ${channel} that could count turns, only ${listed(known)}: load it along, as in "load … tacho ${channel}".`,
  'orders.alone': ({ run, channel }) =>
    `${run} has no channel beside ${channel}: load those whose orders are asked for along with it.`,
  'orders.still': ({ run, channel }) =>
    `${channel} of ${run} has fewer than 5 pulses in any unbroken stretch: no speed can be told from it.`,
  'orders.pulses': ({ run, at }) =>
    `At ${seconds(at)} a pulse of ${run} is missing or counted twice, since it comes at another distance than those around it: trim to where the pulses are whole.`,
  'orders.short': ({ run, turns, most, length }) =>
    `A segment of ${seconds(length)} has ${turns} turns at the mean speed of the runs, and ${run} has ${formatNumber(most, 3)} of them without a break: take a shorter window.`,
  'shock.resultant': ({ run, axes }) =>
    `The resultant of ${run} is the size of a vector, and an oscillator answers along one axis: take ${listed(axes)} without resultant.`,
  'shock.rate': ({ run, to, rate }) =>
    `A shock response is read up to a tenth of the rate: ${formatNumber(rate / 10, 3)} Hz for ${run}, not ${formatNumber(to, 3)} Hz. Say a lower range, or draw the samples closer first, as in "resample r ${Math.ceil(10 * to)} Hz".`,
  'transfer.resultant': ({ run, axes }) =>
    `The resultant of ${run} is the size of a vector and has no phase: take the response between two of its axes, ${listed(axes)}, without resultant.`,
  'transfer.same': ({ channel }) => `${channel} stands on both sides: its response to itself is 1.`,
  'transfer.few': ({ run, averages, others }) =>
    `Only ${averages.toFixed(1)} independent averages go into the response of ${run}, so that even unrelated channels seem coherent: use a shorter window or a longer stretch.${alsoOf(others)}`,
  'transfer.incoherent': ({ run, from, to, least, others }) =>
    `The coherence of ${from} and ${to} of ${run} is nowhere ${least} or more: ${to} does not follow from ${from} alone.${alsoOf(others)}`,
  'transfer.delay': ({ run, from, to, delay, segment, others }) =>
    `In ${run}, ${to} comes ${seconds(Math.abs(delay))} ${delay > 0 ? 'later' : 'earlier'} than ${from}, more than a twentieth of a segment of ${seconds(segment)}: H1 and the coherence read low. Add align, or take a longer window.${alsoOf(others)}`,
  'transfer.unaligned': ({ run, from, to, others }) =>
    `No one delay between ${from} and ${to} of ${run} stands out, so that they were left as they are.${alsoOf(others)}`,
  'profile.mixed': () => 'Give one profile, or breakpoints.',
  'profile.few': () => 'A profile needs at least two breakpoints, each a frequency and a density.',
  'profile.slopes': () =>
    'Slopes alone say no height: give one breakpoint a density, as in "profile 20 Hz 3 dB/octave, 80 Hz 0.04 g^2/Hz".',
  'profile.frequency': ({ found }) =>
    `Each breakpoint is a frequency and a density, as in "20 Hz 0.01 g^2/Hz": a frequency is wanted where ${found} stands.`,
  'profile.density': ({ at }) => `The breakpoint at ${at} has no density.`,
  'profile.unit': (facts) => unitsApart(facts),
  'profile.zero': ({ breakpoint }) =>
    `Breakpoint ${breakpoint} needs a frequency and a density above 0, for log-log paper.`,
  'profile.order': ({ frequency, before }) =>
    `The frequencies of a profile rise, and ${hertz(frequency)} follows ${hertz(before)}.`,
  'profile.outside': ({ last, run, half }) =>
    `The profile reaches to ${hertz(last)}, past half the rate of ${run}, which is ${hertz(half)}: end it there.`,
  'profile.bins': ({ run }) => `No bin of ${run} lies within the profile: take a longer window.`,
});

/** That other spectra are of few averages, too, which may be more or fewer than those of the first. */
const fewToo = (others: readonly string[], fewest: number): string =>
  others.length === 0
    ? ''
    : ` Fewer than ${fewest} independent averages go into ${others.length === 1 ? 'that' : 'those'} of ${listedInFew(others)}, too.`;

function noSegment(facts: SegmentFacts): string {
  switch (facts.why) {
    case 'samples':
      return `A segment of ${facts.length} s holds only ${counted(facts.samples, 'sample')} at ${fourDigits(facts.rate)} Hz: take a longer window.`;
    case 'stretch':
      return `The longest${facts.gaps ? ' unbroken' : ''} stretch of ${facts.run} is ${fourDigits(facts.longest)} s, and a segment of ${facts.length} s does not fit in it: take a shorter window.`;
    case 'single':
      return `Only one segment of ${facts.length} s fits into ${facts.run}, of which any two channels seem coherent: take a shorter window.`;
  }
}

function unitsApart(facts: ProfileUnitFacts): string {
  switch (facts.why) {
    case 'mixed':
      return `The densities of a profile are all of one kind, and ${facts.density} is not in ${facts.unit}.`;
    case 'density':
      return `A density is a unit squared per Hz, such as g^2/Hz, and ${facts.unit || 'a plain number'} is not.`;
    case 'spectrum':
      return `The profile is in ${facts.unit} and the spectrum of ${facts.run}, ${facts.channel}, in ${facts.own}.`;
  }
}

const fourDigits = (value: number): string => String(Number(value.toPrecision(4)));
