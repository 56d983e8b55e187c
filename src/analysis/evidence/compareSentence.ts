import type { Comparison, Inference } from '../../statistics/comparison.ts';
import { formatNumber } from '../../units/format.ts';
import { intervalText, percentText, signedPercentText } from '../percents.ts';
import type { Band } from '../../values/band.ts';
import type { Outcome } from '../../statistics/outcome.ts';

interface Figures {
  readonly changePercent: number;
  readonly lowPercent: number | undefined;
  readonly highPercent: number | undefined;
  readonly outcome: Outcome;
  readonly pAdjusted: number | undefined;
}

export interface Told {
  /** `From 10 to 50 Hz`, or `By the vibration dose value`. */
  readonly where: string;
  readonly a: string;
  readonly b: string;
  /** How many bands were compared together. */
  readonly family: number;
}

/** A band's result in one sentence for a reader without statistics. */
export function compareSentence(
  row: Figures,
  { where, a, b, family }: Told,
  comparison: Comparison,
  inference: Inference | undefined,
): string {
  const change = signedPercentText(row.changePercent);
  const { confidence, method, runsA, runsB } = comparison;
  const interval =
    row.lowPercent === undefined || row.highPercent === undefined
      ? undefined
      : `${formatNumber(100 * confidence, 4)} % interval ${intervalText(row.lowPercent, row.highPercent)}`;
  if (inference === undefined) {
    if (method === 'one run each') {
      const within = interval === undefined ? '' : `; ${interval} within these two runs only`;
      return `${where} ${b} measured ${change} against ${a} (one run each${within}): that is no evidence about the change itself.`;
    }
    const why =
      method === 'no inference'
        ? `${runsA} + ${runsB} runs): too few runs to say`
        : 'the runs do not scatter at all): nothing says';
    return `${where} ${b} measured ${change} against ${a} (${why} whether the change is real.`;
  }
  const found = `${change} (${interval ?? ''})`;
  const limit = percentText(inference.excluded.eitherWayPercent);
  switch (row.outcome) {
    case 'lower':
      return `${where} ${b} vibrates less than ${a}: ${found}.`;
    case 'higher':
      return `${where} ${b} vibrates more than ${a}: ${found}.`;
    case 'equivalent':
      return `${where} ${b} and ${a} are practically the same: ${found}, within the margin stated.`;
    case 'unclear':
      if (inference.p <= 1 - confidence)
        return `${where} no difference is shown: ${found} would show one if it stood alone, but ${family} bands were compared, and then it may be chance (p ${probability(row.pAdjusted ?? 1)} for all of them).`;
      return `${where} no difference is shown: ${found}. The data rule out a change of more than ${limit} either way, but do not show that there is none.`;
  }
}

const probability = (p: number): string => (p < 0.001 ? 'below 0.001' : p.toFixed(p < 0.1 ? 3 : 2));

/** `10 to 50 Hz`, or the nominal frequency of an octave's part: `the band of 8 Hz`. */
export const bandText = ({ from, to, label }: Band): string =>
  label === undefined ? `${formatNumber(from, 4)} to ${formatNumber(to, 4)} Hz` : `the band of ${label} Hz`;

/** How a sentence about a band begins. */
export const inBand = (band: Band): string => `${band.label === undefined ? 'From' : 'In'} ${bandText(band)}`;

/** As the head of a message. */
export const bandHead = (band: Band): string => bandText(band).replace(/^the/, 'The');
