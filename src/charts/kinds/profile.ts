import { printedUnit } from '../names.ts';
import { plain, significant } from '../number.ts';
import { profileChart } from '../plots/profile.ts';
import { columns, some, type Presenter } from './kind.ts';

/** The breakpoints on log-log paper, and the r.m.s. they enclose. */
export const presentProfile: Presenter<'profile'> = (value, name) =>
  some(profileChart([{ name, value }]), {
    type: 'table',
    caption: `${name ?? 'Profile'}: ${significant(value.rms)} ${printedUnit(value.rmsUnit.symbol)} r.m.s.`,
    columns: columns(['Frequency', 'Hz'], ['Density', value.unit.symbol]),
    rows: value.points.map(({ frequency, density }) => [plain(frequency), plain(density)]),
  });
