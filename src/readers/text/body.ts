import papa from 'papaparse/papaparse.min.js';
import { limits } from '../limits.ts';
import type { Pieces } from '../pieces.ts';
import type { Finding, ReadWatch } from '../recording.ts';
import { Refused, place, quote } from '../refusal.ts';
import { Damage, type Fault } from './damage.ts';
import { fieldsOf, isBlank, isComment } from './fields.ts';
import { isMissing, isOverload, parseNumber, type DecimalMark } from './number.ts';
import { withoutTail } from './sniff.ts';
import { scan, type Cursor, type Plan } from './scan.ts';

export interface BodyLayout {
  readonly path: string;
  readonly plan: Plan;
  readonly delimiter: string;
  readonly decimal: DecimalMark;
  /** A mark that ends each row and parts nothing, or nothing. */
  readonly tail: string;
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

/** Reads the rows of a text: regular stretches by the scanner, the other lines one by one. */
export class Body {
  readonly findings: Finding[] = [];
  private readonly layout: BodyLayout;
  private readonly cursor: Cursor;
  private capacity: number;
  private readonly damage: Damage;
  /** Comments within the rows, of which the first may state something new. */
  readonly comments: string[] = [];
  private readonly marks: { readonly row: number; readonly line: number }[] = [];
  private repeatedHeaders: number[] = [];
  private zeros = false;
  private zerosWithin = 0;
  private overloads = 0;
  private firstOverload: { readonly line: number; readonly cell: string } | undefined;
  private buffer = new Uint8Array(limits.piece);
  private held = 0;

  constructor(layout: BodyLayout, capacity: number, firstLine: number) {
    this.layout = layout;
    this.capacity = capacity;
    this.cursor = { at: 0, row: 0, line: firstLine };
    const { path, plan, delimiter, decimal } = layout;
    this.damage = new Damage({ path, width: plan.sinks.length, delimiter, decimal });
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
    this.trimZeros(0);
    if (this.held > 0) {
      this.append(Uint8Array.of(this.layout.lineEnd));
      this.process(this.held, 1, true);
    }
    this.cursor.row = this.damage.leaveOutRemarks(this.cursor.row, this.findings);
    this.damage.leaveOut(this.cursor.row, this.findings);
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
    // One zero stays to part what stands before and after a block of them.
    this.trimZeros(1);
  }

  /** Leaves out all but some of the zeros at the end of what is held: loggers that lose power leave such behind. */
  private trimZeros(keep: number): void {
    const { buffer, held } = this;
    const isZero = (at: number): boolean => at >= 0 && (buffer[at] === 0 || buffer[at] === 26);
    while (isZero(this.held - 1) && (keep === 0 || isZero(this.held - 2))) this.held--;
    if (keep === 0 && this.held < held) this.zeros = true;
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
    const text = this.withoutZeros(layout.decoder.decode(buffer.subarray(cursor.at, to)));
    if (buffer[to] === 13 && buffer[to + 1] === 10) to++;
    cursor.at = Math.min(to + 1, end);
    const isLast = unended && cursor.at >= end;
    const line = layout.unlabel && !isBlank(text) ? layout.unlabel(text) : text;
    if (line === undefined) {
      if (!isLast) this.fault({ kind: 'cell', column: 1, text, whole: text, found: 0 });
    } else if (!this.passesOver(line)) this.takeRow(fieldsOf(line, layout.delimiter), line, isLast);
    cursor.line++;
    this.marks.push({ row: cursor.row, line: cursor.line });
  }

  /** A block of zeros that a loss of power left within the rows parts what stands before and after it. */
  private withoutZeros(text: string): string {
    if (!text.includes('\0')) return text;
    this.zerosWithin ||= this.cursor.line;
    return text.replace(/\0+/g, ' ');
  }

  private passesOver(text: string): boolean {
    if (isBlank(text)) return true;
    if (isComment(text)) {
      if (this.comments.length < 100) this.comments.push(text);
      return true;
    }
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

  private takeRow(found: readonly string[], text: string, mayBeCut: boolean): void {
    const { cursor, layout } = this;
    const fields = withoutTail(found, layout.tail);
    const { sinks } = layout.plan;
    while (fields.length > sinks.length && isBlank(fields[fields.length - 1])) fields.pop();
    if (fields.length !== sinks.length) {
      if (mayBeCut && fields.length < sinks.length) this.noteCut(text);
      else this.fault({ kind: 'width', column: undefined, text, whole: text, found: fields.length });
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
        else this.fault({ kind: 'cell', column: columnOf(text, fields, k), text: cell, whole: text, found: 0 }, k);
        return;
      }
      if (Number.isNaN(value)) {
        sink.empty = true;
        if (isOverload(cell) && this.overloads++ === 0) this.firstOverload = { line: cursor.line, cell };
      }
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

  /** Keeps a row of no readings for a line that is no row, until all lines are read and it can be judged. */
  private fault(fault: Pick<Fault, 'kind' | 'column' | 'text' | 'whole' | 'found'>, k?: number): void {
    const { row, line } = this.cursor;
    const { plan, names } = this.layout;
    const [name, stamp] = k === undefined ? [undefined, false] : [names[k], plan.sinks[k].kind === 'stamp'];
    this.damage.add({ ...fault, row, line, name, stamp });
    for (const sink of plan.sinks) {
      if (sink.kind === 'skip') continue;
      sink.values[row] = NaN;
      sink.empty = true;
    }
    this.cursor.row++;
  }

  private tell(): void {
    if (this.zeros) {
      this.findings.push({
        code: 'zero-bytes',
        severity: 'note',
        message: 'The file ends in bytes that are no text, as after a loss of power; they were left out.',
      });
    }
    if (this.zerosWithin > 0) {
      this.findings.push({
        code: 'zero-bytes',
        severity: 'warning',
        message: `Line ${this.zerosWithin} holds bytes that are no text, as after a loss of power; they were left out.`,
      });
    }
    if (this.firstOverload) {
      const { line, cell } = this.firstOverload;
      this.findings.push({
        code: 'overload',
        severity: 'fault',
        message: `${this.overloads} ${this.overloads === 1 ? 'reading is' : 'readings are'} beyond the sensor's range (${quote(cell)}, first at line ${line}) and lost, so peak, kurtosis and dose mean nothing and the rms is too low: record again with a larger range.`,
        value: this.overloads,
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
