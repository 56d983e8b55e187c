import { againstColumns, profileKind } from '../../values/profile.ts';
import { printedUnit } from '../names.ts';
import { significant } from '../../values/number.ts';
import { profileChart } from '../plots/profile.ts';
import { figuresTable } from './figures.ts';
import { some, type Presenter } from './kind.ts';

/** The breakpoints on log-log paper, the r.m.s. they enclose, and how the spectra that were given stand to them. */
export const presentProfile: Presenter<'profile'> = (value, name) => {
  const { rms, rmsUnit, points, against = [] } = value;
  const called = name === undefined ? 'Profile' : `Profile ${name}`;
  return some(
    profileChart([{ name, value }]),
    figuresTable(
      `${called}: ${significant(rms)} ${printedUnit(rmsUnit.symbol)} r.m.s.`,
      profileKind.rows.columns,
      points,
      value,
    ),
    against.length === 0
      ? undefined
      : figuresTable('Against the profile, over its range; positive is above it', againstColumns, against, value),
  );
};
