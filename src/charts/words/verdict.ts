import type { VerdictValue } from '../../values/verdict.ts';
import { plain } from '../../values/number.ts';
import { sentence } from './names.ts';
import { changeText, comparedName, rowIntervalName, type ClaimedChange } from './compared.ts';

// What is said of a claim held against a measurement.

const titles: Readonly<Record<VerdictValue['verdict'], string>> = {
  supported: 'Supported',
  contradicted: 'Contradicted',
  'not shown': 'Not shown',
};

/** The verdict before everything else. */
export const verdictLead = ({ verdict, claim }: VerdictValue): string => `${verdict.toUpperCase()}: ${claim}.`;

/** The sentence that can be quoted, the reasons as far as it has not told them already, what would settle it, the source. */
export function verdictLines({ sentence: said, untold, settle, source }: VerdictValue): string[] {
  return [
    said,
    ...untold,
    ...(settle === undefined ? [] : [sentence(settle)]),
    ...(source === undefined ? [] : [`The claim stands in: ${source}.`]),
  ];
}

export const verdictTitle = ({ verdict, claim }: VerdictValue): string => `${titles[verdict]}: ${claim}`;

/** @param claimed in percent of amplitude */
export function verdictSubtitle(value: VerdictValue, claimed: ClaimedChange): string {
  const { comparison, row } = value;
  const line = `Line: the change from ${row.baseline} to ${row.condition} with its ${rowIntervalName(comparison, row)}. `;
  return `${row.lowPercent === undefined ? '' : line}Shaded: what the claim allows, ${allowed(value, claimed)}.`;
}

export const verdictDescription = (value: VerdictValue, claimed: ClaimedChange): string =>
  `${value.sentence} Measured, ${comparedName(value.comparison, value.row)}: ${changeText(value.row)}. The claim allows ${allowed(value, claimed)}.`;

/** Every change for which the claim is true: `a reduction of 30 % or more`. */
function allowed({ isOfPower }: VerdictValue, { from, to }: ClaimedChange): string {
  const of = isOfPower === true ? ' of amplitude' : '';
  const size = (change: number): string => `${plain(Math.abs(change), 3)} %${of}`;
  if (from === undefined && to !== undefined && to <= 0)
    return to === 0 ? 'any reduction' : `a reduction of ${size(to)} or more`;
  if (to === undefined && from !== undefined && from >= 0)
    return from === 0 ? 'any increase' : `an increase of ${size(from)} or more`;
  if (from !== undefined && to !== undefined && from * to >= 0) {
    const [least, most] = [from, to].map((change) => Math.abs(change)).sort((one, other) => one - other);
    return `${to <= 0 ? 'a reduction' : 'an increase'} of ${plain(least, 3)} to ${size(most)}`;
  }
  const reductions = from === undefined ? 'any reduction' : `a reduction of up to ${size(from)}`;
  const increases = to === undefined ? 'any increase' : `an increase of up to ${size(to)}`;
  return `${reductions}, no change and ${increases}`;
}

export const verdictCaption = ({ row }: VerdictValue): string =>
  `Claim against measurement, ${row.baseline} to ${row.condition}, channel ${row.channel}`;

export const meanSquareHeadings = { change: 'Change of mean square', share: 'Share of mean square' } as const;
