import type { ExposureValue } from '../../verbs/values/exposure.ts';
import { listed } from '../names.ts';
import { plain, significant } from '../number.ts';
import type { Part } from '../output.ts';
import { columns } from './kind.ts';

/** Published ranges beside weighted levels, with the cautions that belong to them: context, no finding. */
export function exposureParts({ rows, cautions }: ExposureValue): Part[] {
  if (rows.length === 0) return [];
  return [
    {
      type: 'table',
      caption: 'Published ranges as context',
      columns: columns(
        ['Run', '', 'left'],
        ['Channels', '', 'left'],
        ['Weighting', '', 'left'],
        ['Weighted r.m.s.', 'm/s^2'],
        ['Comfort range', '', 'left'],
        ['If held for 8 h', 'm/s^2'],
        ['Action value', 'm/s^2'],
        ['Limit value', 'm/s^2'],
      ),
      rows: rows.map((row) => [
        row.run.label,
        row.channels.join(', '),
        row.weightings.join(', '),
        significant(row.total, 3),
        row.comfort.length === 0 ? '–' : listed(row.comfort),
        significant(row.daily, 3),
        plain(row.action),
        plain(row.limit),
      ]),
    },
    { type: 'text', text: [...rows.flatMap(({ sentences }) => sentences), ...cautions].join('\n') },
  ];
}
