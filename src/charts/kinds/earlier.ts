import type { EarlierValue } from '../../values/earlier.ts';
import { tabulate } from '../../values/tabulate.ts';
import type { Part } from '../output.ts';
import { forestOf, studiesChart } from '../plots/studies.ts';
import { studiesTable } from './studiesTable.ts';
import { earlierAside, earlierCaption, forestRows } from '../words/studies.ts';
import { some, type Presenter } from './kind.ts';
import { presentTable } from './table.ts';

/** Where it was read, the changes as a picture and a table; of single figures the table alone. */
export const presentEarlier: Presenter<'earlier'> = (value, name, digits) => {
  const rows = forestRows({ name, value });
  return some(
    { type: 'text', style: 'aside', text: earlierAside(value) },
    studiesChart(forestOf({ name, value })),
    rows.length === 0 ? undefined : studiesTable(earlierCaption(value), rows),
    ...figures(value, digits),
  );
};

function figures(value: EarlierValue, digits: number | undefined): readonly Part[] {
  const rows = value.rows.filter(({ change }) => change === undefined);
  const table = rows.length === 0 ? undefined : tabulate({ ...value, rows });
  return table === undefined ? [] : presentTable(table, undefined, digits);
}
