import { fileURLToPath } from 'node:url';
import { diskHost } from '../../src/disk/host.ts';
import type { Host } from '../../src/engine/host.ts';
import { MemoryHost } from '../engine/memoryFiles.ts';
import { exampleRecords } from './exampleRecords.ts';
import { exampleStills } from './stillPositions.ts';
import { exampleLoggers } from './sideBySide.ts';
import { exampleSheets } from './exampleSheets.ts';
import { recordingOf, sine, uniform } from './notebook.ts';

const samples = fileURLToPath(new URL('../../samples', import.meta.url));

/** Steps of 10 ms, each so much shorter or longer at most, by chance. */
function unevenTimes(most: number): readonly number[] {
  const random = uniform(7);
  let t = 0;
  return Array.from({ length: 2000 }, () => (t += 0.01 + most * (2 * random() - 1)));
}

/** 30 s in steps of 10 ms, of which 20 ms are lost after the 10th second and again 1 s later. */
const lossyTimes = (between = 100): readonly number[] =>
  Array.from({ length: 3000 }, (_, i) => 0.01 * (i + (i < 1000 ? 0 : i < 1000 + between ? 2 : 4)));

/** A pulse a turn, of which one may be missing. */
const pulses =
  (rate: number, missing?: number) =>
  (t: number): number =>
    (t * rate) % 1 < 0.3 && Math.floor(t * rate) !== missing ? 5 : 0;

/** A recording that is read part by part, as if the memory were small, and the sizes by which it is. */
const tooLarge = 'raw/week.csv';
const sizes = { from: 50_000, part: 30_000, most: 3000 };

/** Recordings and run sheets that are not among the samples. */
const madeUp = {
  ...exampleRecords,
  ...exampleStills,
  ...exampleSheets,
  ...exampleLoggers,
  'raw/two-units.csv': recordingOf({ 'x (g)': sine(5), 'y (g)': sine(7, 1, 1), 'v (m/s)': sine(3) }),
  'raw/some-axes-1.csv': recordingOf({ 'x (g)': sine(5), 'y (g)': sine(7), 'z (g)': sine(9, 1, 1) }),
  'raw/some-axes-2.csv': recordingOf({ 'x (g)': sine(5), 'y (g)': sine(7) }),
  'raw/no-unit.csv': recordingOf({ x: sine(5, 0.01), y: sine(7, 0.01), z: sine(9, 0.01, 0.3) }),
  'raw/turning.csv': recordingOf({ 'z (g)': sine(10, 0.2, 1), 'pulse (V)': pulses(5) }),
  'raw/stumbling.csv': recordingOf({ 'z (g)': sine(10, 0.2, 1), 'pulse (V)': pulses(5, 70) }),
  'raw/uneven.csv': recordingOf({ 'x (g)': sine(5) }, { times: unevenTimes(0.008) }),
  'raw/jittery.csv': recordingOf({ 'x (g)': sine(5) }, { times: unevenTimes(0.003) }),
  'raw/interrupted.csv': recordingOf({ 'x (g)': sine(5) }, { times: lossyTimes() }),
  'raw/lossy.csv': recordingOf({ 'x (g)': sine(5) }, { times: lossyTimes(40) }),
  'raw/long.csv': recordingOf({ 'x (g)': (_t, i) => i % 7 }, { rate: 100, seconds: 2100 }),
  [tooLarge]: recordingOf({ 'z (g)': sine(5, 0.2, 1) }, { rate: 100, seconds: 70 }),
  'raw/perhaps.csv': 'file,excluded\nbrick-foam-1.csv.gz,perhaps\n',
  'raw/no-reason.csv': 'file,excluded,why\nbrick-foam-1.csv.gz,no,\nbrick-gel-1.csv.gz,yes,\n',
  'raw/not-made.csv': 'file,condition\nbrick-foam-1.csv.gz,foam\n,gel\n',
};

/** The samples on the disk, with the made-up files of the reference's examples and further ones among them. */
export function exampleHost(more: Readonly<Record<string, string>> = {}): Host {
  const disk = diskHost(samples, samples);
  const texts = { ...madeUp, ...more };
  const memory = new MemoryHost(texts);
  const of = (path: string): Host['files'] => (path in texts ? memory : disk).files;
  return {
    digest: disk.digest,
    files: {
      expand: async (pattern, of) => {
        const found = await memory.files.expand(pattern, of);
        return found.ok ? found : disk.files.expand(pattern, of);
      },
      open: async (path) => {
        const file = await of(path).open(path);
        return path === tooLarge ? { ...file, sizes } : file;
      },
      identify: (path) => of(path).identify(path),
    },
  };
}
