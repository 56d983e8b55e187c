import { along } from '../../charts/along.ts';
import type { ChartPart } from '../../charts/output.ts';
import { cellDigits, cellSteps, type ReadsCells } from '../../charts/reads.ts';
import { hertz } from '../../values/number.ts';
import type { Curve } from './readings.ts';

/** The levels of a picture over time and frequency, as they can be read: a curve over time at a height. */
export class Cells {
  /** Middles of the columns in s. */
  readonly places: readonly number[];
  readonly rows: number;
  readonly #of: ReadsCells;

  constructor(of: ReadsCells) {
    const { columns, time, rows } = of;
    this.#of = of;
    this.rows = rows;
    this.places = Array.from(
      { length: columns },
      (_, at) => time.from + ((at + 0.5) / columns) * (time.to - time.from),
    );
  }

  /** The row at a share of the height, from below. */
  rowAt = (share: number): number => Math.min(this.rows - 1, Math.max(0, Math.floor(share * this.rows)));

  /** The row in which a frequency lies. @param at in Hz */
  rowOf = (at: number): number => this.rowAt(along(this.#of.frequency, this.#of.scale, at));

  /** The share of the height at which a row's middle lies, and its frequency in Hz. */
  middleOf(row: number): { readonly share: number; readonly frequency: number } {
    const share = (row + 0.5) / this.rows;
    const { from, to } = this.#of.frequency;
    const frequency = this.#of.scale === 'log' ? from * (to / from) ** share : from + share * (to - from);
    return { share, frequency };
  }

  curve(row: number): Curve {
    const { reads, columns, span, cells } = this.#of;
    const levels = this.places.map((_, column) => {
      const at = 2 * (row * columns + column);
      const step = cellDigits.indexOf(cells[at]) * cellDigits.length + cellDigits.indexOf(cells[at + 1]);
      return step === 0 ? null : 10 ** (span[0] + ((step - 1) / (cellSteps - 1)) * (span[1] - span[0]));
    });
    const label = hertz(this.middleOf(row).frequency);
    return { ...reads, label, series: undefined, at: this.places, low: levels, high: levels };
  }
}

/** The cells of a chart, if it has any. */
export function cellsOf({ vega }: ChartPart): Cells | undefined {
  const { data = [] } = vega as { readonly data?: readonly { readonly values?: readonly Partial<ReadsCells>[] }[] };
  const of = data.flatMap(({ values }) => values ?? []).find(({ cells }) => cells !== undefined);
  return of === undefined ? undefined : new Cells(of as ReadsCells);
}
