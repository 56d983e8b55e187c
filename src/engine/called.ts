import type { CheckedStatement } from '../language/checked.ts';

/** What a statement is called where no reader sees its cell: its name, else its verb and the names it uses. */
export function calledOf({ name, expression, uses }: CheckedStatement): string {
  if (name !== undefined) return name.text;
  const verb = expression?.type === 'call' ? [expression.verb] : [];
  return [...verb, ...uses.slice(0, 4)].join('-');
}
