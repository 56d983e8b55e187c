import { inSI } from '../units/arithmetic.ts';
import { dimensionOf, sameDimension } from '../units/dimension.ts';
import { formatQuantity } from '../units/format.ts';
import { nearest } from '../units/nearest.ts';
import { unit as unitNamed } from '../units/parse.ts';
import type { Quantity } from '../units/unit.ts';
import type { Arrangement, Entry, Standing } from './arrange.ts';
import type { Checked, CheckedArgument } from './checked.ts';
import { changeTo, checkExpression, checkUnit } from './expression.ts';
import { sliceOf } from './fit.ts';
import type { Accept, DimensionName, Form, ValueKind } from './form.ts';
import type { Fix } from './problem.ts';
import { checkRange } from './ranges.ts';
import type { Expression, Operand } from './tree.ts';
import type { Where } from './trouble.ts';
import { usualUnit } from './usual.ts';
import { kindsOf, wrong, type Typed, type Work } from './work.ts';

/** Checks a verb's arrangement into a call; undefined where something in it is wrong. */
export function checkCall(arrangement: Arrangement, piped: Typed | undefined, work: Work): Typed {
  const { form, place, to } = arrangement;
  const operands: Record<string, CheckedArgument[]> = {};
  const options: Record<string, CheckedArgument[]> = {};
  let sound = true;
  let first: Typed | undefined = piped;
  const keep = (list: CheckedArgument[], argument: CheckedArgument | undefined): void => {
    if (argument) list.push(argument);
    else sound = false;
  };
  if (arrangement.named) work.mention({ role: 'verb', form, place });
  arrangement.keywords.forEach((keyword) =>
    work.mention({ role: 'keyword', form, keyword: keyword.text, place: keyword.place }),
  );
  form.operands.forEach((operand, index) => {
    const where: Where = { verb: form.verb, slot: operand.name, option: false };
    const list: CheckedArgument[] = [];
    if (piped && index === 0) keep(list, pipedArgument(piped, arrangement, operand.accepts, where, work));
    for (const entry of arrangement.operands.get(operand.name) ?? []) {
      const typed = checkEntry(entry, where, form, work);
      if (index === 0) first ??= typed;
      keep(list, typed.argument);
    }
    if (list.length > 0) operands[operand.name] = list;
  });
  for (const option of form.options) {
    const standings = arrangement.options.get(option.keyword);
    if (!standings) continue;
    const list = (options[option.keyword] = [] as CheckedArgument[]);
    for (const standing of standings) {
      const where: Where = { verb: form.verb, slot: option.keyword, option: true };
      const given = standing.entries.map((entry) => checkEntry(entry, where, form, work).argument);
      if (option.parts) keep(list, groupOf(standing, given));
      else given.forEach((argument) => keep(list, argument));
    }
  }
  const kind = form.gives === 'same' ? first?.kind : form.gives;
  const checked: Checked | undefined = sound
    ? { type: 'call', verb: form.verb, place: { from: place.from, to }, operands, options }
    : undefined;
  return { checked, kind, dimension: undefined, constant: undefined };
}

function groupOf({ keyword }: Standing, given: readonly (CheckedArgument | undefined)[]): CheckedArgument | undefined {
  const parts = given.filter((part): part is Checked => part !== undefined && part.type !== 'group');
  if (parts.length !== given.length || parts.length === 0) return undefined;
  return { type: 'group', parts, place: { from: keyword.place.from, to: parts[parts.length - 1].place.to } };
}

function pipedArgument(
  piped: Typed,
  arrangement: Arrangement,
  accepts: readonly Accept[],
  where: Where,
  work: Work,
): Checked | undefined {
  if (!piped.checked) return undefined;
  const fits = checkKind(piped, accepts, where, arrangement.place, 'what comes down the pipe', false, work);
  return fits ? piped.checked : undefined;
}

type Argued = Typed & { readonly argument: CheckedArgument | undefined };

const argued = (
  argument: CheckedArgument | undefined,
  { checked, kind, dimension, constant }: Typed = wrong,
): Argued => ({
  checked,
  kind,
  dimension,
  constant,
  argument,
});

function checkEntry(entry: Entry, where: Where, form: Form, work: Work): Argued {
  const { node, accept, accepts, inner } = entry;
  if (inner) {
    const typed = checkCall(inner, undefined, work);
    return argued(typed.checked, typed);
  }
  const refuse = (): Argued => {
    if (node.type !== 'missing')
      work.report('operand.wrong', node.place, { where, accepts, found: sliceOf(work.text, node) });
    return argued(undefined);
  };
  switch (accept.type) {
    case 'value':
      return isExpression(node) ? checkValue(node, accepts, where, work) : refuse();
    case 'quantity':
    case 'number':
    case 'integer':
      return isExpression(node) ? checkSize(node, accept, accepts, where, work) : refuse();
    case 'range':
      return node.type === 'range' ? argued(checkRange(node, dimensionsOf(accepts, 'range'), where, work)) : refuse();
    case 'text':
      return node.type === 'text'
        ? argued({ type: 'text', text: node.text, place: node.place })
        : (unquoted(node, work) ?? refuse());
    case 'word':
      return checkWord(node, accepts, where, form, work) ?? refuse();
    case 'channel':
      return checkChannel(node, form, work) ?? refuse();
    case 'unit':
      return checkUnitName(node, accept.dimension, where, work) ?? refuse();
    case 'step':
      return refuse();
  }
}

/** A text without its quotes, up to the next blank: `load raw/a.csv`; undefined for what begins with a quote, too. */
function unquoted(node: Operand, work: Work): Argued | undefined {
  const found = /^[^\s,"|]*/.exec(work.text.slice(node.place.from))![0];
  if (node.type === 'missing' || found === '') return undefined;
  const place = { from: node.place.from, to: Math.max(node.place.to, node.place.from + found.length) };
  const written = work.text.slice(place.from, place.to);
  const instead = `"${written}"`;
  work.report('text.quotes', place, { found: written, instead }, [
    { title: `Put ${written} in quotes`, place, text: instead },
  ]);
  return argued(undefined);
}

const isExpression = (node: Operand): node is Expression => !['range', 'assigned', 'unit', 'stray'].includes(node.type);

function checkValue(node: Expression, accepts: readonly Accept[], where: Where, work: Work): Argued {
  const typed = checkExpression(node, work);
  const fits = !typed.checked || checkKind(typed, accepts, where, node.place, sliceOf(work.text, node), true, work);
  return argued(fits ? typed.checked : undefined, typed);
}

/** Whether a value's kind is one of those accepted, or unknown. */
function checkKind(
  typed: Typed,
  accepts: readonly Accept[],
  where: Where,
  place: Operand['place'],
  found: string,
  wrap: boolean,
  work: Work,
): boolean {
  const wanted = kindsOf(accepts);
  const { kind } = typed;
  if (kind === undefined || wanted.includes(kind)) return true;
  const verb = wrap && kind !== 'quantity' && kind !== 'text' ? bridge(kind, wanted, work) : undefined;
  const instead = verb && `(${verb} ${found})`;
  work.report(
    'kind.mismatch',
    place,
    { where, wanted, kind, found, instead },
    instead === undefined ? undefined : [changeTo(instead, place)],
  );
  return false;
}

/** The one verb that makes what is wanted of what is there, needing nothing else. */
function bridge(from: ValueKind, wanted: readonly ValueKind[], work: Work): string | undefined {
  const bridges = work.catalogue.verbs.filter(
    ({ gives, operands }) =>
      wanted.includes(gives) &&
      operands[0] &&
      kindsOf(operands[0].accepts).includes(from) &&
      operands.slice(1).every(({ optional }) => optional),
  );
  return bridges.length === 1 ? bridges[0].verb : undefined;
}

type SizeAccept = Extract<Accept, { type: 'quantity' | 'number' | 'integer' }>;

/** The dimensions that a place takes, from all the ways in which it may be given. */
const dimensionsOf = (accepts: readonly Accept[], type: 'quantity' | 'range'): readonly DimensionName[] =>
  accepts.flatMap((accept) =>
    accept.type === type ? [(accept as Extract<Accept, { type: 'quantity' | 'range' }>).dimension] : [],
  );

/** A quantity, number or whole number: its kind, dimension and bounds, as far as they can be told. */
function checkSize(node: Expression, accept: SizeAccept, accepts: readonly Accept[], where: Where, work: Work): Argued {
  const typed = checkExpression(node, work);
  const found = sliceOf(work.text, node);
  const withQuantity: readonly Accept[] = [...accepts, { type: 'value', kinds: ['quantity'] }];
  if (!typed.checked || !checkKind(typed, withQuantity, where, node.place, found, false, work))
    return argued(undefined, typed);
  const dimensions = accept.type === 'quantity' ? dimensionsOf(accepts, 'quantity') : (['ratio'] as const);
  const fits =
    dimensionFits(node, typed, dimensions, where, work) && boundsFit(node, typed.constant, accept, where, work);
  return argued(fits ? typed.checked : undefined, typed);
}

function dimensionFits(
  node: Expression,
  typed: Typed,
  wanted: readonly DimensionName[],
  where: Where,
  work: Work,
): boolean {
  const { dimension } = typed;
  if (!dimension || wanted.some((name) => name === 'any' || sameDimension(dimension, dimensionOf(name)))) return true;
  const found = sliceOf(work.text, node);
  const unit = usualUnit(wanted[0]);
  if (node.type !== 'number' || node.unit) {
    work.report('unit.dimension', node.place, { where, wanted, found, dimension, unit }, unitFixes(node, wanted[0]));
    return false;
  }
  const decimal = /^,(\d+)/.exec(work.text.slice(node.place.to));
  if (decimal) {
    const place = { from: node.place.from, to: node.place.to + decimal[0].length };
    const instead = `${found}.${decimal[1]}`;
    work.report('number.comma', place, { found: found + decimal[0], instead }, [changeTo(instead, place)]);
  } else {
    const end = { from: node.place.to, to: node.place.to };
    const fixes = unit ? [{ title: `Add the unit ${unit}`, place: end, text: ` ${unit}` }] : [];
    work.report('unit.missing', node.place, { where, wanted: wanted[0], found, unit }, fixes);
  }
  return false;
}

/** A gram where a mass is wanted is the usual slip: `g` is gravity. */
function unitFixes(node: Expression, wanted: DimensionName): readonly Fix[] | undefined {
  if (node.type !== 'number' || !node.unit) return undefined;
  const gram = wanted === 'mass' && node.unit.text === 'g';
  const unit = gram ? 'gram' : usualUnit(wanted);
  return unit ? [changeTo(unit, node.unit.place)] : undefined;
}

function boundsFit(
  node: Expression,
  constant: Quantity | undefined,
  accept: SizeAccept,
  where: Where,
  work: Work,
): boolean {
  if (!constant) return true;
  const value = inSI(constant);
  const unit = constant.unit;
  const found = sliceOf(work.text, node);
  const signed = accept.type !== 'quantity' || accept.signed === true;
  const least = accept.least ?? (signed ? undefined : 0);
  const percent =
    accept.type === 'quantity' &&
    accept.dimension === 'ratio' &&
    unit.symbol === '' &&
    accept.most !== undefined &&
    value / 100 <= accept.most;
  const shown = (bound: number): string =>
    percent
      ? formatQuantity({ value: bound * 100, unit: unitNamed('%') })
      : formatQuantity({ value: bound / unit.factor, unit });
  const instead = percent ? `${found} %` : undefined;
  if (accept.type === 'integer' && !Number.isInteger(value)) work.report('value.integer', node.place, { where, found });
  else if (least !== undefined && value < least)
    work.report('value.least', node.place, { where, least: shown(least), found });
  else if (accept.most !== undefined && value > accept.most) {
    work.report(
      'value.most',
      node.place,
      { where, most: shown(accept.most), found, instead },
      instead === undefined ? undefined : [changeTo(instead, node.place)],
    );
  } else return true;
  return false;
}

function checkWord(
  node: Operand,
  accepts: readonly Accept[],
  where: Where,
  form: Form,
  work: Work,
): Argued | undefined {
  if (node.type !== 'word') return undefined;
  const wanted = accepts.flatMap((accept) => (accept.type === 'word' ? accept.words : []));
  const { text: word, place } = node;
  if (wanted.includes(word)) {
    work.mention({ role: 'word', form, word, slot: where.slot, place });
    return argued({ type: 'word', word, place });
  }
  const near = nearest(word, wanted);
  work.report(
    'word.unknown',
    place,
    { where, word, wanted, nearest: near },
    near.map((other) => changeTo(other, place)),
  );
  return argued(undefined);
}

function checkChannel(node: Operand, form: Form, work: Work): Argued | undefined {
  const { place } = node;
  if (node.type === 'word') {
    work.mention({ role: 'channel', form, word: node.text, place });
    return argued({ type: 'word', word: node.text, place });
  }
  if (node.type === 'text') return argued({ type: 'text', text: node.text, place });
  if (node.type !== 'assigned') return undefined;
  work.mention({ role: 'channel', form, word: node.name.text, place: node.name.place });
  return argued(
    node.text.type === 'missing' ? undefined : { type: 'word', word: node.name.text, text: node.text.text, place },
  );
}

function checkUnitName(node: Operand, dimension: DimensionName, where: Where, work: Work): Argued | undefined {
  if (!['word', 'unit', 'binary'].includes(node.type)) return undefined;
  const { place } = node;
  const text = sliceOf(work.text, node);
  const unit = checkUnit({ text, place }, work);
  if (!unit) return argued(undefined);
  if (dimension !== 'any' && !sameDimension(unit.dimension, dimensionOf(dimension))) {
    work.report('unit.dimension', place, {
      where,
      wanted: [dimension],
      found: text,
      dimension: unit.dimension,
      unit: usualUnit(dimension),
    });
    return argued(undefined);
  }
  return argued({ type: 'unit', unit, place });
}
