import { negate, root } from '../units/arithmetic.ts';
import { combine, isNumber, isSquaredRate, raise, sameDimension, settled, dimensionOf } from '../units/dimension.ts';
import { canExpress, express } from '../units/express.ts';
import { nearest } from '../units/nearest.ts';
import { operate, withTurn } from '../units/operate.ts';
import { one, parseUnit } from '../units/parse.ts';
import type { Dimension, Quantity, Unit } from '../units/unit.ts';
import type { Checked, FunctionForm } from './checked.ts';
import { constants } from './constants.ts';
import { measures } from './argument.ts';
import { checkCoverage, checkUncertain } from './uncertain.ts';
import { describeKind } from './describe.ts';
import type { Place } from './diagnostic.ts';
import { changeTo } from './messages.ts';
import type {
  Amount,
  Binary,
  Bracket,
  Call,
  Convert,
  Expression,
  Field,
  Missing,
  Pick,
  UnitName,
  Word,
} from './tree.ts';
import { untyped, type Typed, type Work } from './work.ts';

type Named = { readonly text: string; readonly place: Place };

const quantityTyped = (checked: Checked | undefined, dimension?: Dimension, constant?: Quantity): Typed => ({
  checked,
  kind: 'quantity',
  dimension,
  constant,
});

/** Checks a value written as arithmetic over quantities, names, fields and functions. */
export function checkExpression(node: Expression, work: Work): Typed {
  switch (node.type) {
    case 'word':
      return checkName(node, work);
    case 'number':
      return checkAmount(node, work);
    case 'text':
      return { ...untyped, checked: { type: 'text', text: node.text, place: node.place }, kind: 'text' };
    case 'negative': {
      const of = checkArithmetic(node.of, work);
      const checked: Checked | undefined = of.checked && { type: 'negative', of: of.checked, place: node.place };
      return quantityTyped(checked, of.dimension, of.constant && negate(of.constant));
    }
    case 'binary':
      return checkBinary(node, work);
    case 'uncertain':
      return checkUncertain(node, work, parts);
    case 'coverage':
      return checkCoverage(node, work, parts);
    case 'convert':
      return checkConvert(node, work);
    case 'call':
      return checkFunction(node, work);
    case 'pick':
      return checkPick(node, work);
    case 'field':
      return checkField(node, work);
    case 'bracket':
      return checkBracket(node, work);
    case 'missing':
      return untyped;
  }
}

/** What the checks of uncertainties need of this file. */
const parts = { arithmetic: checkArithmetic, amount: checkAmount };

const checkBracket = (node: Bracket, work: Work): Typed => work.pipeline(node.inner);

function checkName({ text: name, place }: Word, work: Work): Typed {
  if (work.bound(name)) {
    work.note({ role: 'name', name, place });
    return { ...work.use(name), checked: { type: 'name', name, place } };
  }
  if (Object.hasOwn(constants, name)) {
    const constant = constants[name];
    work.note({ role: 'constant', name, place });
    return quantityTyped({ type: 'quantity', quantity: constant, place }, constant.unit.dimension, constant);
  }
  const { verbs, functions } = work.vocabulary;
  const form = functions.get(name);
  const parts = name.split('-');
  if (verbs.has(name)) work.report('verb.place', place, { verb: name });
  else if (form) work.report('function.arguments', place, { name, wanted: wantedArguments(form), found: 0 });
  else if (parts.length > 1 && parts.every((part) => work.bound(part))) {
    const instead = parts.join(' - ');
    work.report('operand.minus', place, { found: name, instead }, [changeTo(instead, place)]);
  } else {
    const near = nearest(name, [...work.names(), ...Object.keys(constants)]);
    const fixes = near.map((word) => changeTo(word, place));
    work.note({ role: 'name', name, place });
    work.report('name.unknown', place, { name, nearest: near }, fixes);
  }
  return untyped;
}

export function checkUnit({ text, place }: Named, work: Work): Unit | undefined {
  const parsed = parseUnit(text);
  work.note({ role: 'unit', unit: text, place });
  if (parsed.ok) return parsed.unit;
  const whole = (word: string): string =>
    word.includes('/') || parsed.unknown === '' ? word : text.replace(parsed.unknown, word);
  const fixes = parsed.nearest.map((word) => changeTo(whole(word), place));
  work.report('unit.unknown', place, { unit: text, nearest: parsed.nearest.map(whole) }, fixes);
  return undefined;
}

function checkAmount(node: Amount, work: Work): Typed {
  const unit = node.unit ? checkUnit(node.unit, work) : one;
  if (!Number.isFinite(node.value)) {
    work.report('arithmetic.finite', node.place, {});
    return quantityTyped(undefined);
  }
  if (!unit) return quantityTyped(undefined);
  const quantity = { value: node.value, unit };
  return quantityTyped({ type: 'quantity', quantity, place: node.place }, unit.dimension, quantity);
}

/** A part of arithmetic has to be a quantity. */
function checkArithmetic(node: Expression, work: Work): Typed {
  const typed = checkExpression(node, work);
  if (typed.kind === undefined || typed.kind === 'quantity') return typed;
  work.report('arithmetic.kind', node.place, {
    found: work.text.slice(node.place.from, node.place.to),
    kind: describeKind(typed.kind, work.vocabulary.kinds),
  });
  return untyped;
}

function checkBinary(node: Binary, work: Work): Typed {
  const left = checkArithmetic(node.left, work);
  const right = checkArithmetic(node.right, work);
  const { operator, place } = node;
  const checked: Checked | undefined = left.checked &&
    right.checked && { type: 'binary', operator, left: left.checked, right: right.checked, place };
  if (left.constant && right.constant) {
    const done = operate(operator, left.constant, right.constant);
    if (done.ok) return quantityTyped(checked, done.quantity.unit.dimension, done.quantity);
    refuse(done.reason, node, left.constant.unit.dimension, right.constant.unit.dimension, work);
    return quantityTyped(undefined);
  }
  // A factor that is 2 pi counts as a turn beside what else is only known when it runs.
  const [a, b] = [left, right].map(({ dimension, constant }) => dimension && { dimension, constant });
  const [first, second] = a && b ? withTurn(operator, a, b) : [a, b];
  return binaryDimension(node, first?.dimension, second?.dimension, checked, work);
}

function binaryDimension(
  node: Binary,
  left: Dimension | undefined,
  right: Dimension | undefined,
  checked: Checked | undefined,
  work: Work,
): Typed {
  if (!left || !right) return quantityTyped(checked);
  switch (node.operator) {
    case '+':
    case '-':
      if (sameDimension(left, right)) return quantityTyped(checked, left);
      refuse('dimension', node, left, right, work);
      return quantityTyped(undefined);
    case '^':
      if (isNumber(right)) return quantityTyped(checked, isNumber(left) ? left : undefined);
      refuse('exponent', node, left, right, work);
      return quantityTyped(undefined);
    case '*':
      return quantityTyped(checked, settled(combine(left, right, 1)));
    case '/':
      return quantityTyped(checked, settled(combine(left, right, -1)));
  }
}

function refuse(
  reason: 'dimension' | 'level' | 'exponent' | 'zero' | 'finite',
  node: Binary,
  left: Dimension,
  right: Dimension,
  work: Work,
): void {
  if (reason === 'dimension') work.report('arithmetic.dimension', node.place, { operator: node.operator, left, right });
  else if (reason === 'exponent') work.report('arithmetic.exponent', node.right.place, { dimension: right });
  else work.report(`arithmetic.${reason}`, node.place, {});
}

const checkConvert = (node: Convert, work: Work): Typed =>
  converted(checkExpression(node.of, work), node.unit, node.place, work);

/** A value in the unit that is asked for: a quantity, or runs and results whose figures have one. */
export function converted(of: Typed, name: UnitName | Missing, place: Place, work: Work): Typed {
  const unit = name.type === 'missing' ? undefined : checkUnit(name, work);
  const isValue = of.kind !== undefined && of.kind !== 'quantity';
  if (isValue && work.vocabulary.kinds.get(of.kind)?.units === false) {
    work.report('convert.kind', place, { kind: describeKind(of.kind, work.vocabulary.kinds) });
    return untyped;
  }
  if (!unit) return isValue ? { ...of, checked: undefined } : quantityTyped(undefined);
  if (isValue) return { ...of, checked: of.checked && { type: 'convert', of: of.checked, unit, place } };
  if (of.dimension && !canExpress(of.dimension, unit)) {
    work.report('convert.dimension', name.place, {
      unit: unit.symbol,
      wanted: unit.dimension,
      found: of.dimension,
    });
    return quantityTyped(undefined);
  }
  const checked: Checked | undefined = of.checked && { type: 'convert', of: of.checked, unit, place };
  return quantityTyped(checked, unit.dimension, of.constant && express(of.constant, unit));
}

/** How a function is written: `max(x, …)`. */
export const wantedArguments = ({ name, parameters, variadic }: FunctionForm): string =>
  `${name}(${parameters.map((parameter) => parameter.name).join(', ')}${variadic ? ', …' : ''})`;

function checkFunction(node: Call, work: Work): Typed {
  const form = work.vocabulary.functions.get(node.name.text);
  const values = node.arguments.map((argument) => checkArithmetic(argument, work));
  if (!form) {
    unknownFunction(node.name, work);
    return untyped;
  }
  work.note({ role: 'function', form, place: node.name.place });
  const least = form.parameters.length;
  const counted = node.arguments.length >= least && (form.variadic || node.arguments.length === least);
  if (!counted) {
    const broken = node.arguments.some(({ type }) => type === 'missing');
    if (!broken)
      work.report('function.arguments', node.place, {
        name: form.name,
        wanted: wantedArguments(form),
        found: node.arguments.length,
      });
    return quantityTyped(undefined);
  }
  const sound = values.every((value) => value.checked !== undefined) && argumentsFit(node, form, values, work);
  const checked: Checked | undefined = sound
    ? { type: 'function', name: form.name, arguments: values.map((value) => value.checked!), place: node.place }
    : undefined;
  return quantityTyped(checked, dimensionOfCall(form, values), constantOfCall(form, values));
}

function unknownFunction({ text, place }: Word, work: Work): void {
  if (work.vocabulary.verbs.has(text)) work.report('verb.bracket', place, { verb: text });
  else {
    const near = nearest(text, [...work.vocabulary.functions.keys()]);
    const fixes = near.map((word) => changeTo(word, place));
    work.report('function.unknown', place, { name: text, nearest: near }, fixes);
  }
}

function argumentsFit(node: Call, form: FunctionForm, values: readonly Typed[], work: Work): boolean {
  let fit = true;
  values.forEach(({ dimension }, i) => {
    const parameter = form.parameters.at(Math.min(i, form.parameters.length - 1));
    const wanted = parameter?.dimension;
    if (!wanted || !dimension || measures(dimension, [wanted])) return;
    const { place } = node.arguments[i];
    const where = { verb: form.name, slot: parameter.name, option: false };
    work.report('unit.dimension', place, {
      where,
      wanted: [wanted],
      found: work.text.slice(place.from, place.to),
      dimension,
      unit: '',
    });
    fit = false;
  });
  return fit;
}

function dimensionOfCall({ gives }: FunctionForm, values: readonly Typed[]): Dimension | undefined {
  if (gives === undefined || gives === 'any') return undefined;
  const first = values[0]?.dimension;
  if (gives === 'same') return first;
  // Of a squared rate only the unit says whether the root is in Hz or rad/s.
  if (gives === 'root') return first === undefined || isSquaredRate(first) ? undefined : raise(first, 0.5);
  return dimensionOf(gives);
}

/** Only the root is worked out here: it stands in the natural frequencies that people mark in charts. */
const constantOfCall = ({ gives }: FunctionForm, values: readonly Typed[]): Quantity | undefined =>
  gives === 'root' && values[0]?.constant && values[0].constant.value >= 0 ? root(values[0].constant) : undefined;

function checkPick(node: Pick, work: Work): Typed {
  const of = checkExpression(node.of, work);
  const { kinds } = work.vocabulary;
  if (of.kind && kinds.get(of.kind)?.picks === false) {
    work.report('pick.kind', node.place, {
      found: work.text.slice(node.of.place.from, node.of.place.to),
      kind: describeKind(of.kind, kinds),
    });
    return untyped;
  }
  if (node.index.type === 'missing' || !of.checked) return { ...untyped, kind: of.kind };
  const index = node.index.value;
  if (!Number.isInteger(index) || index < 1) {
    work.report('pick.index', node.index.place, { found: work.text.slice(node.index.place.from, node.index.place.to) });
    return { ...untyped, kind: of.kind };
  }
  return { ...of, checked: { type: 'pick', of: of.checked, index, place: node.place } };
}

function checkField(node: Field, work: Work): Typed {
  const of = checkExpression(node.of, work);
  if (node.field.type === 'missing') return untyped;
  const name = node.field.text;
  const { place } = node.field;
  const fields = of.kind ? (work.vocabulary.kinds.get(of.kind)?.fields ?? []) : undefined;
  const field = fields?.find((form) => form.name === name);
  if (fields && !field && of.kind) {
    const known = fields.map((form) => form.name);
    const near = nearest(name, known);
    const fixes = near.map((word) => changeTo(word, place));
    work.report(
      'field.unknown',
      place,
      { field: name, kind: describeKind(of.kind, work.vocabulary.kinds), known, nearest: near },
      fixes,
    );
    return untyped;
  }
  if (field && of.kind) work.note({ role: 'field', kind: of.kind, field, place });
  const checked: Checked | undefined = of.checked && { type: 'field', of: of.checked, field: name, place: node.place };
  const dimension = field?.dimension && field.dimension !== 'any' ? dimensionOf(field.dimension) : undefined;
  return { checked, kind: field ? (field.kind ?? 'quantity') : undefined, dimension, constant: undefined };
}
