import type { Checked } from '../language/checked.ts';
import { verbNamed } from '../verbs/catalogue.ts';
import type { Argument, Files, Given, SourceList } from '../verbs/verb.ts';
import { literalArgument } from './evaluate.ts';

type Call = Extract<Checked, { type: 'call' }>;

/** The raw files that a call reads, or why they can't be told; undefined for a verb that reads none. */
export async function sourcesOf(call: Call, files: Files): Promise<SourceList | undefined> {
  return verbNamed(call.verb)?.sources?.(literals(call), files);
}

function literals(call: Call): Given {
  const kept = (given: Call['operands']): Record<string, Argument[]> =>
    Object.fromEntries(
      Object.entries(given).map(([name, nodes]) => [name, nodes.flatMap((node) => literalArgument(node) ?? [])]),
    );
  return { operands: kept(call.operands), options: kept(call.options) };
}
