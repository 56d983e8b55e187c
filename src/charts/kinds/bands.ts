import { bandsCaption } from '../words/levels.ts';
import { bandChart } from '../plots/bandBars.ts';
import { bandName, distinct } from '../words/names.ts';
import { aligned, plain, significant, printedUnit } from '../../values/number.ts';
import { excludedPart } from './excluded.ts';
import { columns, some, type Presenter } from './kind.ts';
import type { BandsValue } from '../../values/bands.ts';
import type { TablePart } from '../output.ts';

/** A bar for each band with every run as a dot, and the figures. */
export const presentBands: Presenter<'bands'> = (value, name, digits) =>
  some(bandChart([{ name, value }]), bandTable(value, name, digits), excludedPart(value.excluded));

/** What is stated of the sensors, in percent. */
const calibrationsOf = (rows: BandsValue['rows']): string[] =>
  distinct(
    rows.flatMap(({ channel: { calibration } }) =>
      calibration === undefined ? [] : plain(100 * calibration.relative),
    ),
  );

type Band = BandsValue['bands'][number];

/** One row a run and channel and a column a band; the other way about when there are more bands than fit a line. */
function bandTable({ set, bands, rows }: BandsValue, name: string | undefined, digits = 4): TablePart {
  const units = distinct(rows.map(({ unit }) => unit.symbol));
  const unit = units.length === 1 ? units[0] : '';
  const caption = bandsCaption(set ?? name, calibrationsOf(rows));
  const keyOf = (run: string, channel: string): string => `${run}\u0000${channel}`;
  const placed = new Map<string, BandsValue['rows'][number]>();
  const inBand = (key: string, { from, to }: Band): string => `${key}\u0000${from}\u0000${to}`;
  for (const row of rows) {
    const key = inBand(keyOf(row.run.label, row.channel.name), row.band);
    if (!placed.has(key)) placed.set(key, row);
  }
  const lines = distinct(rows.map(({ run, channel }) => keyOf(run.label, channel.name))).map((key) =>
    key.split('\u0000'),
  );
  const rowOf = (run: string, channel: string, band: Band): BandsValue['rows'][number] | undefined =>
    placed.get(inBand(keyOf(run, channel), band));
  const column = (found: readonly (BandsValue['rows'][number] | undefined)[]): string[] =>
    units.length === 1
      ? aligned(
          found.map((row) => row?.rms),
          digits,
        )
      : found.map((row) =>
          row === undefined ? '–' : `${significant(row.rms, digits)} ${printedUnit(row.unit.symbol)}`,
        );
  if (bands.length <= 6) {
    const figures = bands.map((band) => column(lines.map(([run, channel]) => rowOf(run, channel, band))));
    return {
      type: 'table',
      caption,
      columns: columns(
        ['Run', '', 'left'],
        ['Channel', '', 'left'],
        ...bands.map((band) => [bandName(band), unit] as const),
      ),
      rows: lines.map(([run, channel], index) => [run, channel, ...figures.map((texts) => texts[index])]),
    };
  }
  const channels = distinct(lines.map(([, channel]) => channel));
  const alone = channels.length === 1;
  const heads = lines.map(([run, channel]) => [alone ? run : `${run} ${channel}`, unit] as const);
  const figures = lines.map(([run, channel]) => column(bands.map((band) => rowOf(run, channel, band))));
  return {
    type: 'table',
    caption: `${caption}${alone ? `, channel ${channels[0]}` : ''}`,
    columns: columns(['Band', '', 'left'], ...heads),
    rows: bands.map((band, index) => [bandName(band), ...figures.map((texts) => texts[index])]),
  };
}
