import { isDimensionless, sameDimension } from '../units/dimension.ts';
import type { Quantity } from '../units/unit.ts';
import { whyNoRange } from './argument.ts';
import type { Checked } from './checked.ts';
import { checkExpression } from './expression.ts';
import { sliceOf } from './fit.ts';
import type { Accept } from './form.ts';
import type { Fix } from './diagnostic.ts';
import type { Expression, Range } from './tree.ts';
import type { LanguageFacts, Slot } from './facts.ts';
import { changeTo, titles } from './messages.ts';
import type { Typed, Work } from './work.ts';

/** `5..80 s`, `5 s..80 s`, `1 min..80 s`: a number without a unit takes that of the other end. */
export function checkRange(node: Range, accepts: readonly Accept[], where: Slot, work: Work): Checked | undefined {
  const from = checkEnd(node.from, work);
  const to = checkEnd(node.to, work);
  if (!from || !to) return undefined;
  const bare = ({ unit }: Quantity): boolean => unit.symbol === '';
  const low = bare(from) ? { value: from.value, unit: to.unit } : from;
  const high = bare(to) ? { value: to.value, unit: from.unit } : to;
  const instead = swapped(node, work);
  const misfit = whyNoRange(
    low,
    high,
    { where, accepts, found: sliceOf(work.text, node), kinds: work.vocabulary.kinds },
    instead,
  );
  if (misfit?.code === 'unit.dimension') reportEnds(node, low, misfit.facts, work);
  else if (misfit !== undefined)
    work.report(
      misfit.code,
      node.place,
      misfit.facts,
      misfit.code === 'range.reversed' ? [changeTo(instead, node.place)] : [],
    );
  if (misfit !== undefined) return undefined;
  return { type: 'range', from: low, to: high, place: node.place };
}

function checkEnd(node: Expression, work: Work): Quantity | undefined {
  const typed: Typed = checkExpression(node, work);
  if (node.type === 'missing' || !typed.checked) return undefined;
  if (!typed.constant) work.report('range.constant', node.place, { found: sliceOf(work.text, node) });
  return typed.constant;
}

/** Ends that measure something else than what is wanted, or than each other: without a unit, or in a wrong one. */
function reportEnds(node: Range, low: Quantity, facts: LanguageFacts['unit.dimension'], work: Work): void {
  const { where, wanted, found, dimension, unit: usual } = facts;
  const isUpper = !sameDimension(low.unit.dimension, dimension);
  if (isUpper) {
    const { to } = node;
    const fixes = to.type === 'number' && to.unit && usual ? [changeTo(usual, to.unit.place)] : undefined;
    work.report('unit.dimension', to.place, { ...facts, found: sliceOf(work.text, to) }, fixes);
    return;
  }
  const end = node.from;
  if (isDimensionless(dimension) && low.unit.symbol === '') {
    const at = { from: node.place.to, to: node.place.to };
    const fixes: readonly Fix[] = [{ title: titles.addUnit(usual), place: at, text: ` ${usual}` }];
    work.report('unit.missing', node.place, { where, wanted: wanted[0], found, unit: usual }, fixes);
    return;
  }
  const units = [end, node.to, node.from].flatMap((one) => (one.type === 'number' && one.unit ? [one.unit] : []));
  const fixes = units.length > 0 && usual ? [changeTo(usual, units[0].place)] : undefined;
  work.report('unit.dimension', end.type === 'number' && !end.unit ? node.place : end.place, facts, fixes);
}

/** The range the right way round; a unit that stands once stays at the end. */
function swapped({ from, to }: Range, work: Work): string {
  if (from.type === 'number' && to.type === 'number' && !from.unit && to.unit) {
    const unit = work.text.slice(to.number.to, to.place.to);
    return `${work.text.slice(to.number.from, to.number.to)}..${sliceOf(work.text, from)}${unit}`;
  }
  return `${sliceOf(work.text, to)}..${sliceOf(work.text, from)}`;
}
