import papa from 'papaparse/papaparse.min.js';
import { limits } from '../limits.ts';
import type { Pieces } from '../pieces.ts';
import type { Finding, ReadWatch } from '../recording.ts';
import { Refused, place, quote } from '../refusal.ts';
import { fieldsOf, isBlank, isComment } from './fields.ts';
import { isMissing, parseNumber, type DecimalMark } from './number.ts';
import { scan, type Cursor, type Plan } from './scan.ts';

export interface BodyLayout {
  readonly path: string;
  readonly plan: Plan;
  readonly delimiter: string;
  readonly decimal: DecimalMark;
  /** Headers for messages, one a column. */
  readonly names: readonly string[];
  /** The header line as it stands, which some loggers repeat within the rows. */
  readonly headerText: string | undefined;
  readonly quoted: boolean;
  /** The byte that ends a line. */
  readonly lineEnd: number;
  readonly decoder: TextDecoder;
  /** Turns a line into the line of fields that the plan reads, where lines are labelled. */
  readonly unlabel?: ((line: string) => string | undefined) | undefined;
}

interface Fault {
  readonly line: number;
  readonly column: number | undefined;
  readonly text: string;
  readonly name: string | undefined;
  readonly found: number;
  readonly kind: 'cell' | 'width';
}

const mostFaults = 1000;

/** Reads the rows of a text: regular stretches by the scanner, the other lines one by one. */
export class Body {
  readonly findings: Finding[] = [];
  private readonly layout: BodyLayout;
  private readonly cursor: Cursor;
  private capacity: number;
  private readonly firstFault: { cell?: Fault; width?: Fault } = {};
  private readonly faults = { cell: 0, width: 0 };
  private readonly marks: { readonly row: number; readonly line: number }[] = [];
  private repeatedHeaders: number[] = [];
  private zeros = false;
  private buffer = new Uint8Array(limits.piece);
  private held = 0;

  constructor(layout: BodyLayout, capacity: number, firstLine: number) {
    this.layout = layout;
    this.capacity = capacity;
    this.cursor = { at: 0, row: 0, line: firstLine };
  }

  get sinks(): Plan['sinks'] {
    return this.layout.plan.sinks;
  }

  get rows(): number {
    return this.cursor.row;
  }

  /** The line of a row, where no blank line in the same piece makes it doubtful. */
  readonly lineOf = (row: number): number | undefined => {
    const after = this.marks.findIndex((mark) => mark.row > row);
    const from = this.marks[(after < 0 ? this.marks.length : after) - 1];
    const to = after < 0 ? { row: this.cursor.row, line: this.cursor.line } : this.marks[after];
    if (!from || to.line - from.line !== to.row - from.row) return undefined;
    return from.line + row - from.row;
  };

  /** Reads every row. `size` is the file's bytes, for progress and for the room that the columns need. */
  async read(pieces: Pieces, size: number, watch: ReadWatch): Promise<void> {
    for (let piece = await pieces.next(); piece; piece = await pieces.next()) {
      if (watch.cancelled()) throw new Refused('cancelled', `${this.layout.path}: reading was stopped.`);
      this.append(piece);
      const end = this.lastLineEnd();
      if (end > 0) this.process(end, pieces.taken() / Math.max(size, 1), false);
      if (this.held > limits.line) this.refuseLongLine();
      watch.progress(Math.min(1, pieces.taken() / Math.max(size, 1)));
    }
    if (this.held > 0) {
      this.append(Uint8Array.of(this.layout.lineEnd));
      this.process(this.held, 1, true);
    }
    this.refuseFaults();
    this.tell();
  }

  private append(piece: Uint8Array): void {
    // One byte stays free so that a scan may look past the last line's end.
    if (this.buffer.length < this.held + piece.length + 1) {
      const larger = new Uint8Array(2 * (this.held + piece.length));
      larger.set(this.buffer.subarray(0, this.held));
      this.buffer = larger;
    }
    this.buffer.set(piece, this.held);
    this.held += piece.length;
    // Loggers that lose power leave zeros behind.
    while (this.held > 0 && (this.buffer[this.held - 1] === 0 || this.buffer[this.held - 1] === 26)) {
      this.held--;
      this.zeros = true;
    }
  }

  /** One past the last byte that ends a line outside of quotes. */
  private lastLineEnd(): number {
    const { lineEnd, quoted } = this.layout;
    if (!quoted) return this.buffer.subarray(0, this.held).lastIndexOf(lineEnd) + 1;
    let open = false;
    let end = 0;
    for (let i = 0; i < this.held; i++) {
      if (this.buffer[i] === 34) open = !open;
      else if (!open && this.buffer[i] === lineEnd) end = i + 1;
    }
    return end;
  }

  private refuseLongLine(): never {
    throw new Refused(
      'line-too-long',
      `${place(this.layout.path, this.cursor.line)}: this line is longer than ${limits.line / 1024} KiB, which no row of a recording is: check the file, or the quotes in it.`,
    );
  }

  /** Reads bytes [0, end) of the buffer and moves the rest to its front. */
  private process(end: number, fraction: number, unended: boolean): void {
    const { cursor, layout } = this;
    cursor.at = 0;
    this.marks.push({ row: cursor.row, line: cursor.line });
    if (layout.quoted) this.readQuoted(end);
    while (cursor.at < end) {
      if (cursor.row === this.capacity) this.grow(fraction * (cursor.at / end));
      if (!layout.unlabel) scan(this.buffer, cursor, end, this.capacity, layout.plan);
      if (cursor.at < end && cursor.row < this.capacity) this.readLine(end, unended);
    }
    this.buffer.copyWithin(0, end, this.held);
    this.held -= end;
  }

  private grow(fraction: number): void {
    const columns = this.layout.plan.sinks.filter((sink) => sink.kind !== 'skip').length;
    const wanted = fraction > 0.05 ? (1.05 * this.cursor.row) / fraction : 2 * this.cursor.row;
    const most = Math.floor(limits.samples / Math.max(columns, 1));
    this.capacity = Math.min(most, Math.max(Math.ceil(wanted), Math.ceil(1.25 * this.cursor.row)) + 1024);
    if (this.capacity <= this.cursor.row) {
      throw new Refused(
        'too-many-samples',
        `${this.layout.path}: the file holds more than ${limits.samples / 1e6} million numbers, the most that one recording may have: cut it into parts.`,
      );
    }
    for (const sink of this.layout.plan.sinks) sink.grow(this.capacity);
  }

  private readLine(end: number, unended: boolean): void {
    const { cursor, layout, buffer } = this;
    let to = cursor.at;
    while (to < end && buffer[to] !== 10 && buffer[to] !== 13) to++;
    const text = layout.decoder.decode(buffer.subarray(cursor.at, to));
    if (buffer[to] === 13 && buffer[to + 1] === 10) to++;
    cursor.at = Math.min(to + 1, end);
    const isLast = unended && cursor.at >= end;
    const line = layout.unlabel && !isBlank(text) ? layout.unlabel(text) : text;
    if (line === undefined) {
      if (!isLast) this.fault({ kind: 'cell', line: cursor.line, column: 1, text, name: undefined, found: 0 });
    } else if (!this.passesOver(line)) this.takeRow(fieldsOf(line, layout.delimiter), line, isLast);
    cursor.line++;
    this.marks.push({ row: cursor.row, line: cursor.line });
  }

  private passesOver(text: string): boolean {
    if (isBlank(text) || isComment(text)) return true;
    if (this.layout.headerText === undefined || text.trim() !== this.layout.headerText.trim()) return false;
    this.repeatedHeaders.push(this.cursor.line);
    return true;
  }

  private readQuoted(end: number): void {
    const { cursor, layout } = this;
    const text = layout.decoder.decode(this.buffer.subarray(0, end)).replace(/\r\n?/g, '\n');
    for (const fields of papa.parse(text.replace(/\n$/, ''), { delimiter: layout.delimiter, quoteChar: '"' }).data) {
      if (cursor.row === this.capacity) this.grow(0);
      const joined = fields.join(layout.delimiter);
      if (!this.passesOver(joined)) this.takeRow(fields, joined, false);
      cursor.line += 1 + joined.split('\n').length - 1;
    }
    cursor.at = end;
  }

  private takeRow(fields: string[], text: string, mayBeCut: boolean): void {
    const { cursor, layout } = this;
    const { sinks } = layout.plan;
    while (fields.length > sinks.length && isBlank(fields[fields.length - 1])) fields.pop();
    if (fields.length !== sinks.length) {
      if (mayBeCut && fields.length < sinks.length) this.noteCut(text);
      else
        this.fault({
          kind: 'width',
          line: cursor.line,
          column: undefined,
          text,
          name: undefined,
          found: fields.length,
        });
      return;
    }
    for (const [k, sink] of sinks.entries()) {
      if (sink.kind === 'skip') continue;
      const cell = fields[k].trim();
      if (sink.kind === 'label') {
        sink.takeLabel(cell, cursor.row);
        continue;
      }
      const value = isMissing(cell) ? NaN : this.valueOf(cell, k);
      if (value === undefined) {
        if (mayBeCut) this.noteCut(text);
        else
          this.fault({
            kind: 'cell',
            line: cursor.line,
            column: columnOf(text, fields, k),
            text: cell,
            name: layout.names[k],
            found: 0,
          });
        return;
      }
      if (Number.isNaN(value)) sink.empty = true;
      sink.values[cursor.row] = value;
    }
    cursor.row++;
  }

  private valueOf(cell: string, k: number): number | undefined {
    const sink = this.layout.plan.sinks[k];
    if (sink.kind === 'number') return parseNumber(cell, this.layout.decimal);
    const bytes = new TextEncoder().encode(cell);
    const seconds = sink.stamps!.read(bytes, 0, bytes.length);
    return Number.isNaN(seconds) ? undefined : seconds;
  }

  private noteCut(text: string): void {
    this.findings.push({
      code: 'cut-short',
      severity: 'note',
      message: `The last line (${this.cursor.line}) is cut short (${quote(text)}) and was left out.`,
    });
  }

  private fault(fault: Fault): void {
    this.firstFault[fault.kind] ??= fault;
    if (++this.faults[fault.kind] >= mostFaults) this.refuseFaults();
  }

  private refuseFaults(): void {
    const { cell, width } = this.firstFault;
    if (!cell && !width) return;
    const first = !cell || (width && width.line < cell.line) ? width! : cell;
    const count = this.faults[first.kind];
    const more =
      count >= mostFaults ? `, as do more than ${mostFaults} others` : count > 1 ? `, as do ${count - 1} others` : '';
    const where = place(this.layout.path, first.line, first.column);
    if (first.kind === 'width') {
      const expected = this.layout.plan.sinks.length;
      throw new Refused(
        'ragged',
        `${where}: this line has ${first.found} ${first.found === 1 ? 'field' : 'fields'} where the others have ${expected} (${quote(first.text)})${more}: mend or remove it, or say how fields are parted with delimiter.`,
      );
    }
    const { decimal } = this.layout;
    const otherMark = decimal === '.' ? ',' : '.';
    const asOther = parseNumber(first.text, otherMark) !== undefined;
    const what = first.name === undefined ? 'the line' : first.name;
    const stamp = this.layout.plan.sinks[this.layout.names.indexOf(first.name ?? '')]?.kind === 'stamp';
    const wanted = stamp ? 'a time of the form that the column has' : `a number (the decimal mark is "${decimal}")`;
    throw new Refused(
      'not-a-number',
      `${where}: ${quote(first.text)} in ${what} is not ${wanted}${more}: ${asOther ? `write decimal "${otherMark}" if that is the file's mark, or ` : ''}mend or remove the line.`,
    );
  }

  private tell(): void {
    if (this.zeros) {
      this.findings.push({
        code: 'zero-bytes',
        severity: 'note',
        message: 'The file ends in bytes that are no text, as after a loss of power; they were left out.',
      });
    }
    const [first] = this.repeatedHeaders;
    if (first === undefined) return;
    const count = this.repeatedHeaders.length;
    this.findings.push({
      code: 'header-repeated',
      severity: 'note',
      message: `The header stands again within the rows, first at line ${first} (${count} ${count === 1 ? 'time' : 'times'} in all), as where a recording was started anew.`,
      value: count,
    });
  }
}

/** 1-based column in the line where a field begins. */
function columnOf(text: string, fields: readonly string[], k: number): number {
  let at = 0;
  for (let i = 0; i <= k; i++) {
    const found = text.indexOf(fields[i], at);
    if (found < 0) return 1;
    if (i === k) return found + 1 + (fields[i].length - fields[i].trimStart().length);
    at = found + fields[i].length;
  }
  return 1;
}
