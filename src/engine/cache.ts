import { partsWithArrays, sampleBuffers, withoutSamples } from '../values/away.ts';
import type { Run } from '../values/run.ts';
import type { Answered } from '../verbs/verb.ts';
import type { Part } from './parts/part.ts';

/** Bytes of samples that are kept at hand in a process; those beyond are let go, and read again where they are needed. */
const samplesAtHand = 16e6;

/** The same for a session of the editor, whose charts are dragged: reading again would be seen as a stutter. */
export const samplesInSession = 256e6;

interface Limits {
  /** Bytes of arrays that may be kept. */
  readonly arrays: number;
  /** Bytes of samples that are kept at hand. */
  readonly samples: number;
}

/** An answer, and the run of the notebook that touched it last. */
interface Entry {
  answer: Answered | Part;
  touched: number;
}

/**
 * Answers, and parts of them, by content key, the least recently used going first once their arrays together pass the limit. Values
 * share arrays, so an array is weighed once for as long as any answer holds it. Samples have a limit of their own: for
 * new ones those go that the run of the notebook at hand has not touched.
 */
export class Cache {
  readonly #answers = new Map<string, Entry>();
  /** Of the answers those that hold samples, in the same order: of 10,000 recordings most have none by the end. */
  readonly #sampled = new Map<string, Entry>();
  readonly #samples = new Set<ArrayBufferLike>();
  #run = 0;
  #isShort = false;
  #sampleBytes = 0;
  readonly #holders = new Map<ArrayBufferLike, number>();
  readonly #plain = new WeakSet<object>();
  readonly #limits: Limits;
  #bytes = 0;

  constructor({ arrays = 1.5e9, samples = samplesAtHand }: Partial<Limits> = {}) {
    this.#limits = { arrays, samples };
  }

  /** Notes that a notebook is run anew: what it does not touch may go. */
  begin(): void {
    this.#run++;
    this.#isShort = false;
  }

  /** Whether samples of the run at hand had no room. */
  get isShort(): boolean {
    return this.#isShort;
  }

  /** Whether the samples of a run are kept at hand: there is room for them, or is once what was not touched lately has gone. */
  admits(run: Run): boolean {
    const fresh = new Set(sampleBuffers(run).filter((buffer) => !this.#samples.has(buffer)));
    const bytes = [...fresh].reduce((sum, { byteLength }) => sum + byteLength, 0);
    const { samples } = this.#limits;
    for (const [key, { touched }] of this.#sampled) {
      if (this.#sampleBytes + bytes <= samples || touched === this.#run) break;
      this.#letSamplesGo(key);
    }
    if (this.#sampleBytes + bytes > samples) {
      this.#isShort = true;
      return false;
    }
    for (const buffer of fresh) this.#samples.add(buffer);
    this.#sampleBytes += bytes;
    // What holds them already, for they were no samples at hand when it came.
    if ([...fresh].some((buffer) => this.#holders.has(buffer)))
      for (const [key, entry] of this.#answers) this.#noteSamples(key, entry, this.#buffersIn(entry.answer));
    return true;
  }

  /** Whether all samples of a run are at hand. */
  holds(run: Run): boolean {
    return sampleBuffers(run).every((buffer) => this.#samples.has(buffer));
  }

  /** Bytes of the arrays that are held. */
  get bytes(): number {
    return this.#bytes;
  }

  get(key: string): Answered | undefined {
    return this.#touched(key) as Answered | undefined;
  }

  /** What a recording gave; its key is taken from no answer's. */
  part(key: string): Part | undefined {
    return this.#touched(`part ${key}`) as Part | undefined;
  }

  set(key: string, answer: Answered): void {
    this.#add(key, answer);
  }

  setPart(key: string, part: Part): void {
    this.#add(`part ${key}`, part);
  }

  #touched(key: string): Answered | Part | undefined {
    const found = this.#answers.get(key);
    if (found === undefined) return undefined;
    this.#answers.delete(key);
    this.#answers.set(key, found);
    if (this.#sampled.delete(key)) this.#sampled.set(key, found);
    found.touched = this.#run;
    return found.answer;
  }

  #add(key: string, answer: Answered | Part): void {
    const before = this.#answers.get(key)?.answer;
    this.#forget(key);
    const entry = { answer, touched: this.#run };
    this.#answers.set(key, entry);
    this.#noteSamples(key, entry, this.#count(answer, 1));
    if (before !== undefined) this.#count(before, -1);
    for (const oldest of this.#answers.keys()) {
      if (this.#bytes <= this.#limits.arrays || oldest === key) break;
      this.#drop(oldest);
    }
  }

  #drop(key: string): void {
    const old = this.#answers.get(key);
    if (old === undefined) return;
    this.#forget(key);
    this.#count(old.answer, -1);
  }

  /** What was made of samples stays: made anew, each of 10,000 recordings would be read again. */
  #letSamplesGo(key: string): void {
    const entry = this.#answers.get(key);
    if (entry === undefined) return;
    const { answer } = entry;
    entry.answer = withoutSamples(answer);
    this.#sampled.delete(key);
    this.#count(entry.answer, 1);
    this.#count(answer, -1);
  }

  #forget(key: string): void {
    this.#answers.delete(key);
    this.#sampled.delete(key);
  }

  #noteSamples(key: string, entry: Entry, buffers: readonly ArrayBufferLike[]): void {
    this.#sampled.delete(key);
    if (buffers.some((buffer) => this.#samples.has(buffer))) this.#sampled.set(key, entry);
  }

  clear(): void {
    this.#answers.clear();
    this.#sampled.clear();
    this.#holders.clear();
    this.#samples.clear();
    this.#bytes = 0;
    this.#sampleBytes = 0;
  }

  /** @returns the arrays that were counted */
  #count(answer: Answered | Part, change: 1 | -1): readonly ArrayBufferLike[] {
    const buffers = this.#buffersIn(answer);
    for (const buffer of buffers) {
      const holders = (this.#holders.get(buffer) ?? 0) + change;
      if (holders === 1 && change === 1) this.#bytes += buffer.byteLength;
      if (holders > 0) this.#holders.set(buffer, holders);
      else if (this.#holders.delete(buffer)) {
        this.#bytes -= buffer.byteLength;
        if (this.#samples.delete(buffer)) this.#sampleBytes -= buffer.byteLength;
      }
    }
    return buffers;
  }

  #buffersIn(answer: Answered | Part): ArrayBufferLike[] {
    return [...this.#buffersOf([answer.value, 'excluded' in answer ? answer.excluded : undefined])];
  }

  /** Arrays of plain data are looked through once: a recording may have a million stretches, and many answers hold them. */
  #buffersOf(value: unknown): Set<ArrayBufferLike> {
    const buffers = new Set<ArrayBufferLike>();
    const holding = new Set<object>();
    const visit = (part: unknown): boolean => {
      if (typeof part !== 'object' || part === null || this.#plain.has(part)) return false;
      if (holding.has(part)) return true;
      if (ArrayBuffer.isView(part)) {
        buffers.add(part.buffer);
        return true;
      }
      let holds = false;
      for (const inner of Array.isArray(part) ? (part as unknown[]) : partsWithArrays(part))
        if (visit(inner)) holds = true;
      if (holds) holding.add(part);
      else if (Array.isArray(part)) this.#plain.add(part);
      return holds;
    };
    visit(value);
    return buffers;
  }
}
