/** What this room uses of what Node, browsers and web workers all have. */
declare class TextDecoder {
  decode(bytes?: Uint8Array): string;
}

declare class TextEncoder {
  encode(text?: string): Uint8Array;
}

declare const performance: { now(): number };
