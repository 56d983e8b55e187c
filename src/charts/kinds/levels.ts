import { distinct } from '../names.ts';
import { significant } from '../number.ts';
import { columns, type Presenter } from './kind.ts';

/** Every figure of every run and channel, in the channel's unit. */
export const presentLevels: Presenter<'levels'> = ({ set, rows }, name) => {
  const units = distinct(rows.map(({ channel }) => channel.unit.symbol));
  const unit = units.length === 1 ? units[0] : '';
  const own = units.length > 1;
  const called = set ?? name;
  return [
    {
      type: 'table',
      caption: `Levels${called === undefined ? '' : ` of ${called}`}${own ? ", each in its channel's unit" : ''}`,
      columns: columns(
        ['Run', '', 'left'],
        ['Channel', '', 'left'],
        ...(own ? ([['Unit', '', 'left']] as const) : []),
        ['Duration', 's'],
        ['Mean', unit],
        ['R.m.s.', unit],
        ['R.m.s. with mean', unit],
        ['Peak', unit],
        ['Peak to peak', unit],
        ['Crest factor', ''],
        ['Kurtosis', ''],
        ['Skewness', ''],
        ['99 %', unit],
        ['99.9 %', unit],
        ['Largest 1 s r.m.s.', unit],
        ['at', 's'],
        ['VDV', 'm/s^1.75'],
      ),
      rows: rows.map((row) => [
        row.run.label,
        row.channel.name,
        ...(own ? [row.channel.unit.symbol] : []),
        significant(row.duration),
        ...[row.mean, row.rms, row.totalRms, row.peak, row.peakToPeak].map((figure) => significant(figure)),
        ...[row.crestFactor, row.kurtosis, row.skewness].map((figure) => significant(figure, 3)),
        ...[row.percentile99, row.percentile999, row.mtvv].map((figure) => significant(figure)),
        significant(row.mtvvAt, 3),
        significant(row.vdv),
      ]),
    },
  ];
};
