import { printCell } from '../printer.ts';
import type { Place } from '../diagnostic.ts';
import type { Cell } from '../tree.ts';

export interface TextEdit {
  readonly place: Place;
  readonly text: string;
}

/** One edit that makes a cell canonical, as small as a common beginning and end allow; none where it is so already. */
export function formattingEdits(cell: Cell): readonly TextEdit[] {
  const { text } = cell;
  const printed = printCell(cell);
  if (printed === text) return [];
  let from = 0;
  while (from < text.length && from < printed.length && text[from] === printed[from]) from++;
  let end = 0;
  while (
    end < text.length - from &&
    end < printed.length - from &&
    text[text.length - 1 - end] === printed[printed.length - 1 - end]
  )
    end++;
  return [{ place: { from, to: text.length - end }, text: printed.slice(from, printed.length - end) }];
}
