import type { CheckedNotebook } from '../check.ts';
import { checkPipeline } from '../step.ts';
import { untyped, type Work } from '../work.ts';

/** A check that reports nothing, to learn what a piece of text would be among the names of a notebook. */
export function quietly(notebook: CheckedNotebook, text: string): Work {
  const work: Work = {
    catalogue: notebook.catalogue,
    vocabulary: notebook.vocabulary,
    text,
    report: () => undefined,
    bound: (name) => notebook.bindings.has(name),
    names: () => [...notebook.bindings.keys()],
    note: () => undefined,
    arranged: () => undefined,
    use: (name) => notebook.types.get(name) ?? untyped,
    pipeline: (pipeline) => checkPipeline(pipeline, work),
  };
  return work;
}
