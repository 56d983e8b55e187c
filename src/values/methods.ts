import { figure } from './columns.ts';
import type { Description } from './description.ts';
import type { Run } from './run.ts';

/** How results were come by: the paragraph that an article needs. */
export interface MethodsValue {
  readonly kind: 'methods';
  readonly parts: readonly MethodsPart[];
  readonly runs: readonly Run[];
}

/** What is said of one thing: `instruments`, `runs`, `order`, `exclusions`, `processing`, `statistics`, `software`. */
export interface MethodsPart {
  readonly about: string;
  /** Whole sentences. */
  readonly text: string;
}

export const methodsKind = {
  kind: 'methods',
  words: 'a methods paragraph',
  summary: () => 'a methods paragraph',
  caption: () => 'Methods',
  whole: [],
  rows: {
    key: 'parts',
    of: ({ parts }) => parts,
    each: ['part', 'a part'],
    names: [figure('about', '', ({ about }) => about)],
    columns: [figure('text', '', ({ text }) => text)],
  },
  runs: ({ runs }) => runs,
} satisfies Description<MethodsValue, MethodsPart>;
