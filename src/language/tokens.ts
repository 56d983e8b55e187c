import type { Place } from './diagnostic.ts';

export type TokenKind = 'newline' | 'comment' | 'number' | 'word' | 'text' | 'sign' | 'bad';

export interface Token extends Place {
  readonly kind: TokenKind;
  readonly text: string;
}

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
  ['number', /(?:\d+(?:\.\d+)?|\.\d+)(?:[eE][+-]?\d+)?/y],
  ['word', /[\p{L}_][\p{L}\p{N}\p{M}_]*/uy],
  ['sign', /[|,=()[\]+\-*/^.%]/y],
  ['bad', /[\s\S]/uy],
];

const blanks = /[^\S\r\n]*/y;

/** Every character of the text is in exactly one token or is a blank between two. */
export function tokenize(text: string): Token[] {
  const tokens: Token[] = [];
  let at = 0;
  for (;;) {
    blanks.lastIndex = at;
    blanks.exec(text);
    at = blanks.lastIndex;
    if (at >= text.length) return tokens;
    const token = tokenAt(text, at);
    tokens.push(token);
    at = token.to;
  }
}

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
