import { figure } from './columns.ts';
import type { Description } from './description.ts';

export interface TextValue {
  readonly kind: 'text';
  readonly text: string;
}

export const textKind = {
  kind: 'text',
  words: 'a text',
  summary: ({ text }) => `"${text}"`,
  whole: [figure('text', '', ({ text }) => text)],
  runs: () => [],
} satisfies Description<TextValue>;
