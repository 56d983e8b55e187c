import type { PooledValue } from '../../values/pooled.ts';
import { studiesChart } from '../plots/studies.ts';
import { forestRows, pooledCaption, type ForestRow } from '../words/studies.ts';
import { some, type Presenter } from './kind.ts';
import { studiesTable } from './studiesTable.ts';

/** The pooled changes in sentences, and beside those of each study as a picture and a table. */
export const presentPooled: Presenter<'pooled'> = (value, name) => {
  const rows = [...ofEach(value), ...forestRows({ name, value })];
  return some(
    { type: 'text', style: 'lead', text: value.rows.map(({ sentence }) => sentence).join('\n') },
    studiesChart(rows),
    studiesTable(pooledCaption(value), rows),
  );
};

/** What each study found by itself: its interval, without a verdict of this one. */
const ofEach = (value: PooledValue): ForestRow[] =>
  value.studies.flatMap((study, k) =>
    forestRows({ name: undefined, value }).map((row, index) => {
      const { changePercent, lowPercent, highPercent } = value.rows[index].studies[k];
      return { ...row, study, changePercent, lowPercent, highPercent, outcome: undefined, confidence: undefined };
    }),
  );
