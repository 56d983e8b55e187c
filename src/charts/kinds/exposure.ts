import { exposureCaption, othersInTable } from '../words/levels.ts';
import { exposureColumns, type ExposureValue } from '../../values/exposure.ts';
import { printedUnit } from '../../values/number.ts';
import type { Part } from '../output.ts';
import { figuresTable } from './figures.ts';

/** Published ranges beside weighted levels, with the cautions that belong to them: context, no finding. */
export function exposureParts({ rows, cautions }: ExposureValue, digits: number | undefined): Part[] {
  if (rows.length === 0) return [];
  const others = rows.length === 1 ? [] : [othersInTable];
  return [
    figuresTable(exposureCaption, exposureColumns, rows, undefined, digits),
    { type: 'text', text: [...rows[0].sentences.map(printedUnit), ...others].join('\n') },
    { type: 'text', style: 'aside', text: cautions.join('\n') },
  ];
}
