import { confidenceFactors } from '../../signal/confidence.ts';
import { chiSquareQuantile } from '../../statistics/distributions/chiSquare.ts';
import type { SpectrumEntry, SpectrumMean, SpectrumValue } from '../../values/spectrum.ts';

/**
 * The mean over runs of each channel's spectrum, as power whatever the form, in the unit of the entries. Its limits come
 * from the averages of all runs together: they say how well the mean of these runs is known, and nothing about other
 * runs. Runs whose frequency axes differ by half a bin or more at their upper end have no common mean.
 * @param entries spectra of any channels
 * @param confidence of the limits, 0 to 1
 */
export function meansOf(
  entries: readonly SpectrumEntry[],
  form: SpectrumValue['form'],
  confidence: number,
): SpectrumMean[] {
  const channels = [...new Set(entries.map(({ channel }) => channel.name))];
  return channels.flatMap((name) => {
    const of = entries.filter(({ channel }) => channel.name === name);
    return shareFrequencies(of) ? [meanOf(name, of, form, confidence)] : [];
  });
}

/** Whether the `entries` share one frequency axis, within half a bin at its upper end, and one unit. */
export function shareFrequencies(entries: readonly SpectrumEntry[]): boolean {
  const [first, ...rest] = entries;
  const bins = Math.min(...entries.map(({ level }) => level.length));
  return rest.every(
    (entry) =>
      entry.unit.symbol === first.unit.symbol &&
      Math.abs(entry.spacing - first.spacing) * (bins - 1) < first.spacing / 2,
  );
}

function meanOf(
  channel: string,
  entries: readonly SpectrumEntry[],
  form: SpectrumValue['form'],
  confidence: number,
): SpectrumMean {
  const bins = Math.min(...entries.map(({ level }) => level.length));
  // Amplitudes are averaged by their squares.
  const [into, back] = form === 'amplitude' ? [squared, Math.sqrt] : [same, same];
  const level = new Float64Array(bins);
  for (const entry of entries) for (let k = 0; k < bins; k++) level[k] += into(entry.level[k]);
  for (let k = 0; k < bins; k++) level[k] = back(level[k] / entries.length);
  const averages = entries.reduce((sum, entry) => sum + entry.averages, 0);
  const { lower, upper } = confidenceFactors(averages, confidence, chiSquareQuantile);
  return {
    channel,
    unit: entries[0].unit,
    spacing: entries.reduce((sum, { spacing }) => sum + spacing, 0) / entries.length,
    level,
    low: level.map((value) => value * back(lower)),
    high: level.map((value) => value * back(upper)),
  };
}

const same = (value: number): number => value;
const squared = (value: number): number => value ** 2;
