import type { Place } from './diagnostic.ts';

export type TokenKind = 'newline' | 'comment' | 'number' | 'word' | 'text' | 'sign' | 'bad';

export interface Token extends Place {
  readonly kind: TokenKind;
  readonly text: string;
}

const number = /(?:\d+(?:\.\d+)?|\.\d+)(?:[eE][+-]?\d+)?/y;

/**
 * Order matters: `..` before a number that begins with a point and before `.`; a number stops before `..`, so that
 * `5..80` is a range. A word may hold raised digits, so that `s²` stays one piece; names are held to their own rule.
 */
const table: readonly (readonly [TokenKind, RegExp])[] = [
  ['newline', /\r\n|\n|\r/y],
  ['comment', /#[^\r\n]*/y],
  ['text', /"[^"\r\n]*"?/y],
  // What a text processor makes of quotes; the parser says so, and reads on.
  ['text', /[“„«][^"“”„«»\r\n]*[”“»"]?/y],
  ['sign', /\.\.|±|\+\/-/y],
  ['number', number],
  ['word', /[\p{L}_][\p{L}\p{N}\p{M}_]*/uy],
  ['sign', /[|,=()[\]+\-*/^.%]/y],
  ['bad', /[\s\S]/uy],
];

const blanks = /[^\S\r\n]*/y;
const signs = new Set('|,=()[]*/^%');

/**
 * Every character of the text is in exactly one token or is a blank between two.
 * @param lines that are read at most; what is beyond them is in no token
 */
export function tokenize(text: string, lines = Infinity): Token[] {
  const tokens: Token[] = [];
  let left = lines;
  for (let at = pastBlanks(text, 0); at < text.length && left > 0; at = pastBlanks(text, at)) {
    const token = plainToken(text, at) ?? tokenAt(text, at);
    tokens.push(token);
    at = token.to;
    if (token.kind === 'newline') left--;
  }
  return tokens;
}

function pastBlanks(text: string, from: number): number {
  let at = from;
  while (text[at] === ' ') at++;
  // Most words follow one blank, or none.
  const code = text.charCodeAt(at);
  if (code > 32 && code < 128) return at;
  blanks.lastIndex = at;
  blanks.exec(text);
  return blanks.lastIndex;
}

/** What most of a cell is made of, by its first letter and so without a try of each pattern: the same as these give. */
function plainToken(text: string, from: number): Token | undefined {
  const first = text[from];
  if (signs.has(first)) return { kind: 'sign', from, to: from + 1, text: first };
  if (first === '\n') return { kind: 'newline', from, to: from + 1, text: first };
  if (isDigit(text.charCodeAt(from))) return { kind: 'number', ...piece(text, from, lengthBy(number, text, from)) };
  if (!isLetter(text.charCodeAt(from))) return undefined;
  let to = from + 1;
  while (isLetter(text.charCodeAt(to)) || isDigit(text.charCodeAt(to))) to++;
  // A letter of another alphabet may go on with the word.
  return text.charCodeAt(to) < 128 || to === text.length ? { kind: 'word', ...piece(text, from, to) } : undefined;
}

const piece = (text: string, from: number, to: number): Omit<Token, 'kind'> => ({
  from,
  to,
  text: text.slice(from, to),
});

function lengthBy(pattern: RegExp, text: string, from: number): number {
  pattern.lastIndex = from;
  pattern.test(text);
  return pattern.lastIndex;
}

const isDigit = (code: number): boolean => code >= 48 && code <= 57;
const isLetter = (code: number): boolean => (code >= 97 && code <= 122) || (code >= 65 && code <= 90) || code === 95;

function tokenAt(source: string, from: number): Token {
  for (const [kind, pattern] of table) {
    pattern.lastIndex = from;
    const match = pattern.exec(source);
    if (!match) continue;
    // Blanks after a text that is never closed belong to no one: an editor may trim them.
    const text = kind === 'text' ? match[0].trimEnd() : match[0];
    return { kind, from, to: from + text.length, text };
  }
  return { kind: 'bad', from, to: from + 1, text: source[from] };
}
