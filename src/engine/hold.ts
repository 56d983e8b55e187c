import { whyNoRange, whyUnfit, type Asked } from '../language/argument.ts';
import type { Checked, CheckedArgument, CheckedArguments, FunctionForm } from '../language/checked.ts';
import type { Accept, Form } from '../language/form.ts';
import type { Place } from '../language/diagnostic.ts';
import type { LanguageMessage } from '../language/facts.ts';
import { formatNumber, formatQuantity } from '../units/format.ts';
import { catalogue } from '../verbs/catalogue.ts';
import { vocabularyOf } from '../language/vocabulary.ts';
import type { Quantity } from '../units/unit.ts';
import type { Argument, Arguments } from '../verbs/verb.ts';

const { kinds } = vocabularyOf(catalogue);

type Call = Extract<Checked, { type: 'call' }>;
type FunctionCall = Extract<Checked, { type: 'function' }>;

/** What an argument is held against, with its value and its place in the text. */
interface Held {
  readonly argument: Argument;
  readonly node: CheckedArgument;
  readonly accepts: readonly Accept[];
}

/** The first of a call's evaluated arguments that its form does not take, and why; computed or not, the rules are the same. */
export function firstUnfit(
  form: Form,
  call: Call,
  given: Arguments,
): (LanguageMessage & { readonly place: Place }) | undefined {
  const slots = [
    ...form.operands.map(({ name, accepts }) => ({ slot: name, option: false, accepts })),
    ...form.options.map(({ keyword, accepts, parts = [] }) => ({
      slot: keyword,
      option: true,
      accepts: parts.length > 0 ? parts.flatMap((part) => part.accepts) : accepts,
    })),
  ];
  for (const { slot, option, accepts } of slots) {
    const where = { verb: form.verb, slot, option };
    for (const { argument, node, accepts: own } of heldIn(slot, option, accepts, call, given)) {
      const message = whyNot(argument, { where, accepts: own, found: spelled(argument), kinds });
      if (message !== undefined) return { ...message, place: node.place };
    }
  }
  return undefined;
}

/** The first of a function's evaluated arguments that measures something else than its parameter, and why. */
export function firstUnfitParameter(
  { name, parameters }: FunctionForm,
  call: FunctionCall,
  given: readonly Quantity[],
): (LanguageMessage & { readonly place: Place }) | undefined {
  for (const [index, quantity] of given.entries()) {
    const { name: slot, dimension = 'any' } = parameters[Math.min(index, parameters.length - 1)];
    const accepts: readonly Accept[] = [{ type: 'quantity', dimension, signed: true }];
    const asked = { where: { verb: name, slot, option: false }, accepts, found: exactly(quantity), kinds };
    const message = whyNot({ type: 'quantity', quantity }, asked);
    if (message !== undefined) return { ...message, place: call.arguments[index].place };
  }
  return undefined;
}

function heldIn(
  slot: string,
  option: boolean,
  accepts: readonly Accept[],
  call: Call,
  given: Arguments,
): readonly Held[] {
  const pick = <T>(of: { readonly operands: T; readonly options: T }): T => (option ? of.options : of.operands);
  const nodes = pick<CheckedArguments>(call)[slot] ?? [];
  return (pick<Arguments['operands']>(given)[slot] ?? []).flatMap((argument, index) => {
    const node = nodes[index];
    if (argument.type !== 'group' || node.type !== 'group') return [{ argument, node, accepts }];
    return argument.parts.map((part, k) => ({ argument: part, node: node.parts[k], accepts }));
  });
}

/** Words, texts and units stand in the text as they are, where the checker has held them. */
function whyNot(argument: Argument, asked: Asked): LanguageMessage | undefined {
  switch (argument.type) {
    case 'quantity': {
      const { quantity } = argument;
      return whyUnfit({ kind: 'quantity', dimension: quantity.unit.dimension, constant: quantity }, asked);
    }
    case 'value':
      return whyUnfit({ kind: argument.value.kind, dimension: undefined, constant: undefined }, asked);
    case 'range':
      return whyNoRange(argument.from, argument.to, asked, `${exactly(argument.to)}..${exactly(argument.from)}`);
    case 'word':
    case 'text':
    case 'unit':
    case 'group':
      return undefined;
  }
}

function spelled(argument: Argument): string {
  if (argument.type === 'quantity') return exactly(argument.quantity);
  if (argument.type === 'range') return `${exactly(argument.from)}..${exactly(argument.to)}`;
  return argument.type === 'value' ? (argument.name ?? 'what stands here') : '';
}

/** To six digits, or to as many as it takes to show that it is no whole number. */
function exactly(quantity: Quantity): string {
  const whole = Number.isInteger(Number(formatNumber(quantity.value, 6)));
  return formatQuantity(quantity, whole && !Number.isInteger(quantity.value) ? 17 : 6);
}
