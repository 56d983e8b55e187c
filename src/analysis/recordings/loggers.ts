import { answered, success, type Answer, type Refused, type Result, type Warning } from '../../result/result.ts';
import { alongClock, type CommonStretch } from '../../signal/alongClock.ts';
import { hopOf, segmentCount } from '../../signal/welch.ts';
import { windowShape } from '../../signal/windows.ts';
import { studentTInterval } from '../../statistics/distributions/studentT.ts';
import { one } from '../../units/parse.ts';
import type { Band } from '../../values/band.ts';
import type { LoggersClock, LoggersRow, LoggersValue } from '../../values/loggers.ts';
import type { Watch } from '../../values/ports.ts';
import type { RunsValue } from '../../values/runs.ts';
import type { WindowValue } from '../../values/window.ts';
import { refuse, tell } from '../messages/loggers.ts';
import { leastCoherence, responseOf } from '../spectra/response.ts';
import { clocksOf, commonRate, scaleOf, sharedChannels, type ChannelClocks } from './loggerChannels.ts';
import type { HeldChannel, Logger, SharedChannel } from './loggerChannels.ts';
import { loggerDoubts } from './loggerDoubts.ts';
import { loggerRows } from './loggerRows.ts';
import { evenly } from './uniformRate.ts';

/** Both are brought onto one clock without loss up to this share of the lower rate. */
const mostOfRate = 0.4;
/** Hz, where no band is asked for. */
const lowest = 1;
const fewestBins = 2;

/** Runs of a logger, and what the text calls them. */
export interface NamedRuns {
  readonly name: string | undefined;
  readonly runs: RunsValue;
}

export interface LoggersRequest {
  /** None for all that both hold. */
  readonly bands: readonly Band[];
  readonly window: WindowValue;
  /** 0 to 1 */
  readonly confidence: number;
}

/**
 * Two loggers that recorded the same side by side: how late and how fast B's clock is against A's, and with B on A's clock
 * the coherence, the response and the ratio of the r.m.s. in bands, channel by channel. Refuses several runs a side, one file
 * on both, recordings without anything in common, channels of other names or dimensions, and too short a common time.
 */
export function loggersHeld(a: NamedRuns, b: NamedRuns, request: LoggersRequest, watch: Watch): Answer<LoggersValue> {
  const sides = [loggerOf(a, 'a'), loggerOf(b, 'b')];
  const [first, second] = sides;
  if (!first.ok) return first;
  if (!second.ok) return second;
  const [left, right] = [first.value, second.value];
  if (left.run.file.sha256 === right.run.file.sha256)
    return refuse('loggers.same', { a: left.name, b: right.name, file: left.run.file.path }, 'b');
  const shared = sharedChannels(left, right);
  if (!shared.ok) return shared;
  watch.progress(0, `clocks of ${left.name} and ${right.name}`);
  const clocks = clocksOf(left, right, shared.value);
  if (!clocks.ok) return clocks;
  watch.progress(0.5, `responses of ${left.name} and ${right.name}`);
  const found = heldChannels(left, right, shared.value, clocks.value, request, watch);
  if (!found.ok) return found;
  const { held, rate } = found.value;
  const clock = clockOf(clocks.value, held[0].pairs, rate);
  const rows = held.flatMap((channel) => channel.rows);
  const { window, confidence } = request;
  const value: LoggersValue = {
    ...{ kind: 'loggers', a: left, b: right, clock, window, confidence, leastCoherence },
    responses: held.map(({ response }) => response),
    rows,
    sentence: sentenceOf(left, right, rows, clock, confidence),
  };
  const warnings: Warning[] = [...first.warnings, ...second.warnings];
  return answered(value, [...warnings, ...loggerDoubts(value, held, clocks.value)]);
}

/** The one run of a side at a uniform rate. */
function loggerOf({ name, runs }: NamedRuns, at: 'a' | 'b'): Answer<Logger> {
  const called = name ?? runs.set ?? runs.runs[0].label;
  if (runs.runs.length !== 1) return refuse('loggers.runs', { name: called, runs: runs.runs.length }, at);
  const even = evenly(runs, 'loggers');
  if (!even.ok) return even;
  return answered({ name: called, run: even.value.runs[0] }, even.warnings);
}

function heldChannels(
  a: Logger,
  b: Logger,
  shared: readonly SharedChannel[],
  clocks: ChannelClocks,
  { bands: asked, window, confidence }: LoggersRequest,
  watch: Watch,
): Result<{ readonly held: readonly HeldChannel[]; readonly rate: number }> {
  const onto = commonRate(a.run, b.run);
  const held: HeldChannel[] = [];
  let rate = onto;
  for (const channel of shared) {
    ({ rate } = channel.onA);
    const pairs = alongClock(channel.onA, channel.onB, clocks);
    const length = Math.round(window.length * rate);
    const why = whyShort(pairs, length, window, rate);
    if (why !== undefined) return why;
    const bands = bandsOf(asked, onto, rate / length);
    if (!bands.ok) return bands;
    const options = {
      shape: windowShape(window.shape, length),
      rate,
      overlap: window.overlap,
      cancelled: watch.cancelled,
    };
    const scale = scaleOf(channel);
    const [from, to] = [`${channel.a.name} of ${a.name}`, `${channel.b.name} of ${b.name}`];
    const response = {
      ...responseOf(b.run, { from, to, unit: one, scale }, pairs, options),
      delay: -clocks.late,
      aligned: -clocks.late,
    };
    const rows = loggerRows(channel, pairs, response, bands.value, options, confidence);
    held.push({ ...channel, pairs, response, rows });
  }
  return success({ held, rate });
}

function whyShort(
  pairs: readonly CommonStretch[],
  length: number,
  window: WindowValue,
  rate: number,
): Refused | undefined {
  const hop = hopOf(length, window.overlap);
  const segments = pairs.reduce((sum, { input }) => sum + segmentCount(input.length, length, hop), 0);
  if (segments >= 2) return undefined;
  return refuse('loggers.short', { common: commonTime(pairs, rate), length: window.length }, 'b');
}

const commonTime = (pairs: readonly CommonStretch[], rate: number): number =>
  pairs.reduce((sum, { input }) => sum + input.length, 0) / rate;

function bandsOf(asked: readonly Band[], rate: number, spacing: number): Result<readonly Band[]> {
  const most = mostOfRate * rate;
  if (asked.length === 0) return success([{ from: Math.max(lowest, fewestBins * spacing), to: most }]);
  for (const { from, to } of asked) {
    if (to > most * (1 + 1e-9)) return refuse('loggers.band', { from, to, most }, 'over');
    if (Math.floor(to / spacing) < Math.max(1, Math.ceil(from / spacing)))
      return refuse('loggers.narrow', { from, to, spacing }, 'over');
  }
  return success(asked);
}

function clockOf(clocks: ChannelClocks, pairs: readonly CommonStretch[], rate: number): LoggersClock {
  const { late, lateError, fast, fastError, scatter, stretches, channel } = clocks;
  const df = Math.max(0, stretches - (fastError === undefined ? 1 : 2));
  return { late, lateError, fast, fastError, df, scatter, stretches, channel, common: commonTime(pairs, rate) };
}

/** Of each channel its first band. */
function sentenceOf(
  { name: a }: Logger,
  { name: b }: Logger,
  rows: readonly LoggersRow[],
  { late, fast, fastError, df }: LoggersClock,
  confidence: number,
): string {
  const readings = rows
    .filter((row, k) => rows.findIndex(({ channel }) => channel === row.channel) === k)
    .map(({ channel, from, to, ratio, low, high, leastCoherence: least, coherence }) => ({
      ...{ channel, from, to, percent: 100 * (ratio - 1), leastCoherence: least, coherence },
      low: low && 100 * (low - 1),
      high: high && 100 * (high - 1),
    }));
  const isRateKnown = fastError !== undefined && df > 0;
  const clock = {
    late,
    fast: isRateKnown ? 1e6 * fast : undefined,
    within: isRateKnown ? 1e6 * fastError * studentTInterval(confidence, df) : undefined,
  };
  return tell('result.loggers', { a, b, readings, clock, confidence }).message;
}
