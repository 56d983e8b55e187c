import type { NoSpeed } from '../recordings/turningRate.ts';

/** What the run sheet lacks of a run's speed or turning rate, and what to do. */
export function noSpeedText({ run, column, cell, unit }: NoSpeed): string {
  if (cell === undefined || cell === '')
    return `The run sheet has no figure of ${run} under ${column}: fill it in for every run.`;
  if (unit === '')
    return `The run sheet has ${cell} for ${run} under ${column}, without a unit: write it into the header, as in "${column} (rpm)".`;
  return `The run sheet has ${cell} for ${run} under ${column} in ${unit}: a figure above 0 in Hz, rpm or m/s is wanted.`;
}
