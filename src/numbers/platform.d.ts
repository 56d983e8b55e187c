/** What both hosts, Node and a web worker, give beyond the language itself, as far as this room uses it. */
declare namespace WebAssembly {
  class Module {
    constructor(bytes: Uint8Array);
  }
  class Instance {
    constructor(module: Module, imports: { readonly env: { readonly memory: Memory } });
    readonly exports: Record<string, unknown>;
  }
  class Memory {
    constructor(size: { readonly initial: number; readonly maximum: number; readonly shared?: boolean });
    /** Shared where the memory is. */
    readonly buffer: ArrayBuffer;
  }
}

declare function atob(base64: string): string;
