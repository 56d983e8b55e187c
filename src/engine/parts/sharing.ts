import type { CheckedNotebook } from '../../language/check.ts';
import type { CheckedArgument } from '../../language/checked.ts';
import { partsOf } from '../../language/partsOf.ts';
import type { Failure } from '../../result/result.ts';
import type { EvaluationContext, Sharing } from '../evaluation.ts';
import { chainOf } from './chain.ts';
import { Making } from './making.ts';

type Asking = Parameters<typeof chainOf>[1];

/**
 * Works on the recordings of a share in each chain of a notebook's statements, and keeps what they give.
 * @param context in which names have the values of all recordings
 * @returns what the system refused
 */
export async function workOnShare(
  { order, statements }: Pick<CheckedNotebook, 'order' | 'statements'>,
  context: EvaluationContext,
  { isOwn, inner }: Pick<Asking, 'inner'> & { readonly isOwn: (path: string) => boolean },
): Promise<readonly Failure[]> {
  const failures: Failure[] = [];
  const sharing = { part: 'share', isOwn, onFailure: (failure: Failure) => void failures.push(failure) } as const;
  const sound = order
    .map((index) => statements[index])
    .filter(({ problems }) => !problems.some(({ severity }) => severity === 'error'));
  for (const { expression } of sound)
    if (expression !== undefined) await workOn(expression, { ...context, sharing, isBound: () => true }, inner);
  return failures;
}

async function workOn(node: CheckedArgument, context: EvaluationContext, inner: Asking['inner']): Promise<void> {
  if (node.type === 'call') {
    const chain = await chainOf(node, { context, inner });
    if (chain !== undefined) {
      await new Making(chain, context).all();
      return;
    }
  }
  for (const part of partsOf(node)) await workOn(part, context, inner);
}

/** Collects what the shares kept. @param tell is told of recordings of which nothing is kept */
export function collecting(tell: (path: string) => void): Sharing {
  let isShort = false;
  const missing = (path: string): void => {
    isShort = true;
    tell(path);
  };
  return { part: 'collect', onMissing: missing, isShort: () => isShort };
}
