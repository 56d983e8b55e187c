import type { CheckedNotebook } from '../check.ts';
import type { Place } from '../diagnostic.ts';
import type { Occurrence } from '../work.ts';

/** Standard names of the editor's protocol, so that every theme colours them. */
export const tokenTypes = [
  'keyword',
  'function',
  'variable',
  'parameter',
  'property',
  'enumMember',
  'type',
  'number',
  'string',
  'comment',
  'operator',
  'macro',
] as const;
export const tokenModifiers = ['declaration', 'readonly', 'defaultLibrary'] as const;

export type TokenType = (typeof tokenTypes)[number];

export interface SemanticToken extends Place {
  readonly type: TokenType;
  readonly modifiers: readonly (typeof tokenModifiers)[number][];
}

/** What each piece turned out to be: a word after `channel` is a channel and not a name, whatever it is called. */
export function semanticTokens(notebook: CheckedNotebook, cell: number): readonly SemanticToken[] {
  const { statements, comments } = notebook.cells[cell];
  const tokens: SemanticToken[] = comments.map(({ from, to }) => ({ from, to, type: 'comment', modifiers: [] }));
  const meant = notebook.occurrences.filter((occurrence) => occurrence.cell === cell);
  meant.forEach((occurrence) => tokens.push(tokenOf(occurrence)));
  const covered = meant.map(({ place }) => place).sort((a, b) => a.from - b.from);
  let next = 0;
  for (const { pieces } of statements) {
    for (const { token } of pieces) {
      while (next < covered.length && covered[next].to <= token.from) next++;
      if (next < covered.length && covered[next].from <= token.from) continue;
      const type =
        token.kind === 'number'
          ? 'number'
          : token.kind === 'text'
            ? 'string'
            : token.kind === 'sign' && /[-+*/^|=]|\.\./.test(token.text)
              ? 'operator'
              : undefined;
      if (type) tokens.push({ from: token.from, to: token.to, type, modifiers: [] });
    }
  }
  return tokens.sort((a, b) => a.from - b.from).filter((token, i, all) => i === 0 || token.from >= all[i - 1].to);
}

function tokenOf({ role, place }: Occurrence): SemanticToken {
  const [type, ...modifiers] = looks[role];
  return { from: place.from, to: place.to, type, modifiers };
}

const looks: Readonly<Record<Occurrence['role'], readonly [TokenType, ...(typeof tokenModifiers)[number][]]>> = {
  definition: ['variable', 'declaration', 'readonly'],
  name: ['variable', 'readonly'],
  verb: ['function', 'defaultLibrary'],
  keyword: ['keyword'],
  word: ['enumMember'],
  channel: ['property'],
  function: ['macro', 'defaultLibrary'],
  constant: ['variable', 'readonly', 'defaultLibrary'],
  field: ['property', 'readonly'],
  unit: ['type'],
};
