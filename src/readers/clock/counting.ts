import { settings } from '../settings.ts';
import type { Break } from './breaks.ts';
import type { PhasedClock } from './phases.ts';
import { median } from './steps.ts';

/**
 * A clock whose stamps are rounded to less than half a step, with losses: each step is then a whole number of samples that no
 * rounding hides, whatever the rate does over the recording. So the samples are counted step by step, and a clock that
 * drifts comes out as well as one that does not. Undefined where nothing is lost, or where steps are no such whole numbers.
 * @param t stamps in s that never run backwards
 * @param quantum step that they are rounded to, in s
 */
export function byCounting(t: Float64Array, quantum: number): PhasedClock | undefined {
  const { most, longest, over, sway, off, shared } = settings.counting;
  let step = stepOfOne(t, quantum);
  if (step === undefined || quantum > most * step) return undefined;
  for (let pass = 0; pass < 3; pass++) {
    let [time, samples] = [0, 0];
    for (let i = 1; i < t.length; i++) {
      const many = Math.round((t[i] - t[i - 1]) / step);
      if (many > longest) continue;
      time += t[i] - t[i - 1];
      samples += many;
    }
    step = time / samples;
  }
  const breaks: Break[] = [];
  let [astray, lost, checked, none] = [0, 0, 0, 0];
  // Where the rows lie that were counted in the last so many steps, in samples from the first one.
  const places = new Float64Array(t.length);
  for (let i = 1, whole = 0; i < t.length; i++) {
    const taken = t[i] - t[i - 1];
    const many = Math.round(taken / step);
    if (many > longest) {
      breaks.push({ row: i, reset: false });
      [places[i], whole] = [places[i - 1] + many, i];
      continue;
    }
    if (many > 1) breaks.push({ row: i, reset: false, missing: many - 1 });
    if (many < 1) none++;
    lost += Math.max(0, many - 1);
    places[i] = places[i - 1] + many;
    const from = Math.max(whole, i - over);
    const samples = places[i] - places[from];
    checked++;
    if (Math.abs(t[i] - t[from] - samples * step) > 1.05 * quantum + sway * samples * step) astray++;
  }
  return lost === 0 || none > shared * t.length || astray > off * checked ? undefined : { rate: 1 / step, breaks };
}

/** The time from a sample to the next, from the steps about the usual one; undefined where some are shorter than these. */
function stepOfOne(t: Float64Array, quantum: number): number | undefined {
  const steps = Float64Array.from({ length: t.length - 1 }, (_, i) => t[i + 1] - t[i]);
  const usual = median(steps.slice());
  let [sum, count, shorter] = [0, 0, 0];
  for (const one of steps) {
    if (one < usual - 1.01 * quantum) shorter++;
    else if (one <= usual + 1.01 * quantum) [sum, count] = [sum + one, count + 1];
  }
  return shorter > settings.counting.shared * steps.length || !(sum > 0) ? undefined : sum / count;
}
