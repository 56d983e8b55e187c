/** A copy of a compiled loop, with memory of its own. */
export interface CompiledCopy {
  readonly exports: Record<string, unknown>;
  readonly buffer: ArrayBuffer;
}

/** Where an array stands in the memory of a copy, as the loop exports it. */
export interface Address {
  readonly value: number;
}

/** Memory that loops work in, as the host knows it. */
export interface LoopMemory {
  readonly buffer: ArrayBuffer;
}

/** A loop that was compiled to WebAssembly and is kept as text, so that all hosts load it alike. */
export class CompiledLoop {
  readonly #base64: string;
  #bytes: Uint8Array | undefined;
  /** Undefined until first asked for, null where the host has no vectors or forbids compiled code. */
  #module: WebAssembly.Module | null | undefined;
  /** For a memory that threads share. */
  #sharing: WebAssembly.Module | null | undefined;

  constructor(base64: string) {
    this.#base64 = base64;
  }

  /** A copy with so many bytes of memory at least, or undefined where the host can't run it. */
  copy(bytes: number): CompiledCopy | undefined {
    if (this.#module === undefined) this.#module = this.#compiled(ownLimits);
    if (this.#module === null) return undefined;
    // Memory that grows would detach its buffer, upon which V8 checks every access to every typed array of the process.
    const memory = memoryOf(bytes, false);
    return { exports: new WebAssembly.Instance(this.#module, { env: { memory } }).exports, buffer: memory.buffer };
  }

  /** The exports of a copy in a memory that threads share, or undefined where the host can't run it. */
  sharing(memory: LoopMemory): Record<string, unknown> | undefined {
    if (this.#sharing === undefined) this.#sharing = this.#compiled(sharedLimits);
    return this.#sharing === null
      ? undefined
      : new WebAssembly.Instance(this.#sharing, { env: { memory: memory } }).exports;
  }

  #compiled(limits: number): WebAssembly.Module | null {
    try {
      const bytes = (this.#bytes ??= bytesOf(this.#base64));
      bytes[placeOfLimits(bytes)] = limits;
      return new WebAssembly.Module(bytes);
    } catch {
      return null;
    }
  }
}

/**
 * What is made of a copy of a loop with so many bytes of memory, once for all of a thread, when it is first asked for; undefined
 * where the host can't run it.
 */
export function onlyCopy<Made>(
  loop: CompiledLoop,
  bytes: number,
  make: (copy: CompiledCopy) => Made,
): () => Made | undefined {
  let made: { readonly one: Made | undefined } | undefined;
  return () => {
    if (made === undefined) {
      const copy = loop.copy(bytes);
      made = { one: copy === undefined ? undefined : make(copy) };
    }
    return made.one;
  };
}

/** By a plain loop, which is done before a host has begun to make a call for each byte quick. */
function bytesOf(base64: string): Uint8Array {
  const text = atob(base64);
  const bytes = new Uint8Array(text.length);
  for (let i = 0; i < bytes.length; i++) bytes[i] = text.charCodeAt(i);
  return bytes;
}

/** What the import of a memory says of it: that it has a most, and that it has one and is shared (WebAssembly threads proposal, "Limits"). */
const [ownLimits, sharedLimits] = [1, 3];

/** Where the import `env.memory` says what kind of memory it is: of the same loop for both kinds only this byte differs. */
function placeOfLimits(bytes: Uint8Array): number {
  const text = String.fromCharCode(...bytes.subarray(0, 1024));
  return text.indexOf('\x03env\x06memory\x02') + '.env.memory.'.length;
}

/** Fresh memory of so many bytes at least, for several threads. Throws a RangeError where the host has no room for it. */
export function sharedMemory(bytes: number): LoopMemory {
  return memoryOf(bytes, true);
}

function memoryOf(bytes: number, isShared: boolean): WebAssembly.Memory {
  const pages = Math.ceil(bytes / 65536);
  return new WebAssembly.Memory({ initial: pages, maximum: pages, shared: isShared });
}
