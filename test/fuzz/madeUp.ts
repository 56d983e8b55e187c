import { gzipSync } from 'node:zlib';

type Random = () => number;

const pick = <T>(list: readonly T[], random: Random): T => list[Math.floor(random() * list.length)];

/** How a made-up file writes its stamps, beside a header for them. */
const clocks: readonly { readonly header: string; readonly stamp: (seconds: number, row: number) => string }[] = [
  { header: 't (s)', stamp: (t) => t.toFixed(4) },
  { header: 'Time [ms]', stamp: (t) => (1000 * t).toFixed(0) },
  { header: 'timestamp_us', stamp: (t) => (1e6 * t).toFixed(0) },
  { header: 'epoch', stamp: (t) => (1_700_000_000_000 + Math.round(1000 * t)).toFixed(0) },
  { header: 'date', stamp: (t) => new Date(1_700_000_000_000 + 1000 * t).toISOString() },
  { header: 'clock', stamp: (t) => new Date(1000 * t).toISOString().slice(11, 23) },
  { header: 'clock', stamp: (t) => new Date(1000 * t).toISOString().slice(11, 16) },
  { header: 'no', stamp: (_, row) => String(row) },
];

const axes: readonly (readonly string[])[] = [
  ['x (g)', 'y (g)', 'z (g)'],
  ['AccX [m/s²]', 'AccY [m/s²]', 'AccZ [m/s²]', 'temp (°C)'],
  ['base_x_g', 'base_z_g', 'top_x_g', 'top_z_g'],
  ['a', 'b'],
  ['acc z mg'],
];

const openings = [
  '',
  '',
  '\ufeff',
  '# rate: 100 Hz\n# range: 16 g\n',
  'Serial;1234\nStart time;2024-02-29 10:11:12\n\n',
];

/**
 * A logger's file of a layout drawn at random: a seed of its own for each seed of the fuzzer, unlike the fixtures.
 * @param count how many rows
 */
export function madeUpFile(random: Random, count = 10 + 70 * random()): Uint8Array {
  const { header, stamp } = pick(clocks, random);
  const names = pick(axes, random);
  const comma = random() < 0.3;
  const delimiter = comma ? pick([';', '\t'], random) : pick([',', ';', '\t', ' ', ', ', '|'], random);
  const end = pick(['\n', '\n', '\r\n', '\r'], random);
  const rate = 25 * 64 ** random();
  const number = (value: number): string => (comma ? value.toFixed(3).replace('.', ',') : value.toFixed(3));
  let at = 100;
  const rows = Array.from({ length: Math.floor(count) }, (_, row) => {
    at += (random() < 0.03 ? 3 : 1) / rate;
    const written = comma ? stamp(at, row).replace('.', ',') : stamp(at, row);
    return [written, ...names.map(() => number(random() - 0.5))].join(delimiter);
  });
  const sent = random() < 0.1 ? rows.flatMap((row, i) => (i > 5 ? [row, rows[i - 5]] : [row])) : rows;
  const head = random() < 0.8 ? [[header, ...names].join(delimiter)] : [];
  const text = pick(openings, random).replaceAll('\n', end) + [...head, ...sent].join(end) + end;
  const bytes = random() < 0.1 ? new Uint8Array(Buffer.from(text, 'utf16le')) : new TextEncoder().encode(text);
  return random() < 0.05 ? new Uint8Array(gzipSync(bytes)) : bytes;
}

/** A cell or two about such files, of words and numbers drawn at random. */
export function madeUpNotebook(random: Random): string {
  const hertz = (): string => `${(300 * random()).toFixed(pick([0, 1, 3], random))} Hz`;
  const steps = [
    ...['| detrend', `| highpass ${hertz()} order 2`, '| resultant', '| integrate velocity', '| weight wk'],
    ...['| trim 1..9 s', `| resample ${hertz()}`, '| channel z', '| envelope'],
  ];
  const some = (): string => Array.from({ length: Math.floor(4 * random()) }, () => pick(steps, random)).join(' ');
  const lines = [
    `before = load "raw/*a*.csv" ${pick(['', 'unit g', `rate ${hertz()}`, 'sentinel 999'], random)} ${some()}`,
    `after = load "raw/b${Math.floor(9 * random())}.csv" ${some()}`,
    `C = compare before with after over ${hertz()}..${hertz()}, 1..40 Hz ${pick(['', 'margin 5 %', 'paired'], random)}`,
    pick(
      ['claim C reduction 15 %', 'plot C', 'table C', 'x = C[1].change in %', 'k = 2*pi*sqrt(4 N/mm / 3 kg)'],
      random,
    ),
  ];
  const fence = pick(['```', '~~~', '````'], random);
  return `# A study\n\n${fence}washboard\n${lines.join('\n')}\n${fence}\n\ntext | a\n`;
}
