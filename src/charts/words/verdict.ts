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

export function verdictSubtitle({ comparison, row }: VerdictValue): string {
  const line = `Line: ${rowIntervalName(comparison, row)} of the change from ${row.baseline} to ${row.condition}. `;
  return `${row.lowPercent === undefined ? '' : line}Shaded: changes that the claim allows.`;
}

export const verdictDescription = ({ comparison, row, sentence: said }: VerdictValue, claimed: ClaimedChange): string =>
  `${said} Measured, ${comparedName(comparison, row)}: ${changeText(row)}. The claim allows changes ${allowed(claimed)}.`;

function allowed({ from, to }: ClaimedChange): string {
  if (from === undefined) return `of ${plain(to, 3)} % and below`;
  return to === undefined ? `of ${plain(from, 3)} % and above` : `from ${plain(from, 3)} to ${plain(to, 3)} %`;
}

export const verdictCaption = ({ row }: VerdictValue): string =>
  `Claim against measurement, ${row.baseline} to ${row.condition}, channel ${row.channel}`;

export const meanSquareHeadings = { change: 'Change of mean square', share: 'Share of mean square' } as const;
