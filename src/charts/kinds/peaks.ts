import { capitalised, distinct } from '../names.ts';
import { aligned, fixed, significant } from '../number.ts';
import { peaksChart } from '../plots/peaks.ts';
import { acrossOf, setName } from '../series.ts';
import { columns, some, type Presenter } from './kind.ts';

/** The lines that stand out, marked in their spectrum and listed with height and sharpness. */
export const presentPeaks: Presenter<'peaks'> = (value, name) => {
  if (value.rows.length === 0)
    return [{ type: 'text', text: 'No line stands out of the confidence band of its surroundings.' }];
  const across = acrossOf(value.spectrum);
  const units = distinct(value.rows.map(({ unit }) => unit.symbol));
  const places = aligned(value.rows.map(({ frequency }) => frequency));
  return some(peaksChart({ name, value }), {
    type: 'table',
    caption: `Peaks of ${setName({ name, value: value.spectrum })}; a dash where the bins are too wide to tell`,
    columns: columns(
      ['Run', '', 'left'],
      ['Channel', '', 'left'],
      [capitalised(across.name), across.unit],
      ['Level', units.length === 1 ? units[0] : ''],
      ['Above surroundings', 'dB'],
      ['Half-power width', across.unit],
      ['Damping ratio', '%'],
    ),
    rows: value.rows.map((row, index) => [
      row.run,
      row.channel,
      places[index],
      significant(row.level),
      fixed(row.prominence, 1),
      significant(row.width, 3),
      row.damping === undefined ? '–' : significant(row.damping * 100, 2),
    ]),
  });
};
