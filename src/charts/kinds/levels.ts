import { levelsCaptions } from '../words/levels.ts';
import type { Figure } from '../../values/description.ts';
import { runName } from '../../values/columns.ts';
import { levelsKind, type LevelsRow } from '../../values/levels.ts';
import { figuresIn } from '../../values/rows.ts';
import { distinct } from '../words/names.ts';
import { excludedPart } from './excluded.ts';
import { exposureParts } from './exposure.ts';
import { figuresTable } from './figures.ts';
import { some, type Presenter } from './kind.ts';

/** The figures that everyone asks for, then the others: one wide table could not be read. */
export const presentLevels: Presenter<'levels'> = (value, name, digits) => {
  const { set: called = name, rows, excluded, exposure } = value;
  const units = distinct(rows.map(({ channel }) => channel.unit.symbol));
  const captions = levelsCaptions(called, units.length > 1);
  // What no channel here has, such as the dose of a velocity, needs no column of dashes.
  const there = figures.filter(({ read }) => rows.some((row) => read(row, value) !== undefined));
  const main = there.filter((one) => one.further !== true);
  const further = there.filter((one) => one.further === true);
  return some(
    figuresTable(captions.main, [...names, ...main], rows, value, digits),
    figuresTable(captions.further, [...names, ...further], rows, value, digits),
    ...(exposure === undefined ? [] : exposureParts(exposure, digits)),
    excludedPart(excluded),
  );
};

const names: readonly Figure<LevelsRow>[] = [
  runName,
  {
    key: 'channel',
    unit: '',
    read: ({ channel: { name, weighting } }) => (weighting === undefined ? name : `${name}, ${weighting}-weighted`),
  },
];

/** How long a channel was, then what was measured of it. */
const figures: readonly Figure<LevelsRow>[] = figuresIn<LevelsRow, unknown>(levelsKind.rows.columns).sort(
  (a, b) => Number(b.key === 'duration') - Number(a.key === 'duration'),
);
