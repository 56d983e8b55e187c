import { inSI } from '../units/arithmetic.ts';
import { dimensionOf, isDimensionless, sameDimension } from '../units/dimension.ts';
import type { Quantity } from '../units/unit.ts';
import type { Checked } from './checked.ts';
import { changeTo, checkExpression } from './expression.ts';
import { sliceOf } from './fit.ts';
import type { DimensionName } from './form.ts';
import type { Fix } from './problem.ts';
import type { Expression, Range } from './tree.ts';
import type { Where } from './trouble.ts';
import { usualUnit } from './usual.ts';
import type { Typed, Work } from './work.ts';

/** `5..80 s`, `5 s..80 s`, `1 min..80 s`: a number without a unit takes that of the other end. */
export function checkRange(
  node: Range,
  wanted: readonly DimensionName[],
  where: Where,
  work: Work,
): Checked | undefined {
  const from = checkEnd(node.from, work);
  const to = checkEnd(node.to, work);
  if (!from || !to) return undefined;
  const bare = ({ unit }: Quantity): boolean => unit.symbol === '';
  const low = bare(from) ? { value: from.value, unit: to.unit } : from;
  const high = bare(to) ? { value: to.value, unit: from.unit } : to;
  if (!endsFit(node, low, high, wanted, where, work)) return undefined;
  const [a, b] = [inSI(low), inSI(high)];
  if (a === b) {
    work.report('range.empty', node.place, { found: sliceOf(work.text, node) });
    return undefined;
  }
  if (a > b) {
    work.report('range.reversed', node.place, { found: sliceOf(work.text, node), instead: swapped(node, work) }, [
      changeTo(swapped(node, work), node.place),
    ]);
    return undefined;
  }
  return { type: 'range', from: low, to: high, place: node.place };
}

function checkEnd(node: Expression, work: Work): Quantity | undefined {
  const typed: Typed = checkExpression(node, work);
  if (node.type === 'missing' || !typed.checked) return undefined;
  if (!typed.constant) work.report('range.constant', node.place, { found: sliceOf(work.text, node) });
  return typed.constant;
}

function endsFit(
  node: Range,
  low: Quantity,
  high: Quantity,
  wanted: readonly DimensionName[],
  where: Where,
  work: Work,
): boolean {
  for (const [end, { unit }] of [
    [node.from, low],
    [node.to, high],
  ] as const) {
    const like = sameDimension(low.unit.dimension, high.unit.dimension);
    if (like && wanted.some((name) => name === 'any' || sameDimension(unit.dimension, dimensionOf(name)))) continue;
    const found = sliceOf(work.text, node);
    const usual = usualUnit(wanted[0]);
    if (isDimensionless(unit.dimension) && unit.symbol === '') {
      const at = { from: node.place.to, to: node.place.to };
      const fixes: readonly Fix[] = [{ title: `Add the unit ${usual}`, place: at, text: ` ${usual}` }];
      work.report('unit.missing', node.place, { where, wanted: wanted[0], found, unit: usual }, fixes);
    } else {
      const written = [end, node.to, node.from].flatMap((one) =>
        one.type === 'number' && one.unit ? [one.unit] : [],
      )[0];
      const fixes = written && usual ? [changeTo(usual, written.place)] : undefined;
      work.report(
        'unit.dimension',
        end.type === 'number' && !end.unit ? node.place : end.place,
        { where, wanted, found, dimension: unit.dimension, unit: usual },
        fixes,
      );
    }
    return false;
  }
  return true;
}

/** The range the right way round; a unit that stands once stays at the end. */
function swapped({ from, to }: Range, work: Work): string {
  if (from.type === 'number' && to.type === 'number' && !from.unit && to.unit) {
    const unit = work.text.slice(to.number.to, to.place.to);
    return `${work.text.slice(to.number.from, to.number.to)}..${sliceOf(work.text, from)}${unit}`;
  }
  return `${sliceOf(work.text, to)}..${sliceOf(work.text, from)}`;
}
