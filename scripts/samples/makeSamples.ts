/** Writes the raw data of `samples/`: `npx tsx scripts/samples/makeSamples.ts [FOLDER]`. */
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { logger, runs, type RunDesign } from './design.ts';
import { random } from './random.ts';
import { packed, recordingText } from './recordingText.ts';
import { logged, rideOn, type Lie, type Motion } from './ride.ts';
import { runSheet, type SheetLine } from './runSheet.ts';

const folder = process.argv[2] ?? fileURLToPath(new URL('../../samples/raw/', import.meta.url));

/** The logger is lifted off and laid down again at each change of pad. */
function lieOf(run: RunDesign): Lie {
  const source = random(run.seed * 1000 + 6);
  return { pitch: 2.9 + 0.35 * source.gaussian(), roll: -1.7 + 0.35 * source.gaussian() };
}

function writeRide(run: RunDesign): SheetLine {
  const { motion, progress } = rideOn(run, logger.rate);
  writeFileSync(join(folder, run.file), packed(recordingText(logged(motion, lieOf(run), run.seed), logger.rate)));
  return { run, speed: progress.pace };
}

/** The logger at rest on the empty seat: gravity and its own noise, nothing else. */
function writeStill(): void {
  const length = Math.round(25 * logger.rate);
  const motion: Motion = { x: new Float64Array(length), y: new Float64Array(length), z: new Float64Array(length) };
  writeFileSync(join(folder, 'still.csv'), recordingText(logged(motion, { pitch: 2.7, roll: -1.9 }, 301), logger.rate));
}

mkdirSync(folder, { recursive: true });
writeStill();
writeFileSync(join(folder, 'runs.csv'), runSheet(runs.map(writeRide)));
