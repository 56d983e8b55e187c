import { cumulativeChart } from '../plots/cumulative.ts';
import { bareOverlay, overlayChart } from '../plots/overlay.ts';
import { printedUnit } from '../names.ts';
import { percent, plain, significant } from '../number.ts';
import type { TablePart } from '../output.ts';
import { acrossOf, highestBin, setName, spectrumQuantity } from '../series.ts';
import type { SpectrumValue } from '../../verbs/values.ts';
import { excludedPart } from './excluded.ts';
import { columns, some, type Presenter } from './kind.ts';

/** The curves, and one row a run that says how they were made; the bins themselves only through `table`. */
export const presentSpectrum: Presenter<'spectrum'> = (value, name) =>
  some(
    overlayChart([{ name, value }], bareOverlay),
    cumulativeChart([{ name, value }], bareOverlay),
    spectrumTable(value, name),
    excludedPart(value.excluded),
  );

function spectrumTable(value: SpectrumValue, name: string | undefined): TablePart | undefined {
  const first = value.entries[0];
  if (first === undefined) return undefined;
  const unit = first.unit.symbol;
  const across = acrossOf(value);
  return {
    type: 'table',
    caption: `${setName({ name, value })}: ${spectrumQuantity(first, value.form)}, ${value.window.shape} window of ${plain(value.window.length)} s, overlap ${percent(value.window.overlap)}`,
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
    rows: value.entries.map((entry) => {
      const bin = highestBin(entry);
      return [
        entry.run.label,
        entry.channel.name,
        String(entry.segments),
        significant(entry.averages, 3),
        plain(entry.spacing),
        plain(entry.noiseBandwidth, 4),
        bin === undefined
          ? '–'
          : `${significant(entry.level[bin])}${entry.unit.symbol === unit ? '' : ` ${printedUnit(entry.unit.symbol)}`}`,
        bin === undefined ? '–' : plain(bin * entry.spacing, 5),
      ];
    }),
  };
}
