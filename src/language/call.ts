import { nearest } from '../units/nearest.ts';
import { measures, whyUnfit, type Asked } from './argument.ts';
import type { Arrangement, Entry, OptionUse } from './arrangement.ts';
import type { Checked, CheckedArgument } from './checked.ts';
import { checkExpression, checkUnit } from './expression.ts';
import { sliceOf } from './fit.ts';
import type { Accept, DimensionName, Form, ValueKind } from './form.ts';
import { describeAccepts } from './describe.ts';
import type { Fix, Place } from './diagnostic.ts';
import { changeTo, titles } from './messages.ts';
import { checkRange } from './ranges.ts';
import type { Expression, Operand } from './tree.ts';
import type { LanguageFacts, LanguageMessage, Slot } from './facts.ts';
import { usualUnit } from './usual.ts';
import { kindsOf, untyped, type Typed, type Work } from './work.ts';

/** Checks a verb's arrangement into a call; undefined where something in it is wrong. */
export function checkCall(arrangement: Arrangement, piped: Typed | undefined, work: Work): Typed {
  const { form, place, to } = arrangement;
  const operands: Record<string, CheckedArgument[]> = {};
  const options: Record<string, CheckedArgument[]> = {};
  /** Arguments that are no sound ones. */
  let lost = 0;
  let first: Typed | undefined = piped;
  const keep = (list: CheckedArgument[], argument: CheckedArgument | undefined): void => {
    if (argument) list.push(argument);
    else lost++;
  };
  if (arrangement.named) work.note({ role: 'verb', form, place });
  arrangement.keywords.forEach((keyword) =>
    work.note({ role: 'keyword', form, keyword: keyword.text, place: keyword.place }),
  );
  form.operands.forEach((operand, index) => {
    const where: Slot = { verb: form.verb, slot: operand.name, option: false };
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
    const uses = arrangement.options.get(option.keyword);
    if (!uses) continue;
    const list = (options[option.keyword] = [] as CheckedArgument[]);
    for (const use of uses) {
      const where: Slot = { verb: form.verb, slot: option.keyword, option: true };
      const given = use.entries.map((entry) => checkEntry(entry, where, form, work).argument);
      if (option.parts) keep(list, groupOf(use, given));
      else given.forEach((argument) => keep(list, argument));
    }
  }
  const kind = form.gives === 'same' ? first?.kind : form.gives;
  const checked: Checked | undefined =
    lost === 0 ? { type: 'call', verb: form.verb, place: { from: place.from, to }, operands, options } : undefined;
  return { checked, kind, dimension: undefined, constant: undefined };
}

function groupOf({ keyword }: OptionUse, given: readonly (CheckedArgument | undefined)[]): CheckedArgument | undefined {
  const parts = given.filter((part): part is Checked => part !== undefined && part.type !== 'group');
  if (parts.length !== given.length || parts.length === 0) return undefined;
  return { type: 'group', parts, place: { from: keyword.place.from, to: parts[parts.length - 1].place.to } };
}

function pipedArgument(
  piped: Typed,
  arrangement: Arrangement,
  accepts: readonly Accept[],
  where: Slot,
  work: Work,
): Checked | undefined {
  if (!piped.checked) return undefined;
  const asked = { where, accepts, found: 'what comes down the pipe', kinds: work.vocabulary.kinds };
  const fits = checkKind(piped, asked, arrangement.place, false, work);
  return fits ? piped.checked : undefined;
}

type Argued = Typed & { readonly argument: CheckedArgument | undefined };

const argued = (
  argument: CheckedArgument | undefined,
  { checked, kind, dimension, constant }: Typed = untyped,
): Argued => ({
  checked,
  kind,
  dimension,
  constant,
  argument,
});

function checkEntry(entry: Entry, where: Slot, form: Form, work: Work): Argued {
  const { node, accept, accepts, inner } = entry;
  if (inner) {
    const typed = checkCall(inner, undefined, work);
    return argued(typed.checked, typed);
  }
  const refuse = (): Argued => {
    work.report('operand.wrong', node.place, {
      where,
      wanted: describeAccepts(accepts, work.vocabulary.kinds),
      found: sliceOf(work.text, node),
    });
    return argued(undefined);
  };
  switch (accept.type) {
    case 'value':
      return isExpression(node) ? checkValue(node, accepts, where, work) : refuse();
    case 'quantity':
    case 'number':
    case 'integer':
      return isExpression(node) ? checkSize(node, accepts, where, work) : refuse();
    case 'range':
      return node.type === 'range' ? argued(checkRange(node, accepts, where, work)) : refuse();
    case 'text':
      return node.type === 'text'
        ? argued({ type: 'text', text: node.text, place: node.place })
        : (unquoted(node, work) ?? refuse());
    case 'word':
      return checkWord(node, accepts, where, form, work) ?? refuse();
    case 'channel':
      return checkChannel(node, accept.role ?? 'channel', form, work) ?? refuse();
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
    { title: titles.quote(written), place, text: instead },
  ]);
  return argued(undefined);
}

const isExpression = (node: Operand): node is Expression => !['range', 'assigned', 'unit', 'stray'].includes(node.type);

function checkValue(node: Expression, accepts: readonly Accept[], where: Slot, work: Work): Argued {
  const typed = checkExpression(node, work);
  const asked = { where, accepts, found: sliceOf(work.text, node), kinds: work.vocabulary.kinds };
  const fits = !typed.checked || checkKind(typed, asked, node.place, true, work);
  return argued(fits ? typed.checked : undefined, typed);
}

/** Whether a value's kind is one of those accepted, or unknown. */
function checkKind({ kind }: Typed, asked: Asked, place: Place, wrap: boolean, work: Work): boolean {
  const misfit = whyUnfit({ kind, dimension: undefined, constant: undefined }, asked);
  if (misfit?.code !== 'kind.mismatch') return true;
  if (misfit.facts.wanted.length === 0) {
    // What takes words or texts alone takes nothing down a pipe.
    const { where, accepts, found, kinds } = asked;
    work.report('operand.wrong', place, { where, wanted: describeAccepts(accepts, kinds), found });
    return false;
  }
  const wanted = kindsOf(asked.accepts);
  const verb = wrap && kind && kind !== 'quantity' && kind !== 'text' ? bridge(kind, wanted, work) : undefined;
  const instead = verb && `(${verb} ${asked.found})`;
  const fixes = instead === undefined ? undefined : [changeTo(instead, place)];
  work.report('kind.mismatch', place, { ...misfit.facts, instead }, fixes);
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

/** A quantity, number or whole number: its kind, dimension and bounds, as far as they can be told. */
function checkSize(node: Expression, accepts: readonly Accept[], where: Slot, work: Work): Argued {
  const typed = checkExpression(node, work);
  if (!typed.checked) return argued(undefined, typed);
  const asked = { where, accepts, found: sliceOf(work.text, node), kinds: work.vocabulary.kinds };
  const misfit = whyUnfit(typed, asked);
  if (misfit === undefined) return argued(typed.checked, typed);
  if (misfit.code === 'unit.dimension' && node.type === 'number' && !node.unit)
    reportBare(node, misfit.facts, asked, work);
  else work.report(misfit.code, node.place, misfit.facts, fixesFor(misfit, node));
  return argued(undefined, typed);
}

/** A number without a unit where one is needed; or one that a decimal comma cut short. */
function reportBare(
  node: Expression,
  { wanted, unit }: LanguageFacts['unit.dimension'],
  asked: Asked,
  work: Work,
): void {
  const { where, found } = asked;
  const decimal = /^,(\d+)/.exec(work.text.slice(node.place.to));
  if (decimal) {
    const place = { from: node.place.from, to: node.place.to + decimal[0].length };
    const instead = `${found}.${decimal[1]}`;
    work.report('number.comma', place, { found: found + decimal[0], instead }, [changeTo(instead, place)]);
    return;
  }
  const end = { from: node.place.to, to: node.place.to };
  const fixes = unit ? [{ title: titles.addUnit(unit), place: end, text: ` ${unit}` }] : [];
  work.report('unit.missing', node.place, { where, wanted: wanted[0], found, unit }, fixes);
}

function fixesFor(misfit: LanguageMessage, node: Expression): readonly Fix[] | undefined {
  if (misfit.code === 'unit.dimension') return unitFixes(node, misfit.facts.wanted[0]);
  if (misfit.code !== 'value.most' || misfit.facts.instead === undefined) return undefined;
  return [changeTo(misfit.facts.instead, node.place)];
}

/** A gram where a mass is wanted is the usual slip: `g` is gravity. */
function unitFixes(node: Expression, wanted: DimensionName): readonly Fix[] | undefined {
  if (node.type !== 'number' || !node.unit) return undefined;
  const gram = wanted === 'mass' && node.unit.text === 'g';
  const unit = gram ? 'gram' : usualUnit(wanted);
  return unit ? [changeTo(unit, node.unit.place)] : undefined;
}

function checkWord(node: Operand, accepts: readonly Accept[], where: Slot, form: Form, work: Work): Argued | undefined {
  if (node.type !== 'word') return undefined;
  const wanted = accepts.flatMap((accept) => (accept.type === 'word' ? accept.words : []));
  const { text: word, place } = node;
  if (wanted.includes(word)) {
    work.note({ role: 'word', form, word, slot: where.slot, place });
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

function checkChannel(node: Operand, of: 'channel' | 'label', form: Form, work: Work): Argued | undefined {
  const { place } = node;
  if (node.type === 'word') {
    work.note({ role: 'channel', form, word: node.text, of, place });
    return argued({ type: 'word', word: node.text, place });
  }
  if (node.type === 'text') return argued({ type: 'text', text: node.text, place });
  if (node.type !== 'assigned') return undefined;
  work.note({ role: 'channel', form, word: node.name.text, of, place: node.name.place });
  return argued(
    node.text.type === 'missing' ? undefined : { type: 'word', word: node.name.text, text: node.text.text, place },
  );
}

function checkUnitName(node: Operand, dimension: DimensionName, where: Slot, work: Work): Argued | undefined {
  if (!['word', 'unit', 'binary'].includes(node.type)) return undefined;
  const { place } = node;
  const text = sliceOf(work.text, node);
  const unit = checkUnit({ text, place }, work);
  if (!unit) return argued(undefined);
  if (!measures(unit.dimension, [dimension])) {
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
