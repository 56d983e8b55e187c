/** A row and the 1-based line on which it stands. */
interface RowLine {
  readonly row: number;
  readonly line: number;
}

/** On which lines rows stand, by those whose line was kept. */
export class RowLines {
  readonly #marks: RowLine[] = [];

  /** Keeps the line of the next row. */
  mark({ row, line }: RowLine): void {
    const last = this.#marks.at(-1);
    if (last?.row !== row || last.line !== line) this.#marks.push({ row, line });
  }

  /** The line of a row, where no blank line in the same piece makes it doubtful. @param next the row that would come next */
  lineOf(row: number, next: RowLine): number | undefined {
    const after = this.#marks.findIndex((mark) => mark.row > row);
    const from = after === 0 ? undefined : this.#marks.at(after < 0 ? -1 : after - 1);
    const to = after < 0 ? next : this.#marks[after];
    if (from === undefined || to.line - from.line !== to.row - from.row) return undefined;
    return from.line + row - from.row;
  }
}
