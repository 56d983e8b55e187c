import type { Channel } from '../../values/run.ts';
import type { LevelsRow } from '../../values/levels.ts';
import { distinct, printedUnit } from '../names.ts';
import { aligned, significant } from '../number.ts';
import type { TablePart } from '../output.ts';
import { excludedPart } from './excluded.ts';
import { exposureParts } from './exposure.ts';
import { columns, some, type Column, type Presenter } from './kind.ts';

/** The figures that everyone asks for, then the others: one wide table could not be read. */
export const presentLevels: Presenter<'levels'> = ({ set, rows, excluded, exposure }, name) => {
  const units = distinct(rows.map(({ channel }) => channel.unit.symbol));
  const called = set ?? name;
  const about = `${called === undefined ? '' : ` of ${called}`}${units.length > 1 ? ", each in its channel's unit" : ''}`;
  return some(
    levelsTable(`Levels${about}`, rows, units, mainFigures),
    levelsTable(`Further levels${about}`, rows, units, furtherFigures),
    ...(exposure === undefined ? [] : exposureParts(exposure)),
    excludedPart(excluded),
  );
};

interface Figure {
  readonly name: string;
  /** Undefined for the channel's own. */
  readonly unit: string | undefined;
  readonly digits: number;
  readonly of: (row: LevelsRow) => number | undefined;
}

const mainFigures: readonly Figure[] = [
  { name: 'Duration', unit: 's', digits: 4, of: (row) => row.duration },
  { name: 'Mean', unit: undefined, digits: 4, of: (row) => row.mean },
  { name: 'R.m.s.', unit: undefined, digits: 4, of: (row) => row.rms },
  { name: 'Peak', unit: undefined, digits: 4, of: (row) => row.peak },
  { name: 'Crest factor', unit: '', digits: 3, of: (row) => row.crestFactor },
  { name: 'Kurtosis', unit: '', digits: 3, of: (row) => row.kurtosis },
  { name: 'VDV', unit: 'm/s^1.75', digits: 4, of: (row) => row.vdv },
];

const furtherFigures: readonly Figure[] = [
  { name: 'R.m.s. with mean', unit: undefined, digits: 4, of: (row) => row.totalRms },
  { name: 'Peak to peak', unit: undefined, digits: 4, of: (row) => row.peakToPeak },
  { name: '99 % below', unit: undefined, digits: 4, of: (row) => row.percentile99 },
  { name: '99.9 % below', unit: undefined, digits: 4, of: (row) => row.percentile999 },
  { name: 'Skewness', unit: '', digits: 3, of: (row) => row.skewness },
  { name: 'Largest 1 s r.m.s.', unit: undefined, digits: 4, of: (row) => row.mtvv },
  { name: 'at', unit: 's', digits: 3, of: (row) => row.mtvvAt },
];

function levelsTable(
  caption: string,
  rows: readonly LevelsRow[],
  units: readonly string[],
  wanted: readonly Figure[],
): TablePart {
  const own = units.length > 1;
  // What no channel here has, such as the dose of a velocity, needs no column of dashes.
  const figures = wanted.filter(({ of }) => rows.some((row) => of(row) !== undefined));
  const heads: Column[] = figures.map(({ name, unit }) => [name, unit ?? (own ? '' : (units[0] ?? ''))]);
  const texts = figures.map(({ unit, digits, of }) =>
    own && unit === undefined ? rows.map((row) => significant(of(row), digits)) : aligned(rows.map(of), digits),
  );
  return {
    type: 'table',
    caption,
    columns: columns(
      ['Run', '', 'left'],
      ['Channel', '', 'left'],
      ...(own ? ([['Unit', '', 'left']] as const) : []),
      ...heads,
    ),
    rows: rows.map((row, index) => [
      row.run.label,
      channelText(row.channel),
      ...(own ? [printedUnit(row.channel.unit.symbol)] : []),
      ...texts.map((column) => column[index]),
    ]),
  };
}

/** `z`, `z, Wk-weighted`. */
const channelText = ({ name, weighting }: Channel): string =>
  weighting === undefined ? name : `${name}, ${weighting}-weighted`;
