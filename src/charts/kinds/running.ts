import { distinct, printedUnit } from '../names.ts';
import { aligned, plain, significant } from '../number.ts';
import { runningChart } from '../plots/running.ts';
import { columns, some, type Presenter } from './kind.ts';

/** The level as it went, and where it was largest. */
export const presentRunning: Presenter<'running'> = (value, name) => {
  const { entries, set = name } = value;
  const units = distinct(entries.map(({ channel }) => channel.unit.symbol));
  const one = units.length === 1;
  const largest = one
    ? aligned(entries.map((entry) => entry.largest))
    : entries.map((entry) => `${significant(entry.largest)} ${printedUnit(entry.channel.unit.symbol)}`);
  const at = aligned(entries.map(({ largestAt }) => largestAt));
  return some(runningChart([{ name, value }], {}), {
    type: 'table',
    caption: `Running r.m.s. over ${plain(value.over)} s${set === undefined ? '' : ` of ${set}`}`,
    columns: columns(['Run', '', 'left'], ['Channel', '', 'left'], ['Largest', one ? units[0] : ''], ['at', 's']),
    rows: entries.map(({ run, channel }, index) => [run.label, channel.name, largest[index], at[index]]),
  });
};
