import { checkRecording, checkSet } from '../../readers/checks/check.ts';
import type { CheckedRun } from '../../readers/checks/checked.ts';
import { statedRange } from '../../readers/statedRange.ts';
import { sheetNumber } from '../../readers/sheet.ts';
import { worstFirst } from '../../result/severity.ts';
import type { FindingsValue } from '../../values/findings.ts';
import type { Watch } from '../../values/ports.ts';
import { signalsOf, type Run } from '../../values/run.ts';
import type { RunsValue } from '../../values/runs.ts';
import { defaultWindow } from '../spectra/window.ts';
import { factOf } from '../../values/sheetColumns.ts';
import { isAcceleration } from './dimensions.ts';

/**
 * What a careful look finds on each run and between them, the most serious first: what reading found, and the checks
 * of the samples.
 * @param band of interest in Hz, by which rate and length are judged
 */
export function findingsOf(
  { runs }: RunsValue,
  band: { readonly from: number; readonly to: number } | undefined,
  watch: Watch,
): FindingsValue {
  const question = band === undefined ? {} : { low: band.from, high: band.to, segment: defaultWindow.length };
  const rows = runs.flatMap((run, index) => {
    watch.progress(index / runs.length, `checking ${run.label}`);
    const known = new Set(run.findings.map(({ code, channel }) => `${code} ${channel ?? ''}`));
    const fresh = checkRecording(checkedRun(run), question).filter(
      ({ code, channel }) => !known.has(`${code} ${channel ?? ''}`),
    );
    return [...run.findings, ...fresh].map((finding) => ({ run, finding }));
  });
  const between = checkSet(
    runs.map((run) => ({ ...checkedRun(run), label: run.label, speed: speedOf(run) })),
    question,
  ).map(({ run, finding }) => ({
    run: runs[run],
    finding,
  }));
  return { kind: 'findings', rows: worstFirst([...rows, ...between], ({ finding }) => finding) };
}

/** The speed of a run by its sheet, in the sheet's unit. */
const speedOf = ({ sheet }: Run): number | undefined => sheetNumber(factOf(sheet?.facts ?? {}, 'speed') ?? '');

/** A run as the checks take it: faults are those of the signals, so of a resultant's axes. */
function checkedRun(run: Run): CheckedRun {
  const { rate, stretches, stamps, layout } = run;
  const range = statedRange(layout.keys);
  return {
    rate,
    stretches,
    times: stamps?.times,
    channels: signalsOf(run).map(({ name, unit, samples, includesStatic }) => ({
      name,
      unit: unit.symbol,
      axis: isAcceleration(unit),
      samples,
      includesStatic,
      range,
    })),
  };
}
