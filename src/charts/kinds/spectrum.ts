import { emptySpectrum, spectrumCaption } from '../words/spectra.ts';
import { channelNames } from '../../values/columns.ts';
import type { Figure } from '../../values/description.ts';
import { spectrumKind, type SpectrumEntry, type SpectrumValue } from '../../values/spectrum.ts';
import type { TablePart } from '../output.ts';
import { cumulativeChart } from '../plots/cumulative.ts';
import { overlayChart } from '../plots/overlayChart.ts';
import { bareOverlay } from '../plots/overlayOptions.ts';
import { acrossOf, highestBin } from '../series.ts';
import { excludedPart } from './excluded.ts';
import { figuresTable } from './figures.ts';
import { some, type Presenter } from './kind.ts';

/** The curves, and one row a run that says how they were made; the bins themselves only through `table`. */
export const presentSpectrum: Presenter<'spectrum'> = (value, name, digits) =>
  some(
    overlayChart([{ name, value }], bareOverlay) ?? { type: 'text', text: emptySpectrum },
    cumulativeChart([{ name, value }], bareOverlay),
    spectrumTable(value, name, digits),
    excludedPart(value.excluded),
  );

function spectrumTable(
  value: SpectrumValue,
  name: string | undefined,
  digits: number | undefined,
): TablePart | undefined {
  const { entries } = value;
  if (entries.length === 0) return undefined;
  const { unit } = acrossOf(value);
  const highest: readonly Figure<SpectrumEntry, SpectrumValue>[] = [
    { key: 'highest', unit: (entry) => entry.unit, read: (entry) => entry.level[topOf(entry) ?? -1] },
    { key: 'at', unit, title: 'at', read: (entry) => topAt(entry) },
  ];
  const settings = spectrumKind.rows.columns.map((column): Figure<SpectrumEntry> =>
    column.unit === 'Hz' ? { ...column, unit } : column,
  );
  return figuresTable(spectrumCaption(name, value), [...channelNames, ...settings, ...highest], entries, value, digits);
}

/** The highest bin that holds anything. */
function topOf(entry: SpectrumEntry): number | undefined {
  const bin = highestBin(entry);
  return bin === undefined || entry.level[bin] === 0 ? undefined : bin;
}

function topAt(entry: SpectrumEntry): number | undefined {
  const bin = topOf(entry);
  return bin === undefined ? undefined : bin * entry.spacing;
}
