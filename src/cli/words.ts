import { parseArgs } from 'node:util';

type Values<Name extends string> = { readonly [K in Name]?: string };

/** The words after a command: its options by name, each with a value, and what stands by itself; or what is wrong. */
export function understandWords<Name extends string>(
  words: readonly string[],
  names: readonly Name[],
): { readonly values: Values<Name>; readonly positionals: readonly string[] } | string {
  const options = Object.fromEntries(names.map((name) => [name, { type: 'string' as const }]));
  try {
    const { values, positionals } = parseArgs({ args: [...words], options, allowPositionals: true });
    return { values: values as Values<Name>, positionals };
  } catch (error) {
    return error instanceof Error ? error.message : String(error);
  }
}
