import { againstColumns, profileKind } from '../../values/profile.ts';
import { profileChart } from '../plots/profile.ts';
import { againstCaption, profileCaption } from '../words/spectra.ts';
import { figuresTable } from './figures.ts';
import { some, type Presenter } from './kind.ts';

/** The breakpoints on log-log paper, the r.m.s. they enclose, and how the spectra that were given stand to them. */
export const presentProfile: Presenter<'profile'> = (value, name, digits) => {
  const { points, against = [] } = value;
  return some(
    profileChart([{ name, value }]),
    figuresTable(profileCaption(name, value), profileKind.rows.columns, points, value, digits),
    against.length === 0 ? undefined : figuresTable(againstCaption, againstColumns, against, value, digits),
  );
};
