import { noise, recordingOf, uniform } from './notebook.ts';

/** How one logger records what the other one does, too. */
export interface LoggerTerms {
  /** Its clock shows t (1 + ppm/10^6) - late at t. */
  readonly late?: number;
  readonly ppm?: number;
  /** Reading over what acts. */
  readonly gain?: number;
  /** Standard deviation of its own noise, what acts having 1. */
  readonly hiss?: number;
  readonly rate?: number;
  readonly seconds?: number;
  readonly seed?: number;
  /** What the file calls its columns. */
  readonly channels?: readonly string[];
}

/** What acts at a time along an axis: many tones without a common period from 2 to 60 Hz, of r.m.s. 1. */
export function shaking(seed: number, highest = 60): (t: number) => number {
  const random = uniform(seed);
  const tones = Array.from({ length: 60 }, () => [2 + (highest - 2) * random(), 2 * Math.PI * random()] as const);
  const scale = Math.sqrt(2 / tones.length);
  return (t) => tones.reduce((sum, [f, phase]) => sum + scale * Math.sin(2 * Math.PI * f * t + phase), 0);
}

/** The recording of one logger as text. */
export function loggerFile(
  acting: readonly ((t: number) => number)[],
  {
    late = 0,
    ppm = 0,
    gain = 1,
    hiss = 0.02,
    rate = 200,
    seconds = 40,
    seed = 1,
    channels = ['z (g)'],
  }: LoggerTerms = {},
): string {
  const own = noise(seed);
  const signals = acting.map((of) => (t: number) => gain * of((t + late) / (1 + 1e-6 * ppm)) + hiss * own());
  return recordingOf(Object.fromEntries(channels.map((name, k) => [name, signals[k]])), { rate, seconds });
}

const z = [shaking(5)];
const both = [shaking(6), shaking(5)];

const three = [...both, shaking(11)];
const axes = ['x (g)', 'y (g)', 'z (g)'];

/** Two loggers for the reference's examples. */
export const exampleLoggers: Readonly<Record<string, string>> = {
  'side/left.csv': loggerFile(both, { channels: ['x (g)', 'z (g)'], rate: 250, seconds: 30 }),
  'side/right.csv': loggerFile(both, {
    ...{ channels: ['x (g)', 'z (g)'], rate: 250, seconds: 30, seed: 2 },
    ...{ late: 0.42, ppm: 35, gain: 1.018 },
  }),
  'side/elsewhere.csv': loggerFile([shaking(9), shaking(10)], { channels: ['x (g)', 'z (g)'], seed: 3 }),
  'side/turned.csv': loggerFile([both[1], both[0]], { channels: ['x (g)', 'z (g)'], rate: 250, seconds: 30, seed: 4 }),
  'side/three.csv': loggerFile(three, { channels: axes, seed: 9 }),
  'side/three-turned.csv': loggerFile([three[1], three[0], three[2]], { channels: axes, seed: 10 }),
  'side/reversed.csv': loggerFile(z, { gain: -1, rate: 250, seconds: 30, seed: 5 }),
  'side/noisy.csv': loggerFile(z, { hiss: 1, rate: 250, seconds: 30, seed: 6 }),
  'side/speed.csv': loggerFile(z, { rate: 250, seconds: 30, seed: 7, channels: ['z (m/s)'] }),
  'side/slipped.csv': slipped(),
};

/** One that lost 0.1 s of samples without a word after 20 s. */
function slipped(): string {
  const rows = loggerFile(z, { rate: 250, seconds: 31, seed: 8 }).trimEnd().split('\n');
  const values = rows.slice(1).map((row) => row.split(',')[1]);
  values.splice(5000, 25);
  const times = rows.slice(1).map((row) => row.split(',')[0]);
  return [rows[0], ...values.map((value, i) => `${times[i]},${value}`)].join('\n') + '\n';
}
