import { bandMeanSquare } from '../../signal/band.ts';
import { piecesOf } from '../../signal/stretch.ts';
import { welchDensity } from '../../signal/welch.ts';
import { sharedWindow } from '../../signal/windows.ts';
import { finding } from '../messages.ts';
import { settings } from '../settings.ts';
import { measured, type Check } from './checked.ts';

/** Whether much of the vibration lies just below half the rate: more may lie above and be folded in. */
export const aliasing: Check = (run) => {
  const { from, share: most, segment } = settings.aliasing;
  const length = Math.round(segment * run.rate);
  const longest = run.stretches.reduce((best, one) => Math.max(best, one.to - one.from), 0);
  const used = Math.min(length, longest);
  if (used < 32) return [];
  let near = 0;
  let rest = 0;
  for (const { samples } of measured(run)) {
    const pieces = piecesOf(samples, run.stretches).filter((piece) => piece.length >= used);
    const density = welchDensity(pieces, { shape: sharedWindow('hann', used), rate: run.rate });
    // Below the third bin the window smears what is left of the mean.
    const low = 3 * density.step;
    near += bandMeanSquare(density, from * run.rate, run.rate / 2);
    rest += bandMeanSquare(density, Math.min(low, from * run.rate), from * run.rate);
  }
  const share = near / (near + rest);
  if (!(share > most)) return [];
  return [finding('aliasing', 'warning', { share, from: from * run.rate }, { value: share, threshold: most })];
};
