import type { Literal, LiteralSlot, TextEdit } from '../../charts/handle.ts';
import type { CheckedNotebook } from '../../language/check.ts';
import { success, type Result } from '../../result/result.ts';
import { refuse } from '../messages.ts';
import { numeralsIn, type Numeral } from './numerals.ts';

/**
 * The change of the text that gives a literal another number. The text may have been edited since the literal was told: then it
 * is sought by what it is to its verb, and refused where it can't be told from others, or has another unit by now.
 * @param notebook as it is now; `literal.cell` is the cell's index in it
 * @param text the number as it is to stand
 */
export function rewritten(notebook: CheckedNotebook, literal: Literal, text: string): Result<TextEdit> {
  const { cell, slot } = literal;
  const found = cell < 0 || cell >= notebook.cells.length ? undefined : soughtIn(numeralsIn(notebook, cell), literal);
  if (found === undefined) return refuse('handle.gone', { verb: slot.verb, name: slot.name, text: literal.text });
  if (found.unit.symbol !== literal.unit)
    return refuse('handle.unit', { text: found.text, unit: found.unit.symbol, before: literal.unit });
  return success({ cell, from: found.place.from, to: found.place.to, text });
}

function soughtIn(numerals: readonly Numeral[], { from, text, slot }: Literal): Numeral | undefined {
  const alike = numerals.filter(
    (one) =>
      one.slot.verb === slot.verb &&
      one.slot.slot === slot.slot &&
      // A number that is bound is known by its name, or by itself if that was changed.
      (slot.verb !== '' || one.slot.name === slot.name || one.text === text),
  );
  const there = alike.find((one) => one.place.from === from && one.text === text);
  if (there !== undefined) return there;
  // A statement's other arguments may have been edited, its name changed or a comment put above it.
  const wanted: readonly ((one: Numeral) => boolean)[] = [
    (one) => one.text === text && sameSlot(one.slot, slot),
    (one) => sameSlot(one.slot, slot),
    (one) => one.text === text,
    (one) => one.slot.part === slot.part,
  ];
  for (const fits of wanted) {
    const found = alike.filter(fits);
    if (found.length === 1) return found[0];
  }
  return undefined;
}

const sameSlot = (one: LiteralSlot, other: LiteralSlot): boolean =>
  one.name === other.name && one.entry === other.entry && one.part === other.part;
