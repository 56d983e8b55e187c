import { checkRecording, checkSet } from '../../readers/checks/check.ts';
import type { CheckedRun, Question } from '../../readers/checks/checked.ts';
import { seen } from '../../readers/checks/seen.ts';
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
  const found = runs.map((run, index) => {
    watch.progress(index / runs.length, `checking ${run.label}`);
    return findingsOfRun(run, question);
  });
  return found.length === 0 ? { kind: 'findings', rows: [] } : findingsTogether(found);
}

function findingsOfRun(run: Run, question: Question): FindingsValue {
  const known = new Set(run.findings.map(({ code, channel }) => `${code} ${channel ?? ''}`));
  const checked = checkedRun(run);
  const fresh = checkRecording(checked, question).filter(({ code, channel }) => !known.has(`${code} ${channel ?? ''}`));
  const rows = [...run.findings, ...fresh].map((finding) => ({ run, finding }));
  const looked = seen({ ...checked, label: run.label, speed: speedOf(run) }, question);
  return { kind: 'findings', rows, looked: { question, runs: [{ run, seen: looked }] } };
}

/**
 * The findings of a set from those of its runs, with what does not match between them.
 * @param parts of each run those by one question, in the order of the runs; at least one
 */
export function findingsTogether(parts: readonly FindingsValue[]): FindingsValue {
  const runs = parts.flatMap(({ looked }) => looked?.runs ?? []);
  const question = parts[0].looked?.question ?? {};
  const between = checkSet(
    runs.map((one) => one.seen),
    question,
  ).map(({ run, finding }) => ({ run: runs[run].run, finding }));
  const rows = [...parts.flatMap((part) => part.rows), ...between];
  return { kind: 'findings', rows: worstFirst(rows, ({ finding }) => finding), looked: { question, runs } };
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
