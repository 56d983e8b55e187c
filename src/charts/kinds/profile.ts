import { printedUnit } from '../names.ts';
import { aligned, fixed, plain, signed, significant } from '../number.ts';
import type { TablePart } from '../output.ts';
import type { ProfileValue } from '../../values/profile.ts';
import { profileChart } from '../plots/profile.ts';
import { columns, some, type Presenter } from './kind.ts';

/** The breakpoints on log-log paper, and the r.m.s. they enclose. */
export const presentProfile: Presenter<'profile'> = (value, name) =>
  some(profileChart([{ name, value }]), pointsTable(value, name), againstTable(value));

function pointsTable({ rms, rmsUnit, unit, points }: ProfileValue, name: string | undefined): TablePart {
  return {
    type: 'table',
    caption: `${name === undefined ? 'Profile' : `Profile ${name}`}: ${significant(rms)} ${printedUnit(rmsUnit.symbol)} r.m.s.`,
    columns: columns(['Frequency', 'Hz'], ['Density', unit.symbol]),
    rows: points.map(({ frequency, density }) => [plain(frequency), plain(density)]),
  };
}

/** How the spectra that were given stand to the profile. */
function againstTable({ against = [], rmsUnit }: ProfileValue): TablePart | undefined {
  if (against.length === 0) return undefined;
  const levels = aligned(against.map(({ rms }) => rms));
  const highestAt = aligned(against.map(({ highest }) => highest.frequency));
  const lowestAt = aligned(against.map(({ lowest }) => lowest.frequency));
  return {
    type: 'table',
    caption: 'Against the profile, over its range; positive is above it',
    columns: columns(
      ['Run', '', 'left'],
      ['Channel', '', 'left'],
      ['R.m.s.', rmsUnit.symbol],
      ['R.m.s. against the profile', 'dB'],
      ['Highest bin', 'dB'],
      ['at', 'Hz'],
      ['Lowest bin', 'dB'],
      ['at', 'Hz'],
      ['Bins more than 3 dB off', '%'],
    ),
    rows: against.map(({ run, channel, decibels, highest, lowest, outside }, index) => [
      run.label,
      channel.name,
      levels[index],
      signed(fixed(decibels, 2)),
      signed(fixed(highest.decibels, 1)),
      highestAt[index],
      signed(fixed(lowest.decibels, 1)),
      lowestAt[index],
      significant(outside * 100, 3),
    ]),
  };
}
