/** A copy of a compiled loop, with memory of its own. */
export interface CompiledCopy {
  readonly exports: Record<string, unknown>;
  readonly buffer: ArrayBuffer;
}

/** Where an array stands in the memory of a copy, as the loop exports it. */
export interface Address {
  readonly value: number;
}

/** A loop that was compiled to WebAssembly and is kept as text, so that all hosts load it alike. */
export class CompiledLoop {
  readonly #base64: string;
  /** Undefined until first asked for, null where the host has no vectors or forbids compiled code. */
  #module: WebAssembly.Module | null | undefined;

  constructor(base64: string) {
    this.#base64 = base64;
  }

  /** A copy with so many bytes of memory at least, or undefined where the host can't run it. */
  copy(bytes: number): CompiledCopy | undefined {
    if (this.#module === undefined) this.#module = compiled(this.#base64);
    if (this.#module === null) return undefined;
    // Memory that grows would detach its buffer, upon which V8 checks every access to every typed array of the process.
    const memory = new WebAssembly.Memory({ initial: Math.ceil(bytes / 65536) });
    return { exports: new WebAssembly.Instance(this.#module, { env: { memory } }).exports, buffer: memory.buffer };
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

function compiled(base64: string): WebAssembly.Module | null {
  try {
    return new WebAssembly.Module(Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0)));
  } catch {
    return null;
  }
}
