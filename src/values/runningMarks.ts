import type { RunningEntry } from './running.ts';

/** Indices of the values whose spans follow each other without overlap, from the first of each unbroken stretch. */
export function marksOf({ times }: RunningEntry, over: number): number[] {
  const marks: number[] = [];
  // Half a step of grace: the span is a whole number of samples, and `over` need not be.
  const step = times.length > 1 ? times[1] - times[0] : 0;
  for (let i = 0; i < times.length; i++) {
    const gap = i > 0 && times[i] - times[i - 1] > 1.5 * step;
    if (marks.length === 0 || gap || times[i] - times[marks[marks.length - 1]] >= over - step / 2) marks.push(i);
  }
  return marks;
}
