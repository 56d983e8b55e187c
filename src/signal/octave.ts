import { powerOf } from '../numbers/power.ts';
import { log10Of } from '../numbers/logarithm.ts';

/** Bands an octave is parted into: whole, third, sixth, twelfth, twenty-fourth, or any other whole number. */
export interface OctaveBand {
  /** Exact mid-band frequency in Hz. */
  readonly middle: number;
  /** Exact band edges in Hz. */
  readonly low: number;
  readonly high: number;
  /** Nominal frequency in Hz, by which the band is called: 31.5 for the third of exactly 31.623 Hz. */
  readonly nominal: number;
}

/** Octave ratio of base ten, 10^(3/10) (IEC 61260-1:2014, 5.2). */
const octaveRatio = powerOf(10, 0.3);

const reference = 1000;

/** ISO 266 preferred frequencies of a decade, for thirds of an octave. */
const preferred = [1, 1.25, 1.6, 2, 2.5, 3.15, 4, 5, 6.3, 8];

/**
 * The fractional-octave bands from the one that holds `low` to the one that holds `high`, by IEC 61260-1:2014:
 * mid-band frequencies 1000 G^(x/b) Hz for odd b and 1000 G^((2x+1)/(2b)) Hz for even b, edges G^(+-1/(2b)) from them.
 * Each band's upper edge is its neighbour's lower edge to the last bit.
 *
 * @param fraction b, bands an octave: 1, 3, 6, 12, 24
 * @param low in Hz, above 0
 * @param high in Hz, at least `low`
 * @returns the bands in Hz, rising
 * @throws RangeError for a fraction that is no whole number or a range that does not rise above 0
 */
export function octaveBands(fraction: number, low: number, high: number): OctaveBand[] {
  if (!(Number.isInteger(fraction) && fraction >= 1))
    throw new RangeError(`an octave is parted into a whole number of bands, not ${fraction}`);
  if (!(low > 0 && high >= low && high < Infinity)) {
    throw new RangeError(`octave bands need a range above 0 Hz with its lower end first, not ${low}..${high} Hz`);
  }
  const first = indexAt(fraction, low);
  const last = indexAt(fraction, high);
  return Array.from({ length: last - first + 1 }, (_, i) => {
    const index = first + i;
    const middle = reference * powerOf(octaveRatio, middleExponent(fraction, index));
    return {
      middle,
      low: edge(fraction, index),
      high: edge(fraction, index + 1),
      nominal: nominalOf(fraction, index, middle),
    };
  });
}

/** By how much an end of a range may lie inside a band's edge and still be meant as that edge: 22.4 Hz for 22.387 Hz. */
const edgeRounding = 0.005;

/**
 * The bands of `octaveBands` that a range holds. An end that is the nominal or exact mid-band frequency of a band names
 * it, and the whole band counts; any other end is a limit, and a band that reaches past it is left out.
 *
 * @param fraction b, bands an octave: 1, 3, 6, 12, 24
 * @param low in Hz, above 0
 * @param high in Hz, at least `low`
 * @returns the bands in Hz, rising; none where no whole band lies within the range
 * @throws RangeError as `octaveBands` does
 */
export function wholeOctaveBands(fraction: number, low: number, high: number): OctaveBand[] {
  const bands = octaveBands(fraction, low, high);
  const [bottom, top] = [bands[0], bands[bands.length - 1]];
  const from = names(low, bottom) ? bottom.low : low * (1 - edgeRounding);
  const to = names(high, top) ? top.high : high * (1 + edgeRounding);
  return bands.filter((band) => band.low >= from && band.high <= to);
}

/** Whether a frequency is what a band is called by. */
const names = (frequency: number, { nominal, middle }: OctaveBand): boolean =>
  Math.abs(frequency / nominal - 1) < 1e-9 || Math.abs(frequency / middle - 1) < 1e-3;

function middleExponent(fraction: number, index: number): number {
  return fraction % 2 === 1 ? index / fraction : (2 * index + 1) / (2 * fraction);
}

/** Lower edge of a band. */
function edge(fraction: number, index: number): number {
  return reference * powerOf(octaveRatio, fraction % 2 === 1 ? (2 * index - 1) / (2 * fraction) : index / fraction);
}

/** Index of the band that holds a frequency. */
function indexAt(fraction: number, frequency: number): number {
  const place = (fraction * log10Of(frequency / reference)) / log10Of(octaveRatio);
  return Math.floor(fraction % 2 === 1 ? place + 0.5 : place);
}

/** ISO 266 for whole octaves and thirds, else the rounding of IEC 61260-1:2014 annex E: 3 digits below a leading 5, else 2. */
function nominalOf(fraction: number, index: number, middle: number): number {
  if (fraction === 1 || fraction === 3) {
    const third = (index * 3) / fraction;
    const decade = Math.floor(third / 10);
    return Number(`${preferred[third - 10 * decade]}e${decade + 3}`);
  }
  return Number(middle.toPrecision(Number(middle.toExponential()[0]) < 5 ? 3 : 2));
}
