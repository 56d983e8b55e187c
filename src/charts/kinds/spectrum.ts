import { cumulativeChart } from '../plots/cumulative.ts';
import { bareOverlay, overlayChart } from '../plots/overlay.ts';
import { distinct, printedUnit, windowWords } from '../names.ts';
import { aligned, plain, significant } from '../number.ts';
import type { TablePart } from '../output.ts';
import { acrossOf, highestBin, setName, spectrumQuantity } from '../series.ts';
import type { SpectrumValue } from '../../values/spectrum.ts';
import { excludedPart } from './excluded.ts';
import { columns, some, type Presenter } from './kind.ts';

/** The curves, and one row a run that says how they were made; the bins themselves only through `table`. */
export const presentSpectrum: Presenter<'spectrum'> = (value, name) =>
  some(
    overlayChart([{ name, value }], bareOverlay) ?? {
      type: 'text',
      text: 'No bin lies above zero: there is nothing to draw on an axis of powers of ten.',
    },
    cumulativeChart([{ name, value }], bareOverlay),
    spectrumTable(value, name),
    excludedPart(value.excluded),
  );

function spectrumTable(value: SpectrumValue, name: string | undefined): TablePart | undefined {
  const first = value.entries[0];
  if (first === undefined) return undefined;
  const unit = first.unit.symbol;
  const across = acrossOf(value);
  const bins = value.entries.map((entry) => highestBin(entry));
  const levels = value.entries.map(({ level }, index) => {
    const bin = bins[index];
    return bin === undefined || level[bin] === 0 ? undefined : level[bin];
  });
  const highest =
    distinct(value.entries.map((entry) => entry.unit.symbol)).length === 1
      ? aligned(levels)
      : levels.map((level, index) => `${significant(level)} ${printedUnit(value.entries[index].unit.symbol)}`);
  const at = aligned(
    value.entries.map(({ spacing }, index) => {
      const bin = bins[index];
      return bin === undefined || levels[index] === undefined ? undefined : bin * spacing;
    }),
  );
  return {
    type: 'table',
    caption: `${setName({ name, value })}: ${spectrumQuantity(first, value.form)}, ${windowWords(value.window)}`,
    columns: columns(
      ['Run', '', 'left'],
      ['Channel', '', 'left'],
      ['Segments', ''],
      ['Averages', ''],
      ['Spacing', across.unit],
      ['Noise bandwidth', across.unit],
      ['Highest', unit],
      ['at', across.unit],
    ),
    rows: value.entries.map((entry, index) => [
      entry.run.label,
      entry.channel.name,
      String(entry.segments),
      significant(entry.averages, 3),
      plain(entry.spacing, 5),
      plain(entry.noiseBandwidth, 4),
      highest[index],
      at[index],
    ]),
  };
}
