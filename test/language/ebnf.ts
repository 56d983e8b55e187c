/** A reader of EBNF and a writer of random sentences, for holding a parser against its grammar. */
export type Expression =
  | { readonly type: 'sequence'; readonly of: readonly Expression[] }
  | { readonly type: 'choice'; readonly of: readonly Expression[] }
  | { readonly type: 'optional' | 'repeat'; readonly of: Expression }
  | { readonly type: 'literal' | 'name'; readonly text: string }
  | { readonly type: 'tight' };

export type Rules = ReadonlyMap<string, Expression>;

export function readRules(text: string): Rules {
  const rules = new Map<string, Expression>();
  for (const [, name, body] of text.matchAll(/(\w+)\s*=((?:[^;"]|"[^"]*")*);/g)) rules.set(name, readBody(body));
  return rules;
}

function readBody(body: string): Expression {
  const tokens = body.match(/"[^"]*"|\w+|[[\]{}()|~]/g) ?? [];
  let at = 0;
  const choice = (): Expression => {
    const of = [sequence()];
    while (tokens[at] === '|') {
      at++;
      of.push(sequence());
    }
    return of.length === 1 ? of[0] : { type: 'choice', of };
  };
  const inside = (close: string): Expression => {
    at++;
    const of = choice();
    if (tokens[at++] !== close) throw new Error(`${close} expected in ${body}`);
    return of;
  };
  const sequence = (): Expression => {
    const of: Expression[] = [];
    for (; at < tokens.length && !['|', ']', '}', ')'].includes(tokens[at]);) {
      const token = tokens[at];
      if (token === '[') of.push({ type: 'optional', of: inside(']') });
      else if (token === '{') of.push({ type: 'repeat', of: inside('}') });
      else if (token === '(') of.push(inside(')'));
      else {
        at++;
        if (token === '~') of.push({ type: 'tight' });
        else
          of.push(
            token.startsWith('"') ? { type: 'literal', text: token.slice(1, -1) } : { type: 'name', text: token },
          );
      }
    }
    return { type: 'sequence', of };
  };
  return choice();
}

/** Names that stand on a right side without a rule. */
export function namesWithoutRule(rules: Rules): readonly string[] {
  const names = new Set<string>();
  const visit = (one: Expression): void => {
    if (one.type === 'name' && !rules.has(one.text)) names.add(one.text);
    if (one.type === 'sequence' || one.type === 'choice') one.of.forEach(visit);
    if (one.type === 'optional' || one.type === 'repeat') visit(one.of);
  };
  rules.forEach(visit);
  return [...names].sort();
}

/** Tokens of a random sentence; the empty one marks where no blank may stand. */
export function sentence(
  rules: Rules,
  start: string,
  random: () => number,
  terminal: (name: string) => string,
): readonly string[] {
  const tokens: string[] = [];
  const write = (one: Expression, depth: number): void => {
    switch (one.type) {
      case 'tight':
        return void tokens.push('');
      case 'literal':
        return void tokens.push(one.text);
      case 'name': {
        const rule = rules.get(one.text);
        return rule ? write(rule, depth + 1) : void tokens.push(terminal(one.text));
      }
      case 'sequence':
        return one.of.forEach((part) => write(part, depth));
      case 'choice':
        // Deep down the first choice is the shallow one in most rules; it ends the growth.
        return write(one.of[depth > 14 ? 0 : Math.floor(random() * one.of.length)], depth);
      case 'optional':
        if (depth < 14 && random() < 0.4) write(one.of, depth);
        return;
      case 'repeat':
        for (let i = 0; depth < 14 && i < 3 && random() < 0.4; i++) write(one.of, depth);
    }
  };
  write({ type: 'name', text: start }, 0);
  return tokens;
}
