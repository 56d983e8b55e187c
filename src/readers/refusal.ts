import type { Failure } from '../result/result.ts';

/** Thrown inside this room only, and turned into a value at its door: why a file can't be read. */
export class Refused extends Error {
  readonly failure: Failure;

  constructor(code: string, message: string) {
    super(message);
    this.failure = { code, facts: {}, message };
  }
}

/** `path:line:column`, as an editor links it; line and column count from 1. */
export function place(path: string, line?: number, column?: number): string {
  return [path, line, column].filter((part) => part !== undefined).join(':');
}

/** A text of the file as a message quotes it: one line, at most 40 characters. */
export function quote(text: string): string {
  const plain = text
    .replace(/[\u0000-\u001f\u007f-\u009f]+/g, ' ')
    .replace(/"/g, "'")
    .trim();
  return `"${plain.length > 40 ? `${plain.slice(0, 39)}…` : plain}"`;
}

/** Names in a sentence: `a`, `a and b`, `a, b and c`, and no more than eight of them. */
export function list(names: readonly string[], last = 'and'): string {
  const shown = names.length > 8 ? [...names.slice(0, 7), `${names.length - 7} more`] : names;
  return shown.length < 2 ? shown.join('') : `${shown.slice(0, -1).join(', ')} ${last} ${shown[shown.length - 1]}`;
}

/** A figure in a sentence: five significant digits, no trailing zeros. */
export function figure(value: number): string {
  return String(Number(value.toPrecision(5)));
}

/** A share in a sentence, in percent with three significant digits. */
export function percent(share: number): string {
  return `${Number((100 * share).toPrecision(3))} %`;
}
