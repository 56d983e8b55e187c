import type { ExposureRow, ExposureValue } from '../../values/exposure.ts';
import { printedUnit } from '../names.ts';
import { aligned, plain } from '../number.ts';
import type { Part } from '../output.ts';
import { columns } from './kind.ts';

/** Published ranges beside weighted levels, with the cautions that belong to them: context, no finding. */
export function exposureParts({ rows, cautions }: ExposureValue): Part[] {
  if (rows.length === 0) return [];
  const totals = aligned(
    rows.map(({ total }) => total),
    3,
  );
  const daily = aligned(
    rows.map((row) => row.daily),
    3,
  );
  const [first] = rows;
  const others = rows.length === 1 ? [] : ['The table says the same of the other runs and channels.'];
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
      rows: rows.map((row, index) => [
        row.run.label,
        row.channels.join(', '),
        row.weightings.join(', '),
        totals[index],
        comfortText(row),
        daily[index],
        plain(row.action),
        plain(row.limit),
      ]),
    },
    { type: 'text', text: [...first.sentences.map(printedUnit), ...others].join('\n') },
    { type: 'text', style: 'aside', text: cautions.join('\n') },
  ];
}

/** Both ranges where they overlap. */
const comfortText = ({ comfort }: ExposureRow): string => (comfort.length === 0 ? '–' : comfort.join(' / '));
