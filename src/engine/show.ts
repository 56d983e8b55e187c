import type { Message, Output } from '../charts/output.ts';
import { present } from '../charts/present.ts';
import { outputText } from '../charts/text.ts';
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
    return messagesOnly(name, messages);
  }
  if (shown && value !== undefined) return present(value, name, messages);
  return messages.length > 0 ? messagesOnly(name, messages) : undefined;
}

/** Cells are counted from 1 for a reader. */
export function whereOf(cell: number, { line, from, to }: Pick<StatementError, 'line' | 'from' | 'to'>): string {
  return `cell ${cell + 1}, line ${line}, ${from === to ? `column ${from}` : `columns ${from} to ${to}`}`;
}

function messagesOnly(name: string | undefined, messages: readonly Message[]): Output {
  return { version: 1, name, kind: 'messages', parts: [], messages, text: outputText(name, [], messages) };
}
