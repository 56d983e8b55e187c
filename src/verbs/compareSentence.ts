import type { Comparison, Inference } from '../statistics/comparison.ts';
import type { Band, Outcome } from './values.ts';
import { formatNumber } from '../units/format.ts';

interface Figures {
  readonly band: Band;
  readonly changePercent: number;
  readonly lowPercent: number | undefined;
  readonly highPercent: number | undefined;
  readonly outcome: Outcome;
}

/** A band's result in one sentence for a reader without statistics. */
export function compareSentence(
  row: Figures,
  a: string,
  b: string,
  comparison: Comparison,
  inference: Inference | undefined,
): string {
  const where = `From ${band(row.band)}`;
  const change = `${signedPercent(row.changePercent)}`;
  if (inference === undefined) {
    const each =
      comparison.method === 'one run each' ? 'one run each' : `${comparison.runsA} + ${comparison.runsB} runs`;
    return `${where} ${b} measured ${change} against ${a} (${each}): too few runs to say whether the change is real.`;
  }
  const interval = `${Math.round(100 * comparison.confidence)} % interval ${signedPercent(row.lowPercent ?? 0)} to ${signedPercent(row.highPercent ?? 0)}`;
  const limit = percent(inference.excluded.eitherWayPercent);
  switch (row.outcome) {
    case 'lower':
      return `${where} ${b} vibrates less than ${a}: ${change} (${interval}).`;
    case 'higher':
      return `${where} ${b} vibrates more than ${a}: ${change} (${interval}).`;
    case 'equivalent':
      return `${where} ${b} and ${a} are practically the same: ${change} (${interval}), within the margin stated.`;
    case 'unclear':
      return `${where} no difference is shown: ${change} (${interval}). The data rule out a change of more than ${limit} either way, but do not show that there is none.`;
  }
}

const percent = (value: number): string => `${Number(value.toPrecision(value < 10 ? 2 : 3))} %`;
const signedPercent = (value: number): string => `${value < 0 ? '−' : '+'}${percent(Math.abs(value))}`;
const band = ({ from, to }: Band): string => `${formatNumber(from)} to ${formatNumber(to)} Hz`;
