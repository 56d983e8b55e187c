import type { HandleEnd, TextEdit } from '../../charts/handle.ts';
import { axisValueOf, numberAt, stepOf, written } from '../../charts/rounding.ts';

/** What is written of a chart: edits of cells, or a new cell below another. */
export interface TextChange {
  readonly edits: readonly TextEdit[];
  readonly below?: { readonly cell: number; readonly text: string };
}

export const inserted = (cell: number, at: number, text: string): TextChange => ({
  edits: [{ cell, from: at, to: at, text }],
});

/** A stretch as the language has it. @param grain what the chart can tell apart, in the same unit */
export const rangeText = (from: number, to: number, grain: number, unit: 's' | 'Hz'): string => {
  const step = stepOf(grain);
  return `${written(from, step)}..${written(to, step)} ${unit}`;
};

/**
 * Gives the numbers behind both ends of a range other values, in their own units.
 * @param wanted both ends in s or Hz, the lower first
 * @returns undefined where one of them is no number in the text
 */
export function movedEnds(
  [lower, upper]: readonly HandleEnd[],
  wanted: readonly [number, number],
  grain: number,
): readonly TextEdit[] | undefined {
  if (lower.literal === undefined || upper.literal === undefined) return undefined;
  if (upper.carries === true) {
    const { edit, reached } = moved(upper, 0, wanted[1], grain);
    return [moved(lower, reached - upper.at, wanted[0], grain).edit, edit];
  }
  const { edit, reached } = moved(lower, 0, wanted[0], grain);
  // A length counts from where the stretch begins.
  return [edit, moved(upper, lower.carries === true ? reached - lower.at : 0, wanted[1], grain).edit];
}

/** @param shift s or Hz by which the place has moved that the number counts from */
function moved(
  { literal: before, least = -Infinity, most = Infinity }: HandleEnd,
  shift: number,
  to: number,
  grain: number,
): { readonly edit: TextEdit; readonly reached: number } {
  const literal = { ...before!, origin: before!.origin + shift };
  const step = stepOf(grain / literal.factor);
  const at = (number: number): number => axisValueOf(literal, number);
  let number = Number(written(numberAt(literal, to), step));
  // Rounding must not lead past an edge.
  if (at(number) > most) number -= literal.sign * step;
  if (at(number) < least) number += literal.sign * step;
  const text = written(number, step);
  return { edit: { cell: literal.cell, from: literal.from, to: literal.to, text }, reached: at(Number(text)) };
}
