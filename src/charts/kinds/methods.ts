import type { Presenter } from './kind.ts';

/** One paragraph, to be taken into an article as it stands. */
export const presentMethods: Presenter<'methods'> = ({ parts }) => [
  { type: 'text', text: parts.map(({ text }) => text).join(' ') },
];
