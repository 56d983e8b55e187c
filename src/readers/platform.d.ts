/** What the editor's extension host, a worker and Node all have, named here because a pure room has no host's types. */
declare class TextDecoder {
  constructor(encoding?: string, options?: { fatal?: boolean; ignoreBOM?: boolean });
  decode(bytes?: Uint8Array, options?: { stream?: boolean }): string;
}

declare class TextEncoder {
  encode(text: string): Uint8Array;
}

interface ReadableStreamDefaultReader {
  read(): Promise<{ done: boolean; value?: Uint8Array }>;
  cancel(reason?: unknown): Promise<void>;
}

interface WritableStreamDefaultWriter {
  write(bytes: Uint8Array): Promise<void>;
  close(): Promise<void>;
  abort(reason?: unknown): Promise<void>;
}

declare class DecompressionStream {
  constructor(format: 'gzip');
  readonly readable: { getReader(): ReadableStreamDefaultReader };
  readonly writable: { getWriter(): WritableStreamDefaultWriter };
}

declare module 'papaparse/papaparse.min.js' {
  // The published types name Node's, which this room must not see.
  const papa: {
    parse(
      text: string,
      options: { delimiter: string; quoteChar?: string; skipEmptyLines?: boolean },
    ): { data: string[][]; errors: { code: string; message: string; row?: number }[] };
  };
  export default papa;
}
