import { isBlank, isComment } from './fields.ts';

/** Checksums that stand behind the rows, as `*5A` does behind a sentence of NMEA 0183. */
export interface Checksums {
  /** Whether they are the exclusive or of the characters before them, so that they can be held against the rows. */
  readonly isKnown: boolean;
  /** A line without its checksum and the `$` before it; undefined for a row whose checksum is wrong or missing. */
  readonly bare: (line: string) => string | undefined;
  /** The same of a line that may stand above the rows; nothing of a row whose checksum is wrong. */
  readonly bareInHead: (line: string) => string;
}

const framed = /^\s*\$?(.*)\*([\dA-F]{1,2})\s*$/i;
/** Share of the rows that end with a checksum, and of these that it must agree with. */
const [most, right] = [0.8, 0.8];

/** The checksums of a head's rows, or undefined where they have none. */
export function checksumsIn(lines: readonly { readonly text: string }[]): Checksums | undefined {
  const rows = lines.filter(({ text }) => /\d/.test(text) && !isComment(text));
  const ended = rows.filter(({ text }) => framed.test(text));
  if (ended.length < 2 || ended.length < most * rows.length) return undefined;
  const isKnown = ended.filter(({ text }) => isRight(text)).length >= right * ended.length;
  const bare = (line: string): string | undefined => {
    const match = framed.exec(line);
    if (match === null) return isBlank(line) || isComment(line) || !isKnown ? line : undefined;
    return isKnown && !isRight(line) ? undefined : match[1];
  };
  const bareInHead = (line: string): string => (framed.test(line) ? (bare(line) ?? '') : line);
  return { isKnown, bare, bareInHead };
}

/** Whether a row's checksum is the exclusive or of its characters between `$` and `*` (NMEA 0183). */
function isRight(line: string): boolean {
  const match = framed.exec(line);
  if (match === null) return false;
  let sum = 0;
  for (let i = 0; i < match[1].length; i++) sum ^= match[1].charCodeAt(i) & 0xff;
  return sum === Number.parseInt(match[2], 16);
}
