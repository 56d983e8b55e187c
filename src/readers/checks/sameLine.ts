import { median } from '../../signal/percentile.ts';
import { finding } from '../messages.ts';
import { settings } from '../settings.ts';
import type { Question } from './checked.ts';
import { mean, type ChannelLines, type Line } from './lines.ts';
import type { SeenRun, SetCheck, SetFinding } from './seen.ts';

/** A line in all runs. */
interface CommonLine {
  readonly channel: string;
  /** Hz */
  readonly frequency: number;
  readonly share: number;
}

/**
 * Lines that stand at one frequency in every run: mains, a fan, a pump. In each run the line is so many times what lies a few
 * bins beside it, and its height is steady from segment to segment, where the peak of a resonance that noise drives comes and
 * goes: of a sine the squared coefficient of variation of the segments' powers goes to 0, of noise in a narrow band it
 * is 1 (Bendat and Piersol, Random Data, 8.5). What follows the speed stands elsewhere once that differs, by three bins and more;
 * where the speeds tell nothing, only multiples of 50 and 60 Hz are told.
 */
export const sameLine: SetCheck = (runs, question = {}) => {
  const seconds = Math.min(...runs.map(({ lineSegment }) => lineSegment));
  if (seconds < settings.line.shortest) return [];
  const lines = runs[0].lines.flatMap(({ name }) => {
    const of = runs.flatMap((run) => run.lines.find((one) => one.name === name) ?? []);
    return of.length < runs.length ? [] : commonLines(of, name, question);
  });
  return largestEach(lines, seconds)
    .filter(({ frequency }) => speedsOf(runs, frequency, seconds) === 'differ' || isOfMains(frequency, seconds))
    .slice(0, settings.line.most)
    .map((line) => lineFinding(line, runs, seconds, question));
};

function commonLines(all: readonly ChannelLines[], channel: string, { low, high }: Question): CommonLine[] {
  const [first] = all;
  const found: CommonLine[] = [];
  for (const { bin } of first.lines) {
    const at = bin * first.step;
    if ((low !== undefined && at < low) || (high !== undefined && at > high)) continue;
    const lines = all.flatMap((one) => nearbyLine(one, at, first.step) ?? []);
    if (lines.length < all.length || !(mean(lines.map((one) => one.unsteadiness)) < settings.line.unsteady)) continue;
    const share = median(Float64Array.from(lines, (line) => line.share));
    found.push({ channel, frequency: mean(lines.map(({ centre }) => centre)), share });
  }
  return found;
}

/** The same line in another run: the nearest that stands one bin off at most, a bin of the first run where those are wider. */
function nearbyLine({ step, lines }: ChannelLines, at: number, width: number): Line | undefined {
  const bin = Math.round(at / step);
  const most = Math.max(1, Math.round(width / step));
  const near = lines.filter((line) => Math.abs(line.bin - bin) <= most);
  return near.sort((a, b) => Math.abs(a.bin - bin) - Math.abs(b.bin - bin)).at(0);
}

/** Of a line that several channels show the one with the largest share; the largest first. */
function largestEach(lines: readonly CommonLine[], seconds: number): CommonLine[] {
  const sorted = [...lines].sort((one, other) => other.share - one.share);
  const kept: CommonLine[] = [];
  for (const line of sorted)
    if (!kept.some(({ frequency }) => Math.abs(frequency - line.frequency) < 2 / seconds)) kept.push(line);
  return kept;
}

/** Whether a line that follows the speed would stand elsewhere in some run. */
function speedsOf(runs: readonly SeenRun[], frequency: number, seconds: number): 'differ' | 'alike' | 'unknown' {
  const speeds = runs.flatMap(({ speed }) => (speed !== undefined && speed > 0 ? [speed] : []));
  if (speeds.length < runs.length) return 'unknown';
  const moved = frequency * (1 - Math.min(...speeds) / Math.max(...speeds));
  return moved > 3 / seconds ? 'differ' : 'alike';
}

/** Whether a line is one of mains: where speeds tell nothing, any other may be of what is tested. */
function isOfMains(frequency: number, seconds: number): boolean {
  const off = (mains: number): number => Math.abs(frequency - mains * Math.max(1, Math.round(frequency / mains)));
  return [50, 60].some((mains) => off(mains) < 0.25 / seconds + 0.001 * frequency);
}

function lineFinding(line: CommonLine, runs: readonly SeenRun[], seconds: number, { low, high }: Question): SetFinding {
  const speeds = speedsOf(runs, line.frequency, seconds);
  const facts = { run: runs[0].label, ...line, runs: runs.length, speeds, low, high };
  return { run: 0, finding: finding('set-line', 'note', facts, { value: line.share, threshold: 0 }) };
}
