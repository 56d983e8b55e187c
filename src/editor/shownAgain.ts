import type { Handle, HandleEnd } from '../charts/handle.ts';
import type { Output } from '../charts/output.ts';
import { cellNameOf, cellWords } from '../language/cellName.ts';

/** What a cell showed, with what of it counts the notebook's code cells. */
export interface Shown {
  readonly outputs: readonly Output[];
  /** What the reader counted the cell as. */
  readonly number: number;
  /** By their places the texts of those whose literals its charts draw. */
  readonly texts: Readonly<Record<number, string>>;
}

/** A notebook's code cells. */
export interface CodeCells {
  readonly texts: readonly string[];
  /** What the reader counts each as. */
  readonly numbers: readonly number[];
}

/** @param cell its place among the code cells, from 0 */
export function shownBy(outputs: readonly Output[], cell: number, { texts, numbers }: CodeCells): Shown {
  const behind = outputs.flatMap(({ handles = [] }) => handles.flatMap(({ ends }) => ends.flatMap(cellOf)));
  return { outputs, number: numbers[cell], texts: Object.fromEntries(behind.map((one) => [one, texts[one]])) };
}

/**
 * The outputs as they are to stand in the notebook by now, whose cells may have been moved, with literals counted among its cells.
 * @returns undefined where an error names the place of a cell that has another one by now
 */
export function shownAgain(shown: Shown, cell: number, { texts, numbers }: CodeCells): readonly Output[] | undefined {
  const { outputs } = shown;
  const cells = texts.map((text) => ({ text }));
  if (
    numbers[cell] !== shown.number &&
    outputs.some(({ messages }) => messages.some(({ where }) => where !== undefined))
  )
    return undefined;
  const placeOf = (before: number): number => {
    const text = shown.texts[before];
    return texts[before] === text ? before : texts.indexOf(text);
  };
  const moved = (handle: Handle): Handle[] => {
    const ends = handle.ends.map((end): HandleEnd => {
      const { literal } = end;
      return literal === undefined ? end : { ...end, literal: { ...literal, cell: placeOf(literal.cell) } };
    });
    const written = ends.flatMap(cellOf).at(0);
    // A cell that can't be told any more is not written into.
    if (written === undefined || ends.flatMap(cellOf).includes(-1)) return [];
    return [{ ...handle, ends, where: cellWords(cellNameOf({ cells, numbers }, written)) }];
  };
  return outputs.map((output) =>
    output.handles === undefined ? output : { ...output, handles: output.handles.flatMap(moved) },
  );
}

const cellOf = ({ literal }: HandleEnd): number[] => (literal === undefined ? [] : [literal.cell]);
