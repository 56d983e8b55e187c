import type { SpectrogramEntry } from '../../values/spectrogram.ts';
import type { Domain } from '../axes.ts';
import { cellDigits, cellSteps, type ReadsCells } from '../reads.ts';
import { powerOf } from '../../numbers/power.ts';
import { log10Of } from '../../numbers/logarithm.ts';

/** Levels over time and frequency on a grid fit for a picture, and the outlines of cells of one colour. */
export interface Grid {
  readonly columns: number;
  readonly rows: number;
  /** log10 of the highest density in row r (from the lowest frequency), column c at r x columns + c; NaN where nothing was measured. */
  readonly level: Float64Array;
}

const columnLimit = 240;
const rowLimit = 96;

export function cellGrid(entry: SpectrogramEntry, time: Domain, frequency: Domain, scale: 'linear' | 'log'): Grid {
  const { times, spacing, bins, density } = entry;
  const step = stepOf(times);
  const columns = Math.max(1, Math.min(columnLimit, Math.round((time.to - time.from) / step)));
  const first = Math.max(1, Math.ceil(frequency.from / spacing - 0.5));
  const last = Math.min(bins - 1, Math.floor(frequency.to / spacing + 0.5));
  const rows = Math.max(1, Math.min(rowLimit, last - first + 1));
  const edges = Array.from({ length: rows + 1 }, (_, row) => edgeAt(row / rows, frequency, scale));
  const level = new Float64Array(rows * columns).fill(NaN);
  times.forEach((middle, segment) => {
    const from = columnAt(middle - step / 2, time, columns);
    const to = Math.max(from + 1, columnAt(middle + step / 2, time, columns));
    for (let row = 0; row < rows; row++) {
      // A row narrower than a bin shows the bin it lies in.
      const low = Math.min(last, Math.max(first, Math.ceil(edges[row] / spacing - 0.5)));
      const high = Math.max(low, Math.min(last, Math.ceil(edges[row + 1] / spacing - 0.5) - 1));
      let top = 0;
      for (let bin = low; bin <= high; bin++) top = Math.max(top, density[segment * bins + bin]);
      if (!(top > 0)) continue;
      for (let column = Math.max(0, from); column < Math.min(columns, to); column++) {
        const cell = row * columns + column;
        level[cell] = Math.max(Number.isNaN(level[cell]) ? -Infinity : level[cell], log10Of(top));
      }
    }
  });
  return { columns, rows, level };
}

const columnAt = (at: number, { from, to }: Domain, columns: number): number =>
  Math.round(((at - from) / (to - from)) * columns);

const edgeAt = (share: number, { from, to }: Domain, scale: 'linear' | 'log'): number =>
  scale === 'log' ? from * powerOf(to / from, share) : from + (to - from) * share;

/** Usual distance of two segments in s: the median, for a gap is longer. */
export function stepOf(times: Float64Array): number {
  if (times.length < 2) return 1;
  const steps = Float64Array.from({ length: times.length - 1 }, (_, index) => times[index + 1] - times[index]).sort();
  return steps[steps.length >> 1];
}

/** Levels that the colours span: from the highest down to where the quietest fiftieth begins, 2 to 6 powers of ten. */
export function levelSpan({ level }: Grid): Domain | undefined {
  const known = level.filter((value) => !Number.isNaN(value)).sort();
  if (known.length === 0) return undefined;
  const to = known[known.length - 1];
  return { from: Math.max(to - 6, Math.min(to - 2, known[Math.floor(known.length / 50)])), to };
}

export interface ColourPath {
  /** log10 of the level that the colour stands for. */
  readonly level: number;
  /** SVG path in cells, the highest frequency on top. */
  readonly d: string;
}

/** Cells of about one level as one path: a few dozen shapes instead of thousands. */
export function colourPaths({ columns, rows, level }: Grid, { from, to }: Domain, steps = 28): ColourPath[] {
  const parts: string[][] = Array.from({ length: steps }, () => []);
  const stepAt = (cell: number): number =>
    Number.isNaN(level[cell])
      ? -1
      : Math.min(steps - 1, Math.max(0, Math.floor(((level[cell] - from) / (to - from)) * steps)));
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns;) {
      const start = column;
      const step = stepAt(row * columns + column);
      while (column < columns && stepAt(row * columns + column) === step) column++;
      // A little overlap, or the page would shine through between the cells.
      if (step >= 0)
        parts[step].push(`M${start} ${rows - 1 - row}h${column - start + 0.05}v1.05h-${column - start + 0.05}z`);
    }
  }
  return parts.flatMap((part, step) =>
    part.length === 0 ? [] : [{ level: from + ((step + 0.5) / steps) * (to - from), d: part.join('') }],
  );
}

/** The levels themselves, so that they can be read at a place: to 0.2 % over four powers of ten. */
export function readCells({ level }: Grid): Pick<ReadsCells, 'span' | 'cells'> {
  const known = level.filter((value) => !Number.isNaN(value));
  const from = known.reduce((least, value) => Math.min(least, value), Infinity);
  const to = known.reduce((most, value) => Math.max(most, value), -Infinity);
  const share = (value: number): number => (to > from ? (value - from) / (to - from) : 0);
  const written = (value: number): string => {
    const step = Number.isNaN(value) ? 0 : 1 + Math.round(share(value) * (cellSteps - 1));
    return cellDigits[Math.floor(step / cellDigits.length)] + cellDigits[step % cellDigits.length];
  };
  return { span: [from, to], cells: Array.from(level, written).join('') };
}
