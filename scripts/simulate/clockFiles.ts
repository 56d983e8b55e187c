import type { Noise } from './noise.ts';

/** What goes wrong with a file's stamps. */
export const troubles = [
  'jitter',
  'rounded to 1 ms',
  'rounded to 10 ms',
  'lost singly',
  'lost in runs',
  'lost, rounded to 1 ms',
  'lost at 990 Hz, rounded to 1 ms',
  'lost at 1250 Hz, rounded to 1 ms',
  'lost at 1600 Hz, rounded to 1 ms',
  'delivered in bursts',
  'rows sent again',
  'clock reset',
  'clock drifting',
  'lost on a drifting clock, rounded to 1 ms',
] as const;

export type Trouble = (typeof troubles)[number];

/** A made-up file, the rate that it was sampled at, and what was done to it. */
export interface ClockFile {
  readonly text: string;
  /** In Hz. */
  readonly rate: number;
  readonly about: string;
}

/** One sample as it is written: its stamp in s, and its readings. */
type Row = readonly [number, string];

/** A file of 1,000 to 4,000 rows with one trouble, at a rate drawn evenly on a logarithmic scale. */
export function clockFile(trouble: Trouble, random: Noise): ClockFile {
  const about = Number(/ at (\d+) Hz/.exec(trouble)?.[1] ?? NaN);
  const coarsest = trouble === 'rounded to 10 ms' ? 0.01 : 0.001;
  // A clock is off by a tenth of a percent; the rates that are named are as coarse as their stamps.
  const rate =
    about > 0
      ? about * (1 + 1e-3 * (2 * random.uniform() - 1))
      : 25 *
        (trouble.includes('rounded') ? (random.uniform() < 0.5 ? 0.8 / coarsest : 4 / coarsest) / 25 : 64) **
          random.uniform();
  const count = 1000 + random.below(3000);
  const stamps = Array.from({ length: count }, (_, i) => i / rate);
  return { ...troubled(trouble, stamps, rate, random), rate };
}

function troubled(trouble: Trouble, exact: readonly number[], rate: number, random: Noise): Omit<ClockFile, 'rate'> {
  const share = 0.2 * random.uniform();
  const jittered = (by: number): number[] => exact.map((t) => t + (by * random.gaussian()) / rate);
  const told = (words: string): string => `${trouble}, ${exact.length} samples at ${rate.toFixed(2)} Hz, ${words}`;
  switch (trouble) {
    case 'jitter': {
      const by = 0.1 * random.uniform();
      return { text: written(rowsOf(jittered(by), random), 1e-6), about: told(`by ${by.toFixed(3)} of a step`) };
    }
    case 'rounded to 1 ms':
    case 'rounded to 10 ms': {
      const quantum = trouble === 'rounded to 1 ms' ? 1e-3 : 1e-2;
      return { text: written(rowsOf(exact, random), quantum), about: told('') };
    }
    case 'lost singly':
    case 'lost, rounded to 1 ms':
    case 'lost at 990 Hz, rounded to 1 ms':
    case 'lost at 1250 Hz, rounded to 1 ms':
    case 'lost at 1600 Hz, rounded to 1 ms': {
      const quantum = trouble === 'lost singly' ? 1e-6 : 1e-3;
      const kept = rowsOf(jittered(0.02), random).filter(() => random.uniform() >= share);
      return { text: written(kept, quantum), about: told(`${(100 * share).toFixed(1)} % lost`) };
    }
    case 'lost in runs': {
      let left = 0;
      const kept = rowsOf(jittered(0.02), random).filter(() => {
        if (left > 0) return left-- < 0;
        if (random.uniform() < share / 10) left = 1 + random.below(20);
        return left === 0;
      });
      return { text: written(kept, 1e-6), about: told(`${(100 * share).toFixed(1)} % lost`) };
    }
    case 'delivered in bursts': {
      const size = 2 + random.below(30);
      let late = 0;
      const stamps = exact.map((_, i) => {
        if (i % size === 0) late = (0.3 * size * random.uniform()) / rate;
        return (Math.floor(i / size) + 1) * (size / rate) + late;
      });
      return { text: written(rowsOf(stamps, random), 1e-3), about: told(`${size} at a time`) };
    }
    case 'rows sent again': {
      const size = 5 + random.below(60);
      const rows = sentAgain(rowsOf(jittered(0.02), random), size, 0.1 + 0.9 * random.uniform(), random);
      return { text: written(rows, random.uniform() < 0.5 ? 1e-3 : 1e-6), about: told(`buffers of ${size}`) };
    }
    case 'clock reset': {
      const at = 200 + random.below(exact.length - 400);
      const stamps = jittered(0.02).map((t, i) => (i < at ? 3000 + t : t - at / rate));
      return { text: written(rowsOf(stamps, random), 1e-6), about: told(`at row ${at}`) };
    }
    case 'clock drifting': {
      const by = 0.02 * (random.uniform() - 0.5);
      const last = exact[exact.length - 1];
      const stamps = exact.map((t) => t + (by * t * (t - last)) / last);
      return { text: written(rowsOf(stamps, random), 1e-6), about: told(`by ${(100 * by).toFixed(2)} %`) };
    }
    case 'lost on a drifting clock, rounded to 1 ms': {
      const by = 2e-3 * (random.uniform() - 0.5);
      const last = exact[exact.length - 1];
      const stamps = exact.map((t) => t + (by * t * (t - last)) / last);
      const kept = rowsOf(stamps, random).filter(() => random.uniform() >= share / 2);
      return {
        text: written(kept, 1e-3),
        about: told(`by ${(100 * by).toFixed(3)} %, ${(50 * share).toFixed(1)} % lost`),
      };
    }
  }
}

function rowsOf(stamps: readonly number[], random: Noise): Row[] {
  const reading = (): string => (0.1 * random.gaussian()).toFixed(4);
  return stamps.map((t) => [t, `${reading()},${reading()},${(1 + 0.1 * random.gaussian()).toFixed(4)}`]);
}

/** Buffers of so many rows, some of which are sent once more while later ones arrive, row by row between those. */
function sentAgain(rows: readonly Row[], size: number, share: number, random: Noise): Row[] {
  const sent: Row[] = [];
  for (let from = 0; from < rows.length; from += size) {
    const fresh = rows.slice(from, from + size);
    const again = from > 0 && random.uniform() < share ? rows.slice(from - size, from) : [];
    if (random.uniform() < 0.5) sent.push(...fresh, ...again);
    else fresh.forEach((row, i) => sent.push(row, ...again.slice(i, i + 1)));
  }
  return sent;
}

/** Stamps as a logger writes them, cut to a quantum in s, in a unit that leaves no doubt. */
function written(rows: readonly Row[], quantum: number): string {
  const digits = Math.round(-Math.log10(quantum));
  const lines = rows.map(
    ([t, readings]) => `${(Math.floor((t + 1) / quantum + 1e-9) * quantum).toFixed(digits)},${readings}`,
  );
  return `t (s),x (g),y (g),z (g)\n${lines.join('\n')}\n`;
}
