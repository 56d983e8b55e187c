/** Writes `samples/side/`, two loggers on one plate: `npx tsx scripts/samples/makeSideBySide.ts [FOLDER]`. */
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { random } from './random.ts';
import { packed } from './recordingText.ts';
import { sideBySide, type SideLogger } from './sideBySide.ts';

const folder = process.argv[2] ?? fileURLToPath(new URL('../../samples/side/', import.meta.url));

/** What the plate did at a time, as x and z in g: many tones without a common period. */
function plate(): (t: number) => readonly [number, number] {
  const source = random(71);
  const { lowest, highest, level, tones } = sideBySide;
  const axis = Array.from({ length: 2 }, () =>
    Array.from({ length: tones }, () => ({
      size: level * Math.sqrt(2 / tones) * Math.abs(source.gaussian()),
      frequency: lowest + (highest - lowest) * source.uniform(),
      phase: 2 * Math.PI * source.uniform(),
    })),
  );
  const at = (of: (typeof axis)[number], t: number): number =>
    of.reduce((sum, { size, frequency, phase }) => sum + size * Math.cos(2 * Math.PI * frequency * t + phase), 0);
  return (t) => [at(axis[0], t), at(axis[1], t)];
}

function recorded({ rate, late, ppm, gains, offsets, seed, seconds }: SideLogger): string {
  const source = random(seed);
  const lines = ['t (s),x (g),z (g)'];
  for (let n = 0; n < Math.round(seconds * rate); n++) {
    const acting = moved((n / rate + late) / (1 + ppm * 1e-6));
    const cells = acting.map((of, k) => gains[k] * of + offsets[k] + sideBySide.noise * source.gaussian());
    lines.push([(n / rate).toFixed(4), ...cells.map((cell) => cell.toFixed(4))].join(','));
  }
  return lines.join('\n') + '\n';
}

const moved = plate();
mkdirSync(folder, { recursive: true });
for (const [name, terms] of Object.entries(sideBySide.loggers))
  writeFileSync(join(folder, `${name}.csv.gz`), packed(recorded(terms)));
