import type { Token } from './tokens.ts';

const goesOn = new Set(['|', ',', '(', '[']);
const isSign = (token: Token | undefined, sign: string): boolean => token?.kind === 'sign' && token.text === sign;

/**
 * Gathers tokens into statements. A statement goes on to the next line when that line begins with `|` or with the end
 * of an open bracket, or when this one ends with `|`, `,` or an open bracket; a comment between does not end it. A blank
 * line, and a line that binds a name, end a half-typed list, so that what follows is not swallowed.
 */
export function statementsOf(tokens: readonly Token[]): readonly (readonly Token[])[] {
  const statements: Token[][] = [];
  let current: Token[] = [];
  let depth = 0;
  for (let i = 0; i < tokens.length; i++) {
    const token = tokens[i];
    if (token.kind === 'comment') continue;
    if (token.kind === 'newline') {
      if (current.length === 0) continue;
      const next = nextPiece(tokens, i);
      if (continues(tokens, next, current.at(-1), depth)) {
        // Comments and line ends up to there are passed over at once: each would look as far ahead.
        i = next.at - 1;
        continue;
      }
      statements.push(current);
      current = [];
      depth = 0;
    } else {
      if (isSign(token, '(') || isSign(token, '[')) depth++;
      if (isSign(token, ')') || isSign(token, ']')) depth--;
      current.push(token);
    }
  }
  if (current.length > 0) statements.push(current);
  return statements;
}

interface NextPiece {
  readonly at: number;
  /** Whether a blank line stands before it. */
  readonly blank: boolean;
}

/** The next token behind a line's end that is no comment. */
function nextPiece(tokens: readonly Token[], newline: number): NextPiece {
  let at = newline;
  let blank = false;
  while (at < tokens.length && (tokens[at].kind === 'newline' || tokens[at].kind === 'comment')) {
    if (tokens[at].kind === 'newline' && at > newline && tokens[at - 1].kind === 'newline') blank = true;
    at++;
  }
  return { at, blank };
}

function continues(
  tokens: readonly Token[],
  { at, blank }: NextPiece,
  last: Token | undefined,
  depth: number,
): boolean {
  const next = tokens.at(at);
  if (!next) return false;
  if (isSign(next, '|')) return true;
  if (depth > 0 && !blank && (isSign(next, ')') || isSign(next, ']'))) return true;
  if (last?.kind !== 'sign' || !goesOn.has(last.text) || blank) return false;
  const binds = next.kind === 'word' && isSign(tokens[at + 1], '=') && tokens[at + 2]?.kind !== 'text';
  return !binds;
}
