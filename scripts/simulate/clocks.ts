import { read } from '../../src/readers/read.ts';
import type { ByteSource, Recording } from '../../src/readers/recording.ts';
import { clockFile, troubles, type ClockFile, type Trouble } from './clockFiles.ts';
import { noise } from './noise.ts';
import { markdownTable } from './table.ts';

/** What became of the files of one trouble. */
export interface ClockCount {
  readonly trouble: Trouble;
  readonly files: number;
  /** Rate within 0.1 % of the true one. */
  readonly right: number;
  readonly refused: number;
  /** Rate farther off, with a warning that speaks of the clock. */
  readonly warned: number;
  /** Rate farther off, with none. */
  readonly silent: readonly string[];
  /** Largest distance from the true rate among those that were read without such a warning, as a share. */
  readonly worst: number;
}

/** Off by more than this, a rate is wrong; off by more than `gross`, silence about it is never forgiven. */
const wrong = 1e-3;
const gross = 5e-3;

/** What the warnings say of the clock; that something is lost elsewhere, or of the samples, is none of them. */
const clockCodes = new Set([
  'uneven',
  'bursts',
  'clock-stopped',
  'rate-uncertain',
  'rate-changes',
  'rows-behind',
  'rush',
]);

export interface ClockReport {
  readonly counts: readonly ClockCount[];
  readonly markdown: string;
  /** One sentence for each promise that does not hold. */
  readonly broken: readonly string[];
}

/** Reads so many made-up files of every trouble, and holds their rates against the true ones. */
export async function simulateClocks(files: number, seed: number): Promise<ClockReport> {
  const random = noise(seed);
  const counts: ClockCount[] = [];
  for (const trouble of troubles) {
    const share = Math.ceil(files / troubles.length);
    const made = Array.from({ length: share }, () => clockFile(trouble, random));
    counts.push(await countOf(trouble, made));
  }
  return { counts, markdown: tableOf(counts), broken: brokenBy(counts) };
}

async function countOf(trouble: Trouble, files: readonly ClockFile[]): Promise<ClockCount> {
  let [right, refused, warned, worst] = [0, 0, 0, 0];
  const silent: string[] = [];
  for (const { text, rate, about } of files) {
    const found = await read(inMemory(text));
    if (!found.ok) {
      refused++;
      continue;
    }
    const off = Math.abs(found.value.clock.rate / rate - 1);
    const told = speaksOfClock(found.value);
    if (!told) worst = Math.max(worst, off);
    if (off <= wrong) right++;
    else if (told) warned++;
    else silent.push(`${about}: ${(100 * off).toFixed(3)} % off`);
  }
  return { trouble, files: files.length, right, refused, warned, silent, worst };
}

const speaksOfClock = ({ findings }: Recording): boolean =>
  findings.some(({ code, severity }) => severity !== 'note' && clockCodes.has(code));

function inMemory(text: string): ByteSource {
  const bytes = new TextEncoder().encode(text);
  return {
    path: 'run.csv',
    size: bytes.length,
    read: (position, length) => Promise.resolve(bytes.subarray(position, position + length)),
  };
}

function tableOf(counts: readonly ClockCount[]): string {
  const head = ['stamps', 'files', 'within 0.1 %', 'farther, warned', 'refused', 'farther, silent', 'worst silent'];
  return markdownTable(
    head,
    counts.map(({ trouble, files, right, warned, refused, silent, worst }) => [
      trouble,
      ...[files, right, warned, refused, silent.length].map(String),
      `${(100 * worst).toFixed(3)} %`,
    ]),
  );
}

function brokenBy(counts: readonly ClockCount[]): string[] {
  const files = counts.reduce((sum, one) => sum + one.files, 0);
  const silent = counts.reduce((sum, one) => sum + one.silent.length, 0);
  const broken = counts
    .filter(({ worst }) => worst > gross)
    .map(({ trouble, worst }) => `${trouble}: a rate ${(100 * worst).toFixed(2)} % off goes without a word.`);
  if (silent > 0.01 * files) broken.push(`${silent} of ${files} rates are off by more than 0.1 % without a word.`);
  return broken;
}
