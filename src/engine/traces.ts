import { gapsOf } from '../readers/checks/gaps.ts';
import { rowsIn } from '../readers/long/rowsIn.ts';
import type { Finding, Outline, Recording } from '../readers/recording.ts';
import type { Look } from './look.ts';

/** A channel over time in columns of equal length: the lowest and the highest sample in each. */
export interface Trace {
  readonly channel: string;
  readonly unit: string | undefined;
  readonly low: readonly number[];
  readonly high: readonly number[];
}

/** What a page about one file shows. */
export interface LookAt {
  readonly path: string;
  readonly ok: boolean;
  /** How the file is understood, in lines of text. */
  readonly lines: readonly string[];
  readonly seconds: number;
  readonly findings: readonly Pick<Finding, 'severity' | 'message'>[];
  readonly traces: readonly Trace[];
  /** How many further channels there are. */
  readonly further: number;
}

const columns = 600;
const mostTraces = 6;

/** A look as a page shows it: axes of acceleration first, and not more channels than one can take in. */
export function lookAt({ path, ok, lines, recording }: Look): LookAt {
  if (recording === undefined) return { path, ok, lines, seconds: 0, findings: [], traces: [], further: 0 };
  const { channels, findings } = recording;
  const ordered = [...channels.filter(({ axis }) => axis), ...channels.filter(({ axis }) => !axis)];
  return {
    path,
    ok,
    lines,
    seconds: lengthOf(recording),
    findings: findings.map(({ severity, message }) => ({ severity, message })),
    traces: ordered.slice(0, mostTraces).map(({ name, unit, samples, outline }) => ({
      channel: name,
      unit,
      ...(outline === undefined ? envelopeOf(samples, columns) : envelopeIn(outline)),
    })),
    further: Math.max(0, ordered.length - mostTraces),
  };
}

/** Of a recording that is too large for memory. */
const envelopeIn = ({ low, high }: Outline): { low: number[]; high: number[] } => ({
  low: envelopeOf(low, columns).low,
  high: envelopeOf(high, columns).high,
});

function lengthOf(recording: Recording): number {
  const { clock } = recording;
  const last = clock.stretches.at(-1);
  const whole = rowsIn(recording) / clock.rate;
  return last === undefined || gapsOf(clock).length === 0 ? whole : last.start + (last.to - last.from) / clock.rate;
}

/** Lowest and highest of each of so many columns of samples, to 5 figures; columns without a finite sample are left out. */
export function envelopeOf(samples: Float64Array, count: number): { low: number[]; high: number[] } {
  const [low, high]: [number[], number[]] = [[], []];
  const width = Math.max(1, samples.length / count);
  for (let from = 0; from < samples.length; from += width) {
    let [least, most] = [Infinity, -Infinity];
    for (let n = Math.floor(from); n < Math.min(samples.length, Math.floor(from + width)); n++) {
      if (samples[n] < least) least = samples[n];
      if (samples[n] > most) most = samples[n];
    }
    if (least > most) continue;
    low.push(Number(least.toPrecision(5)));
    high.push(Number(most.toPrecision(5)));
  }
  return { low, high };
}
