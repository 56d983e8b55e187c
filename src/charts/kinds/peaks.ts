import { lineWords, noPeaks, peaksCaption } from '../words/spectra.ts';
import { peaksKind, type PeakRow } from '../../values/peaks.ts';
import type { Figure } from '../../values/description.ts';
import { capitalised } from '../../result/words.ts';
import { peaksChart } from '../plots/peaks.ts';
import { acrossOf } from '../series.ts';
import { figuresTable } from './figures.ts';
import { some, type Presenter } from './kind.ts';

/** The lines that stand out, marked in their spectrum and listed with height and sharpness. */
export const presentPeaks: Presenter<'peaks'> = (value, name, digits) => {
  const { rows, spectrum, unseenWidth } = value;
  const hasLines = unseenWidth !== undefined && rows.some(({ shape }) => shape === 'line');
  if (rows.length === 0) return [{ type: 'text', text: noPeaks }];
  const across = acrossOf(spectrum);
  const columns = peaksKind.rows.columns.map((column): Figure<PeakRow> =>
    column.unit !== 'Hz'
      ? column
      : column.key === 'frequency'
        ? { ...column, unit: across.unit, title: capitalised(across.name) }
        : { ...column, unit: across.unit },
  );
  return some(
    peaksChart({ name, value }),
    figuresTable(peaksCaption(name, spectrum), [...peaksKind.rows.names, ...columns], rows, value, digits),
    hasLines ? { type: 'text', style: 'aside', text: lineWords(unseenWidth) } : undefined,
  );
};
