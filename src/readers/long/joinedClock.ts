import { settings } from '../settings.ts';
import type { Assembled } from '../assemble.ts';
import { rateOver, toDigits, type StampClock } from '../clock/clock.ts';
import { clockFindings } from '../clock/findings.ts';
import { findBreaks } from '../clock/breaks.ts';
import { missingSamples } from '../clock/missing.ts';
import type { Lines } from '../checks/gaps.ts';
import type { PartsUnfit } from '../messages/file.ts';
import type { Clock, Finding, ReadOptions, Stretch } from '../recording.ts';

/** Unbroken rows of the whole recording, and the stamps of the first and the last of them in s. */
interface Span {
  readonly from: number;
  to: number;
  readonly first: number;
  last: number;
  /** What was added to its part's own stamps. */
  readonly shift: number;
}

/** Rows on either side of a cut by which it is told whether samples are missing there. */
const beside = 5;

const day = 86_400;

/** One clock of the clocks of a recording's parts, in order: the clock that the whole would have. */
export class JoinedClock {
  readonly #options: ReadOptions;
  readonly #spans: Span[] = [];
  #first: Assembled | undefined;
  #rows = 0;
  /** Last stamps of the part before. */
  #tail: readonly number[] = [];
  #days = 0;
  readonly #parts: StampClock[] = [];

  constructor(options: ReadOptions) {
    this.#options = options;
  }

  /** Adds the next part. Gives whether it goes on where the one before ended, or why it is none of the same recording. */
  add(part: Assembled): { readonly goesOn: boolean } | PartsUnfit {
    const { recording, timed } = part;
    const isFirst = this.#first === undefined;
    this.#first ??= part;
    const rows = timed.rows.length;
    const { stretches, times, rate } = recording.clock;
    if (times !== undefined) return 'uneven';
    if (timed.stamps === undefined || timed.seconds === undefined) {
      if (stretches.length > 1) return 'rows left out';
      if (rate !== this.#first.recording.clock.rate) return 'other rate';
      this.#rows += rows;
      return { goesOn: !isFirst };
    }
    const { stamps } = timed;
    const { held, resets, delivery, quantum } = stamps;
    if (held.rows > 0 || delivery === 'coarse' || delivery === 'bursts') return 'shared stamps';
    if (resets > 0 || part.time?.astray !== undefined) return 'backward';
    const shift = this.#shiftOf(part, 1 / stamps.rate);
    const at = (row: number): number => timed.seconds![row] + shift;
    const spans = stretches.map(({ from, to }) => ({
      from: from + this.#rows,
      to: to + this.#rows,
      first: at(from),
      last: at(to - 1),
      shift,
    }));
    const head = Array.from({ length: Math.min(beside, rows) }, (_, i) => at(i));
    const before = this.#spans.at(-1);
    const usual = this.#parts.length === 0 ? 1 / stamps.rate : 1 / this.#parts[0].rate;
    let goesOn = false;
    if (before !== undefined) {
      if (!(head[0] > before.last)) return 'backward';
      if (isOtherRate(stamps, usual)) return 'other rate';
      const limit = Math.max(settings.gapSteps * usual, usual + 1.001 * quantum);
      const across = Float64Array.of(...this.#tail, ...head);
      goesOn = !findBreaks(across, usual, limit, false, 0).some(({ row }) => row === this.#tail.length);
    }
    if (before !== undefined && goesOn) {
      const [own] = spans.splice(0, 1);
      before.to = own.to;
      before.last = own.last;
    }
    this.#spans.push(...spans);
    const fewest = Math.max(0, rows - beside);
    this.#tail = Array.from({ length: rows - fewest }, (_, i) => at(fewest + i));
    this.#rows += rows;
    this.#parts.push(stamps);
    return { goesOn };
  }

  /** What is added to a part's seconds to have those of the first part; a clock without a date begins anew at midnight. */
  #shiftOf({ time, timed }: Assembled, usual: number): number {
    const first = this.#first!.time!;
    const shift = (time!.base ?? 0) - (first.base ?? 0) + time!.origin - first.origin;
    const isOfDay = time!.base === undefined && /^(clock|hhmmss)/.test(time!.style);
    const last = this.#tail.at(-1);
    if (isOfDay && last !== undefined)
      this.#days = Math.max(this.#days, Math.round((last + usual - timed.seconds![0] - shift) / day));
    return shift + day * this.#days;
  }

  /** The clock of all parts, with what is to be told of it. */
  joined(lineOf: Lines): { readonly clock: Clock; readonly findings: readonly Finding[] } {
    const { recording, time, origin } = this.#first!;
    const { clock } = recording;
    if (this.#parts.length === 0)
      return { clock: { ...clock, stretches: [{ from: 0, to: this.#rows, start: 0 }] }, findings: [] };
    const stamps = this.#stamps(time!.resolution);
    const rate = this.#options.rate ?? stamps.rate;
    const stretch = stamps.rate / rate;
    const whole: Clock = {
      ...clock,
      rate,
      jitter: stamps.jitter,
      stretches: stamps.stretches.map((one) => ({ ...one, start: one.start * stretch })),
    };
    return { clock: whole, findings: clockFindings(whole, stamps, origin.stated, lineOf) };
  }

  /** What the stamps of all parts say together. */
  #stamps(resolution: number): StampClock {
    const spans = this.#spans;
    let [steps, duration] = [0, 0];
    for (const { from, to, first, last } of spans) {
      steps += to - from - 1;
      duration += toDigits(last - first, resolution);
    }
    const parts = this.#parts;
    const rate = rateOver(steps, duration, resolution) ?? parts[0].rate;
    const stretches: Stretch[] = [];
    let end = 0;
    for (const { from, to, first, shift } of spans) {
      const since = first - spans[0].first;
      const start = stretches.length === 0 ? 0 : Math.max(end, shift === 0 ? since : toDigits(since, resolution));
      stretches.push({ from, to, start });
      end = start + (to - from) / rate;
    }
    const least = Math.max(...parts.map((part) => part.least));
    const span = spans[spans.length - 1].last - spans[0].first;
    const sum = (of: (part: StampClock) => number): number => parts.reduce((all, part) => all + of(part), 0);
    return {
      rate,
      stretches,
      jitter: Math.sqrt(sum(({ jitter }) => jitter ** 2) / parts.length),
      times: undefined,
      quantum: parts[0].quantum,
      delivery: parts.some(({ delivery }) => delivery === 'rounded') ? 'rounded' : 'even',
      missing: missingSamples(stretches, rate),
      repeated: sum(({ repeated }) => repeated),
      backward: sum(({ backward }) => backward),
      resets: 0,
      held: { rows: 0, first: -1 },
      hidesLosses: parts.some(({ hidesLosses }) => hidesLosses),
      each: parts[0].each === undefined ? undefined : 1 / this.#rows,
      least,
      leastLost: least > 0 ? Math.max(0, Math.floor(span * least) - (this.#rows - 1)) : undefined,
      span,
    };
  }
}

/** Whether a part keeps another step than the first, as far as its rounding tells. @param usual step in s */
function isOtherRate({ rate, quantum, span }: StampClock, usual: number): boolean {
  const off = Math.abs(1 / rate / usual - 1);
  return off > settings.changingRate.share + (2 * quantum) / span;
}
