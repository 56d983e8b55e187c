import { bandChart } from '../plots/band-bars.ts';
import { bandName, distinct } from '../names.ts';
import { significant } from '../number.ts';
import { excludedPart } from './excluded.ts';
import { columns, some, type Presenter } from './kind.ts';
import type { BandsValue } from '../../verbs/values.ts';
import type { TablePart } from '../output.ts';

/** A bar for each band with every run as a dot, and the figures. */
export const presentBands: Presenter<'bands'> = (value, name) =>
  some(bandChart([{ name, value }]), bandTable(value, name), excludedPart(value.excluded));

/** One row a run and channel and a column a band; the other way about when there are more bands than fit a line. */
function bandTable({ set, bands, rows }: BandsValue, name: string | undefined): TablePart {
  const units = distinct(rows.map(({ unit }) => unit.symbol));
  const unit = units.length === 1 ? units[0] : '';
  const called = set ?? name;
  const caption = `R.m.s. in bands${called === undefined ? '' : ` of ${called}`}`;
  const lines = distinct(rows.map(({ run, channel }) => `${run.label}\u0000${channel.name}`)).map((key) =>
    key.split('\u0000'),
  );
  const figure = (run: string, channel: string, band: BandsValue['bands'][number]): string => {
    const row = rows.find(
      (each) =>
        each.run.label === run &&
        each.channel.name === channel &&
        each.band.from === band.from &&
        each.band.to === band.to,
    );
    return row === undefined ? '–' : `${significant(row.rms)}${units.length > 1 ? ` ${row.unit.symbol}` : ''}`;
  };
  if (bands.length <= 6) {
    return {
      type: 'table',
      caption,
      columns: columns(
        ['Run', '', 'left'],
        ['Channel', '', 'left'],
        ...bands.map((band) => [bandName(band), unit] as const),
      ),
      rows: lines.map(([run, channel]) => [run, channel, ...bands.map((band) => figure(run, channel, band))]),
    };
  }
  const heads = lines.map(([run, channel]) => [`${run} ${channel}`, unit] as const);
  return {
    type: 'table',
    caption,
    columns: columns(['Band', '', 'left'], ...heads),
    rows: bands.map((band) => [bandName(band), ...lines.map(([run, channel]) => figure(run, channel, band))]),
  };
}
