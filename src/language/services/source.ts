import type { CheckedNotebook } from '../check.ts';
import { argumentsUnder, type Checked, type CheckedArgument } from '../checked.ts';
import type { Accept } from '../form.ts';
import type { CallOf } from './calls.ts';

/** The file patterns that a value was read from, following names and first operands back to the verb that reads. */
export function sourcesOf(expression: CheckedArgument | undefined, notebook: CheckedNotebook): readonly string[] {
  let at: CheckedArgument | undefined = expression;
  for (let steps = 0; at && steps < 100; steps++) {
    if (at.type === 'name') at = boundTo(at.name, notebook);
    else if (at.type === 'pick' || at.type === 'field' || at.type === 'convert') at = at.of;
    else if (at.type === 'call') {
      const files = filesOf(at, notebook);
      if (files.length > 0) return files;
      const first = notebook.vocabulary.verbs.get(at.verb)?.operands.at(0);
      at = first && argumentsUnder(first.name, at.operands)?.[0];
    } else return [];
  }
  return [];
}

function boundTo(name: string, notebook: CheckedNotebook): Checked | undefined {
  const index = notebook.bindings.get(name);
  return index === undefined ? undefined : notebook.statements[index].expression;
}

/** Whether a place takes the names of files. */
export const takesFiles = ({ accepts }: { readonly accepts: readonly Accept[] }): boolean =>
  accepts.some((accept) => accept.type === 'text' && accept.role === 'files');

/** The arguments in a call's places for files. */
export function fileArguments(call: CallOf, notebook: CheckedNotebook): readonly FileArgument[] {
  const operands = notebook.vocabulary.verbs.get(call.verb)?.operands.filter(takesFiles) ?? [];
  return operands
    .flatMap(({ name }) => argumentsUnder(name, call.operands) ?? [])
    .filter((argument) => argument.type === 'text');
}

type FileArgument = CheckedArgument & { readonly type: 'text' };

/** The texts in a call's places for files. */
export const filesOf = (call: CallOf, notebook: CheckedNotebook): readonly string[] =>
  fileArguments(call, notebook).map(({ text }) => text);
