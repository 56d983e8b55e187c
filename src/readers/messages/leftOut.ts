import { listedInFew } from '../../result/words.ts';
import { messages } from '../../result/messages.ts';
import { inQuotes } from './words.ts';

/** Why a column of a file becomes no channel. The message of each is a clause, as after `because`. */
export interface LeftOutFacts {
  'column.backward': object;
  'column.fraction': object;
  'column.off-rate': object;
  'column.other-time': object;
  'column.gaps': object;
  'column.empty': { readonly empty: number; readonly rows: number };
  'column.raw': object;
  'column.counter': object;
  'column.sensor': object;
  /** Some of the texts, where they were kept, and how many there are. */
  'column.text': { readonly texts: readonly string[]; readonly count: number };
  'column.dates': object;
  'column.no-number': object;
  'column.nested': object;
  /** Type of a Parquet column, if it states one. */
  'column.type': { readonly type: string | undefined };
}

const { tell } = messages<LeftOutFacts>({
  'column.backward': () => 'it is a time that does not run forward',
  'column.fraction': () => 'it is the part of the second, and was added',
  'column.off-rate': () => 'it is no time at the rate that is stated',
  'column.other-time': () => 'another time column was read',
  'column.gaps': () => 'it has empty cells',
  'column.empty': ({ empty, rows }) => `${empty} of its ${rows} cells are empty`,
  'column.raw': () => 'the same axis is there with a unit',
  'column.counter': () => 'it counts rows',
  'column.sensor': () => 'it names the sensor',
  'column.text': ({ texts, count }) =>
    texts.length === 0
      ? 'it holds text'
      : `it holds text (${listedInFew(inQuotes(texts))}${count > texts.length ? ', …' : ''})`,
  'column.dates': () => 'it holds dates',
  'column.no-number': () => 'it holds no number',
  'column.nested': () => 'it is nested',
  'column.type': ({ type = 'nothing that can be read' }) => `it holds ${type.toLowerCase()}`,
});

export { tell as leftOutFor };
