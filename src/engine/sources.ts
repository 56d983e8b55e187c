import { success, type Result } from '../result/result.ts';
import type { CheckedNotebook } from '../language/check.ts';
import type { Checked, CheckedStatement } from '../language/checked.ts';
import { callsIn } from '../language/services/calls.ts';
import { verbNamed } from '../verbs/catalogue.ts';
import type { Argument, Arguments, Source } from '../verbs/verb.ts';
import type { Files } from '../values/ports.ts';
import { literalArgument } from './arguments.ts';

type Call = Extract<Checked, { type: 'call' }>;

/** The expressions of statements, of those that have one. */
export const expressionsOf = (statements: Iterable<Pick<CheckedStatement, 'expression'>>): readonly Checked[] =>
  [...statements].flatMap(({ expression }) => expression ?? []);

/** The raw files that a call reads, or why they can't be told; undefined for a verb that reads none. */
export async function sourcesOf(call: Call, files: Files): Promise<Result<readonly Source[]> | undefined> {
  const sources = await verbNamed(call.verb)?.sources?.(literals(call), files);
  if (sources?.ok !== true || isLiteral(call)) return sources;
  // How the files are read is known only once all arguments are.
  return success(sources.value.map(({ path }) => ({ path })));
}

/** The files of all recordings that a notebook's calls read, each once, in the order of the text. */
export async function recordingsIn({ statements }: CheckedNotebook, files: Files): Promise<Result<readonly string[]>> {
  const paths = new Set<string>();
  for (const call of expressionsOf(statements).flatMap(callsIn)) {
    const verb = verbNamed(call.verb);
    const list = await verb?.lists?.(literals(call), files);
    // The statement of a call whose files can't be found says why.
    if (list?.ok === true) for (const { wanted } of list.value.recordings) paths.add(wanted.path);
  }
  return success([...paths]);
}

/**
 * Lists the files of all calls before any is read, for files that list once: what one pattern has found and is deleted before
 * another is looked for would else be missing in the second set alone, without a word. So its reading fails.
 */
export async function listBeforehand(expressions: readonly Checked[], files: Files): Promise<void> {
  const calls = expressions.flatMap(callsIn);
  // Why a call's files can't be listed is told where it is evaluated.
  await Promise.all(calls.map((call) => sourcesOf(call, files).catch(() => undefined)));
}

const isLiteral = ({ operands, options }: Call): boolean =>
  [...Object.values(operands), ...Object.values(options)].flat().every((node) => literalArgument(node) !== undefined);

function literals(call: Call): Arguments {
  const kept = (given: Call['operands']): Record<string, Argument[]> =>
    Object.fromEntries(
      Object.entries(given).map(([name, nodes]) => [name, nodes.flatMap((node) => literalArgument(node) ?? [])]),
    );
  return { operands: kept(call.operands), options: kept(call.options) };
}
