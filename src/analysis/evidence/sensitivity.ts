import type { Warning } from '../../result/result.ts';
import { covariateSensitivity } from '../../statistics/covariate.ts';
import { tell } from '../messages/evidence.ts';
import type { Compared } from './compared.ts';
import { comparedIn } from './sides.ts';
import { expOf } from '../../numbers/exponential.ts';

/** Powers by which a result is shown beside that of the stated one: those that vibration of vehicles was seen to have. */
const usualPowers = [0, 0.5, 1, 1.5];

/** For each covariate whose power is stated, the change of the first row by other powers: it hangs on the author's word. */
export function powerSensitivity(compared: Compared): Warning[] {
  const { adjusted, changes, measurements, levels, layout, terms } = compared;
  const [{ sides }] = measurements;
  const row = terms.primary ?? 0;
  const overall = changes.filter(({ stratum }) => stratum === undefined);
  return adjusted.stated.flatMap(({ column, exponent, logarithms }) => {
    const powers = usualPowers.filter((power) => power !== exponent);
    // The levels are at the stated power already.
    const further = powers.map((power) => power - exponent);
    return overall.map((change) => {
      const study = { runs: layout.runs, change, options: { method: terms.method, isOverDays: layout.isOverDays } };
      const found = covariateSensitivity(levels[row], logarithms.map(expOf), study, further);
      return tell('compare.adjusted', {
        a: comparedIn(sides)[change.a].name,
        b: comparedIn(sides)[change.b].name,
        channel: sides.a.channel,
        band: terms.ofSignal ? undefined : terms.bands[row],
        column,
        exponent,
        others: found.map((one, k) => ({ exponent: powers[k], changePercent: one.row.changePercent ?? 0 })),
      });
    });
  });
}
