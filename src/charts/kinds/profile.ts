import { printedUnit } from '../names.ts';
import { fixed, plain, signed, significant } from '../number.ts';
import type { TablePart } from '../output.ts';
import type { ProfileValue } from '../../verbs/values/profile.ts';
import { profileChart } from '../plots/profile.ts';
import { columns, some, type Presenter } from './kind.ts';

/** The breakpoints on log-log paper, and the r.m.s. they enclose. */
export const presentProfile: Presenter<'profile'> = (value, name) =>
  some(profileChart([{ name, value }]), pointsTable(value, name), againstTable(value));

function pointsTable({ rms, rmsUnit, unit, points }: ProfileValue, name: string | undefined): TablePart {
  return {
    type: 'table',
    caption: `${name ?? 'Profile'}: ${significant(rms)} ${printedUnit(rmsUnit.symbol)} r.m.s.`,
    columns: columns(['Frequency', 'Hz'], ['Density', unit.symbol]),
    rows: points.map(({ frequency, density }) => [plain(frequency), plain(density)]),
  };
}

/** How the spectra that were given stand to the profile. */
function againstTable({ against = [], rmsUnit }: ProfileValue): TablePart | undefined {
  if (against.length === 0) return undefined;
  return {
    type: 'table',
    caption: 'Against the profile, over its range',
    columns: columns(
      ['Run', '', 'left'],
      ['Channel', '', 'left'],
      ['R.m.s.', rmsUnit.symbol],
      ['Against the profile', 'dB'],
      ['Highest above', 'dB'],
      ['at', 'Hz'],
      ['Lowest', 'dB'],
      ['at', 'Hz'],
      ['Bins more than 3 dB off', '%'],
    ),
    rows: against.map(({ run, channel, rms, decibels, highest, lowest, outside }) => [
      run.label,
      channel.name,
      significant(rms),
      signed(fixed(decibels, 2)),
      signed(fixed(highest.decibels, 1)),
      plain(highest.frequency, 4),
      signed(fixed(lowest.decibels, 1)),
      plain(lowest.frequency, 4),
      significant(outside * 100, 3),
    ]),
  };
}
