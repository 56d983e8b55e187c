import type { CheckedStatement } from '../language/checked.ts';

/** What a statement is called where no reader sees its cell: its name, else its verb and the names it uses. */
export function calledOf({ name, expression, uses }: CheckedStatement): string {
  if (name !== undefined) return name.text;
  const shown = expression?.type === 'convert' ? expression.of : expression;
  const verb = shown?.type === 'call' ? [shown.verb] : [];
  return [...verb, ...uses.slice(0, 4)].join('-');
}
