import { parseArgs, type ParseArgsConfig } from 'node:util';
import { success, type Result } from '../result/result.ts';
import { refuse } from './messages.ts';
import { reasonOfException } from '../result/environment.ts';

type Options = NonNullable<ParseArgsConfig['options']>;
type Parsed<T extends Options> = ReturnType<typeof parseArgs<{ options: T; allowPositionals: true }>>;

/** The arguments after a command: its options by name, and what stands by itself. */
export function parsed<const T extends Options>(args: readonly string[], options: T): Result<Parsed<T>> {
  try {
    return success<Parsed<T>>(parseArgs({ args: [...args], options, allowPositionals: true }));
  } catch (error) {
    return refuse('usage.options', { reason: reasonOfException(error) });
  }
}

/** Options that take a text each. */
export const texts = <Name extends string>(...names: readonly Name[]): Record<Name, { readonly type: 'string' }> =>
  Object.fromEntries(names.map((name) => [name, { type: 'string' }])) as Record<Name, { readonly type: 'string' }>;

/** What every command that runs a notebook takes. */
export const projectOptions = {
  ...texts('root', 'jobs', 'cache'),
  'no-cache': { type: 'boolean' },
  'no-git': { type: 'boolean' },
} as const;

export interface ProjectOptions {
  readonly root?: string | undefined;
  readonly jobs?: string | undefined;
  readonly cache?: string | undefined;
  readonly 'no-cache'?: boolean | undefined;
  readonly 'no-git'?: boolean | undefined;
}
