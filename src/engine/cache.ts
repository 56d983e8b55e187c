import type { Answered } from '../verbs/verb.ts';
import type { Part } from './parts/part.ts';

/**
 * Answers, and parts of them, by content key, the least recently used going first once their arrays together pass the limit. Values
 * share arrays, so an array is weighed once for as long as any answer holds it.
 */
export class Cache {
  readonly #answers = new Map<string, Answered | Part>();
  readonly #holders = new Map<ArrayBufferLike, number>();
  readonly #plain = new WeakSet<object>();
  readonly #limit: number;
  #bytes = 0;

  /** @param limit bytes of arrays that may be kept */
  constructor(limit = 1.5e9) {
    this.#limit = limit;
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
    return found;
  }

  #add(key: string, answer: Answered | Part): void {
    if (this.#answers.has(key)) return;
    this.#answers.set(key, answer);
    this.#count(answer, 1);
    for (const [oldest, old] of this.#answers) {
      if (this.#bytes <= this.#limit || oldest === key) break;
      this.#answers.delete(oldest);
      this.#count(old, -1);
    }
  }

  clear(): void {
    this.#answers.clear();
    this.#holders.clear();
    this.#bytes = 0;
  }

  #count(answer: Answered | Part, change: 1 | -1): void {
    for (const buffer of this.#buffersOf([answer.value, 'excluded' in answer ? answer.excluded : undefined])) {
      const holders = (this.#holders.get(buffer) ?? 0) + change;
      if (holders === 1 && change === 1) this.#bytes += buffer.byteLength;
      if (holders > 0) this.#holders.set(buffer, holders);
      else if (this.#holders.delete(buffer)) this.#bytes -= buffer.byteLength;
    }
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
      for (const inner of Array.isArray(part) ? part : Object.values(part)) if (visit(inner)) holds = true;
      if (holds) holding.add(part);
      else if (Array.isArray(part)) this.#plain.add(part);
      return holds;
    };
    visit(value);
    return buffers;
  }
}
