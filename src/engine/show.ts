import type { Display } from '../charts/display.ts';
import type { Message, Output } from '../charts/output.ts';
import { present } from '../charts/present.ts';
import { outputText } from '../charts/text.ts';
import type { Warning } from '../result/result.ts';
import { unit } from '../units/parse.ts';
import { inUnit } from '../values/inUnit.ts';
import type { Value } from '../values/value.ts';
import { withholdingCodes } from '../values/withheld.ts';
import { convertQuantity } from '../verbs/arithmetic.ts';
import { inFewLines } from '../verbs/each.ts';
import type { StatementError, StatementResult } from './result.ts';

/** On a page each run's own figures can be unfolded, but nobody reads those of a hundred. */
const mostApart = 20;

/** What a reader sees of one statement: its value if it is shown, its warnings and its error always. */
export function show(result: StatementResult, display: Display = {}): Output | undefined {
  const { value, error, warnings, shown, name } = result;
  const withholding = new Set(value?.kind === 'comparison' ? withholdingCodes(value) : []);
  const failed: Message[] = error === undefined ? [] : [failure(error)];
  const messagesOf = (some: readonly Warning[]): Message[] => [
    ...failed,
    ...some.map(({ code, message }) => ({
      ...({ severity: 'warning', code, message } as const),
      ...(withholding.has(code) ? { withholds: true } : {}),
    })),
  ];
  const messages = messagesOf(inFewLines(warnings, mostApart));
  const lines = messagesOf(inFewLines(warnings));
  if (error === undefined && shown && value !== undefined) {
    const output = present(displayed(value, result, display), name, messages, display);
    return lines.length === messages.length ? output : { ...output, text: outputText(name, output.parts, lines) };
  }
  return messages.length > 0 ? messagesOnly(name, messages, lines) : undefined;
}

function failure(error: StatementError): Message {
  const { code, message, line, from, to } = error;
  return { severity: 'error', code, message, where: whereOf(error), at: { line, from, to } };
}

function whereOf({ inCell, line, from, to }: StatementError): string {
  return `${inCell}, line ${line}, ${from === to ? `column ${from}` : `columns ${from} to ${to}`}`;
}

/** In the unit that the reader wants, unless the statement asks for one. */
function displayed(value: Value, { unitAsked }: StatementResult, { acceleration }: Display): Value {
  if (acceleration === undefined || unitAsked === true) return value;
  const wanted = unit(acceleration);
  const found = value.kind === 'quantity' ? convertQuantity(value, wanted) : inUnit(value, wanted);
  return found.ok ? found.value : value;
}

/** @param lines the messages as the text has them */
function messagesOnly(name: string | undefined, messages: readonly Message[], lines: readonly Message[]): Output {
  return { version: 1, name, kind: 'messages', parts: [], messages, text: outputText(name, [], lines) };
}
