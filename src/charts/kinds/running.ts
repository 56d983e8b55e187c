import { distinct } from '../names.ts';
import { plain, significant } from '../number.ts';
import { runningChart } from '../plots/running.ts';
import { columns, some, type Presenter } from './kind.ts';

/** The level as it went, and where it was largest. */
export const presentRunning: Presenter<'running'> = (value, name) => {
  const units = distinct(value.entries.map(({ channel }) => channel.unit.symbol));
  return some(runningChart([{ name, value }], {}), {
    type: 'table',
    caption: `Running r.m.s. over ${plain(value.over)} s`,
    columns: columns(
      ['Run', '', 'left'],
      ['Channel', '', 'left'],
      ['Largest', units.length === 1 ? units[0] : ''],
      ['at', 's'],
    ),
    rows: value.entries.map(({ run, channel, largest, largestAt }) => [
      run.label,
      channel.name,
      `${significant(largest)}${units.length === 1 ? '' : ` ${channel.unit.symbol}`}`,
      plain(largestAt, 5),
    ]),
  });
};
