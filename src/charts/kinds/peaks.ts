import { peaksKind, type PeakRow } from '../../values/peaks.ts';
import type { Figure } from '../../values/description.ts';
import { capitalised } from '../../result/words.ts';
import { peaksChart } from '../plots/peaks.ts';
import { acrossOf, setName } from '../series.ts';
import { figuresTable } from './figures.ts';
import { some, type Presenter } from './kind.ts';

/** The lines that stand out, marked in their spectrum and listed with height and sharpness. */
export const presentPeaks: Presenter<'peaks'> = (value, name) => {
  const { rows, spectrum } = value;
  if (rows.length === 0)
    return [{ type: 'text', text: 'No line stands out of the confidence band of its surroundings.' }];
  const across = acrossOf(spectrum);
  const columns = peaksKind.rows.columns.map((column): Figure<PeakRow> =>
    column.unit !== 'Hz'
      ? column
      : column.key === 'frequency'
        ? { ...column, unit: across.unit, title: capitalised(across.name) }
        : { ...column, unit: across.unit },
  );
  const caption = `Peaks of ${setName({ name, value: spectrum })}; a dash where the bins are too wide to tell`;
  return some(peaksChart({ name, value }), figuresTable(caption, [...peaksKind.rows.names, ...columns], rows, value));
};
