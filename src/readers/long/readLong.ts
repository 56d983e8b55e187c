import { success, type Refused, type Result } from '../../result/result.ts';
import { worstFirst } from '../../result/severity.ts';
import { assembled, type Assembled } from '../assemble.ts';
import { converterStep } from '../checks/checked.ts';
import { refuse } from '../messages.ts';
import type { OpenFile } from '../pieces.ts';
import type { Finding, LongPart, PartSizes, ReadOptions, Recording, RecordedChannel, ReadWatch } from '../recording.ts';
import { Cutting } from './cutting.ts';
import type { PartsUnfit } from '../messages/file.ts';
import { JoinedClock } from './joinedClock.ts';
import { JoinedFindings } from './joinedFindings.ts';
import { Outlines } from './outlines.ts';
import type { PartFormat } from './partFormat.ts';

/** Blocks of an outline, about: many times the columns of a picture. */
const blocks = 2 ** 15;

/**
 * Reads a recording that is too large for memory, one part after another: its channels, its clock and what was found,
 * as reading it as a whole would give them, but for its samples. Refuses one whose parts make no recording.
 */
export async function readLong(
  file: OpenFile,
  format: PartFormat,
  sizes: PartSizes,
  options: ReadOptions,
  watch: ReadWatch,
): Promise<Result<Recording>> {
  const { path } = file;
  const pieces = file.from(format.span.from);
  const cutting = new Cutting(pieces, format.span, format.cutIn, format.size);
  const joining = new Joining(file, sizes, options);
  let { line } = format;
  for (let part = cutting.next(); part; part = cutting.next()) {
    const progress = {
      cancelled: watch.cancelled,
      progress: () => watch.progress(cutting.at / Math.max(1, file.size)),
    };
    const read = await format.read({ pieces: part.pieces, size: format.size, line }, progress);
    if (watch.cancelled()) return refuse('cancelled', { path });
    if (!read.ok) return file.failure() ?? read;
    const one = assembled(read.value.reading, options);
    if (!one.ok) return one;
    const refused = joining.add(one.value, { from: part.from, to: cutting.at, line });
    if (refused) return refused;
    line = read.value.nextLine;
  }
  const atEnd = (await format.findingsAtEnd?.(cutting.behind())) ?? [];
  return file.failure() ?? success(joining.recording(atEnd));
}

/** What all parts are held to. */
interface Shape {
  readonly channels: string;
  readonly time: string;
}

/** Joins the parts of a recording, of which each is let go once it was added. */
class Joining {
  readonly #file: OpenFile;
  readonly #sizes: PartSizes;
  readonly #clock: JoinedClock;
  readonly #findings = new JoinedFindings();
  readonly #parts: (LongPart & { readonly lines: ReturnType<typeof linesOf> })[] = [];
  #outlines: Outlines | undefined;
  #first: { readonly recording: Recording; readonly shape: Shape } | undefined;
  #steps: number[] = [];
  #rows = 0;
  /** Start of the next part in s, about. */
  #start = 0;

  constructor(file: OpenFile, sizes: PartSizes, options: ReadOptions) {
    this.#file = file;
    this.#sizes = sizes;
    this.#clock = new JoinedClock(options);
  }

  add(part: Assembled, { from, to, line }: Pick<LongPart, 'from' | 'to' | 'line'>): Refused | undefined {
    const { recording, timed } = part;
    const { path } = this.#file;
    const why = (unfit: PartsUnfit): Refused =>
      refuse('parts-unfit', { path, why: unfit, line, from: this.#sizes.from });
    const shape = shapeOf(recording);
    if (recording.layout.sensors !== undefined) return why('sensors');
    if (this.#first !== undefined && !isSame(this.#first.shape, shape)) return why('other columns');
    const added = this.#clock.add(part);
    if (typeof added === 'string') return why(added);
    const rows = timed.rows.length;
    const { channels, clock } = recording;
    this.#findings.add(part, this.#start);
    const steps = channels.map(({ samples }) => converterStep(samples));
    if (this.#first === undefined) {
      // The samples of the first part need not stay.
      const bare = channels.map((one) => ({ ...one, samples: new Float64Array(0) }));
      this.#first = { recording: { ...recording, channels: bare }, shape };
      const all = (rows * this.#file.size) / Math.max(1, to - from);
      this.#outlines = new Outlines(channels.length, Math.max(1, Math.round(all / blocks)));
      this.#steps = steps;
    } else this.#steps = this.#steps.map((step, k) => leastStep(step, steps[k]));
    clock.stretches.forEach((stretch, s) => {
      const pieces = channels.map(({ samples }) => samples.subarray(stretch.from, stretch.to));
      this.#outlines!.add(pieces, s === 0 && added.goesOn);
    });
    this.#parts.push({ from, to, line, row: this.#rows, rows, lines: linesOf(part) });
    this.#rows += rows;
    const last = clock.stretches[clock.stretches.length - 1];
    this.#start += last.start + (last.to - last.from) / clock.rate;
    return undefined;
  }

  /** @param ofFile what was found of the file rather than of its parts */
  recording(ofFile: readonly Finding[]): Recording {
    const { recording } = this.#first!;
    const rows = this.#rows;
    const { clock, findings } = this.#clock.joined((row) => {
      const part = this.#parts.findLast((one) => one.row <= row);
      return part?.lines.get(row - part.row);
    });
    const channels = recording.channels.map((channel, k): RecordedChannel => ({
      ...channel,
      step: this.#steps[k],
      outline: this.#outlines!.of(k),
    }));
    const parts = this.#parts.map(({ from, to, line, row, rows: own }) => ({ from, to, line, row, rows: own }));
    return {
      ...recording,
      layout: { ...recording.layout, rows },
      channels,
      clock,
      findings: worstFirst([...ofFile, ...this.#findings.all(clock, findings, parts.length)], (one) => one),
      long: { rows, parts, sizes: this.#sizes },
    };
  }
}

/** The lines of a part's gaps by their rows: numbers alone, for whatever knows all lines holds the whole part. */
function linesOf({ recording, timed, lineOf }: Assembled): ReadonlyMap<number, number | undefined> {
  const { indices } = timed.rows;
  return new Map(
    recording.clock.stretches.map(({ from }) => [from, lineOf(indices === undefined ? from : indices[from])]),
  );
}

const leastStep = (a: number, b: number): number => (a === 0 ? b : b === 0 ? a : Math.min(a, b));

function shapeOf({ channels, layout: { time } }: Recording): Shape {
  return {
    channels: JSON.stringify(
      channels.map(({ name, header, unit, unitFrom, axis }) => [name, header, unit, unitFrom, axis]),
    ),
    time: JSON.stringify([time?.column, time?.style]),
  };
}

const isSame = (a: Shape, b: Shape): boolean => a.channels === b.channels && a.time === b.time;
