/** What this folder uses of a browser, beside what Node has too. */
declare class Worker {
  constructor(address: string, options?: { readonly name?: string });
  postMessage(message: unknown, transfer?: readonly ArrayBuffer[]): void;
  terminate(): void;
  onmessage: ((event: { readonly data: unknown }) => void) | null;
  onerror: ((event: { readonly message?: string }) => void) | null;
}

/** Loads a part of the extension by its file's name; given by the file that this is bundled into. */
declare let partOf: (name: string) => unknown;
