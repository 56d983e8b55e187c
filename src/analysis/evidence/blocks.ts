import { bandMeanSquare } from '../../signal/band.ts';
import { welchDensity } from '../../signal/welch.ts';
import { windowShape } from '../../signal/windows.ts';
import { pieces } from '../recordings/runs.ts';
import { defaultWindow } from '../spectra/window.ts';
import { levels } from '../../signal/levels.ts';
import type { Band } from '../../values/band.ts';
import type { Channel, Run } from '../../values/run.ts';
import type { SpectrumEntry } from '../../values/spectrum.ts';

/** s; long enough to hold a few segments, short enough to leave blocks to compare. */
const blockLength = 5;

/** Mean square of a band in each whole block of a run, for the interval of a single pair of runs. */
export function blockMeanSquares({ run, channel }: SpectrumEntry, band: Band): number[] {
  const samples = Math.round(blockLength * run.rate);
  const segment = Math.min(samples, Math.max(4, Math.round(defaultWindow.length * run.rate)));
  const shape = windowShape(defaultWindow.shape, segment);
  const blocks: number[] = [];
  for (const piece of pieces(run, channel)) {
    for (let from = 0; from + samples <= piece.length; from += samples) {
      const density = welchDensity([piece.subarray(from, from + samples)], {
        shape,
        rate: run.rate,
        overlap: defaultWindow.overlap,
      });
      blocks.push(bandMeanSquare(density, band.from, Math.min(band.to, run.rate / 2)));
    }
  }
  return blocks;
}

/** Mean square, mean removed, of each whole block of a run's channel. */
export function signalMeanSquares({ run, channel }: { readonly run: Run; readonly channel: Channel }): number[] {
  const samples = Math.round(blockLength * run.rate);
  return pieces(run, channel).flatMap((piece) =>
    Array.from(
      { length: Math.floor(piece.length / samples) },
      (_, block) => levels(piece.subarray(block * samples, (block + 1) * samples)).rms ** 2,
    ),
  );
}
