/** Writes the raw data of the study of three pads: `npx tsx scripts/samples/makeThreePads.ts [FOLDER]`. */
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { packed } from './recordingText.ts';
import { rides } from './threePads/design.ts';
import { rideOf } from './threePads/ride.ts';
import { rideText, sheetText } from './threePads/text.ts';

const folder = process.argv[2] ?? fileURLToPath(new URL('../../samples/three-pads/', import.meta.url));

mkdirSync(folder, { recursive: true });
const lines = rides.map((run) => {
  const made = rideOf(run);
  writeFileSync(join(folder, run.file), packed(rideText(made)));
  return { run, speed: made.speed };
});
writeFileSync(join(folder, 'runs.csv'), sheetText(lines));
