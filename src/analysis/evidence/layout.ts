import { sheetDate } from '../../readers/sheet.ts';
import type { RunsKnown } from '../../statistics/methods.ts';
import type { Run } from '../../values/run.ts';
import { factOf } from '../recordings/sheetFile.ts';
import { knownOrder } from './runOrder.ts';

/** How a test was laid out, as far as its run sheet and the recordings' clocks tell. */
export interface Layout {
  readonly order?: RunsKnown<number>;
  readonly pairs?: RunsKnown<string>;
  readonly days?: RunsKnown<string>;
}

const secondsOfDay = 86_400;

/**
 * The order of the runs (see `knownOrder`), their pairs by the sheet's column `pair`, and their days by its column `day`
 * or `session`, else by dates on several days. A column counts where it has something for every run of both sides.
 *
 * @param a, b the runs of either side
 */
export function layoutOf(a: readonly Run[], b: readonly Run[]): Layout {
  const order = knownOrder(a, b);
  const column = (name: string): RunsKnown<string> | undefined => known(a, b, (run) => cellOf(run, name));
  const pairs = column('pair');
  const days = several(column('day')) ?? several(column('session')) ?? several(known(a, b, dayOf));
  return {
    ...(order === undefined ? {} : { order: { a: order.a, b: order.b } }),
    ...(pairs === undefined ? {} : { pairs }),
    ...(days === undefined ? {} : { days }),
  };
}

function cellOf({ sheet }: Run, column: string): string | undefined {
  const cell = factOf(sheet?.facts ?? {}, column);
  return cell === '' ? undefined : cell;
}

function dayOf(run: Run): string | undefined {
  const date = sheetDate(cellOf(run, 'date') ?? '');
  return date === undefined ? undefined : String(Math.floor(date / secondsOfDay));
}

function known(
  a: readonly Run[],
  b: readonly Run[],
  read: (run: Run) => string | undefined,
): RunsKnown<string> | undefined {
  const [cellsA, cellsB] = [a, b].map((runs) => runs.flatMap((run) => read(run) ?? []));
  return cellsA.length === a.length && cellsB.length === b.length ? { a: cellsA, b: cellsB } : undefined;
}

const several = (column: RunsKnown<string> | undefined): RunsKnown<string> | undefined =>
  column !== undefined && new Set([...column.a, ...column.b]).size > 1 ? column : undefined;

/**
 * The order as letters: `ABBABAAB`; undefined where it is not known.
 *
 * @param a, b places of the runs of either side
 */
export function orderLetters(a: readonly number[] | undefined, b: readonly number[] | undefined): string | undefined {
  if (a === undefined || b === undefined) return undefined;
  const all = [...a.map((place) => ({ place, letter: 'A' })), ...b.map((place) => ({ place, letter: 'B' }))];
  return all
    .sort((one, other) => one.place - other.place)
    .map(({ letter }) => letter)
    .join('');
}
