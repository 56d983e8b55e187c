import { checkRecording, checkSet, worstFirst } from '../../readers/checks/check.ts';
import type { CheckedRun } from '../../readers/checks/checked.ts';
import { isAcceleration } from '../../analysis/recordings/dimensions.ts';
import { option, si, valueOf } from '../arguments.ts';
import type { Run } from '../../values/run.ts';
import { answer, type Verb } from '../verb.ts';
import { defaultWindow } from '../../analysis/spectra/window.ts';

export const check: Verb = {
  passesFaults: true,
  form: {
    verb: 'check',
    summary: 'Looks at recordings as a careful engineer would before any spectrum.',
    help: 'Findings on each run and channel, the most serious first: rate and unevenness of the stamps, gaps, clipping, values that are stuck, resolution, spikes, gravity and its direction, drift, how steady the level is and whether one event dominates, content near half the rate that may be folded in, and whether the run is long enough for the band of interest. In a set, also what does not match from run to run. A fault travels with every later result of its run as a warning. The thresholds are engineering choices and stand with each finding.',
    operands: [
      {
        name: 'runs',
        doc: 'The runs, with all their axes if gravity is to be judged.',
        accepts: [{ type: 'value', kinds: ['runs'] }],
      },
    ],
    options: [
      {
        keyword: 'over',
        doc: 'The band of interest, which the rate and the length are judged by.',
        accepts: [{ type: 'range', dimension: 'frequency' }],
      },
    ],
    gives: 'findings',
    examples: ['foam = load "raw/brick-foam-*.csv.gz" | trim 12..72 s\ncheck foam over 10..50 Hz'],
  },
  evaluate(given, { watch }) {
    const { runs } = valueOf(given, 'runs', 'runs');
    const over = option(given, 'over');
    const question =
      over?.type === 'range' ? { low: si(over.from), high: si(over.to), segment: defaultWindow.length } : {};
    const rows = runs.flatMap((run, index) => {
      watch.progress(index / runs.length, `checking ${run.label}`);
      const known = new Set(run.findings.map(({ code, channel }) => `${code} ${channel ?? ''}`));
      const fresh = checkRecording(checkedRun(run), question).filter(
        ({ code, channel }) => !known.has(`${code} ${channel ?? ''}`),
      );
      return [...run.findings, ...fresh].map((finding) => ({ run, finding }));
    });
    const between = checkSet(runs.map((run) => ({ ...checkedRun(run), label: run.label }))).map(({ run, finding }) => ({
      run: runs[run],
      finding,
    }));
    return answer({ kind: 'findings', rows: worstFirst([...rows, ...between], ({ finding }) => finding) });
  },
};

/** A run as the checks take it. */
export function checkedRun({ rate, stretches, channels }: Run): CheckedRun {
  return {
    rate,
    stretches,
    channels: channels.map(({ name, unit, samples, includesStatic: steady }) => ({
      name,
      unit: unit.symbol,
      axis: isAcceleration(unit),
      samples,
      steady,
    })),
  };
}
