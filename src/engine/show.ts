import type { Message, Output } from '../charts/output.ts';
import { present, presentMessages } from '../charts/present.ts';
import type { StatementError, StatementResult } from './result.ts';

/** What a reader sees of one statement: its value if it is shown, its warnings and its error always. */
export function show(result: StatementResult): Output | undefined {
  const { value, error, warnings, shown, name } = result;
  const messages: Message[] = warnings.map(({ code, message }) => ({ severity: 'warning', code, message }));
  if (error !== undefined) {
    messages.unshift({
      severity: 'error',
      code: error.code,
      message: error.message,
      where: whereOf(result.cell, error),
    });
    return presentMessages(name, messages);
  }
  if (shown && value !== undefined) return present(value, name, messages);
  return messages.length > 0 ? presentMessages(name, messages) : undefined;
}

/** Cells are counted from 1 for a reader. */
export function whereOf(cell: number, { line, from, to }: Pick<StatementError, 'line' | 'from' | 'to'>): string {
  return `cell ${cell + 1}, line ${line}, ${from === to ? `column ${from}` : `columns ${from} to ${to}`}`;
}
