import type { Refused } from '../../result/result.ts';
import papa from 'papaparse/papaparse.min.js';
import { limits } from '../limits.ts';
import { finding, refuse } from '../messages.ts';
import type { Pieces } from '../pieces.ts';
import type { Finding, ReadWatch } from '../recording.ts';
import type { Checksums } from './checksums.ts';
import { Damage, type Fault } from './damage.ts';
import { columnOfField, fieldsOf, isBlank, isComment, uncommented } from './fields.ts';
import { isMissing, isOverload, parseNumber, type DecimalMark } from './number.ts';
import { withoutTail } from './sniff.ts';
import type { Cursor, Plan } from './plan.ts';
import { readWithOther, type TakesRows, type WaitingRows } from './bodyBeside.ts';
import { HeldText } from './heldText.ts';
import { sharedPlan, type RowsBeside, type Scanned } from './rowsBeside.ts';
import { RowLines } from './rowLines.ts';
import { scan } from './scan.ts';

/** How a text's rows are to be read. */
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
  /** Whether lines that begin with a mark of comments are rows. */
  readonly isMarked: boolean;
  readonly checksums: Checksums | undefined;
}

/** Work space that no body reads into, if there is one. */
let spare: Uint8Array | undefined;

/** Reads the rows of a text: regular stretches by the scanner, the other lines one by one. */
export class Body implements TakesRows {
  readonly findings: Finding[] = [];
  private readonly layout: BodyLayout;
  private readonly cursor: Cursor;
  private capacity: number;
  private readonly damage: Damage;
  /** Comments within the rows, of which the first may state something new. */
  readonly comments: string[] = [];
  private readonly lines = new RowLines();
  private repeatedHeaders: number[] = [];
  /** Line of the first zeros among the rows, or 0. */
  private zerosWithin = 0;
  private wrongSums = 0;
  private firstWrongSum = 0;
  /** Comments that would be rows without their mark, and the line of the first. */
  private markedRows = 0;
  private firstMarkedRow = 0;
  private overloads = 0;
  private firstOverload: { readonly line: number; readonly cell: string } | undefined;
  readonly held: HeldText;

  constructor(layout: BodyLayout, capacity: number, firstLine: number) {
    this.layout = layout;
    this.capacity = capacity;
    this.cursor = { at: 0, row: 0, line: firstLine };
    const { path, plan, delimiter, decimal, lineEnd, quoted } = layout;
    this.held = new HeldText(spare ?? new Uint8Array(0), lineEnd, quoted);
    spare = undefined;
    this.damage = new Damage({ path, width: plan.sinks.length, delimiter, decimal });
  }

  get path(): string {
    return this.layout.path;
  }

  get sinks(): Plan['sinks'] {
    return this.layout.plan.sinks;
  }

  get rows(): number {
    return this.cursor.row;
  }

  /** The 1-based line that would come next. */
  get line(): number {
    return this.cursor.line;
  }

  /** The line of a row, where no blank line in the same piece makes it doubtful. */
  readonly lineOf = (row: number): number | undefined => this.lines.lineOf(row, this.cursor);

  /** Reads every row. Refuses a file that is damaged or too large, or no longer wanted. */
  async read(pieces: Pieces, watch: ReadWatch): Promise<Refused | undefined> {
    try {
      return await this.readAll(pieces, watch);
    } finally {
      // The next recording is most likely as large: memory that was written to before is far quicker than fresh memory.
      spare = this.held.bytes;
    }
  }

  private async readAll(pieces: Pieces, watch: ReadWatch): Promise<Refused | undefined> {
    const { path } = this.layout;
    let { started, refused } = await this.readBeside(pieces, watch);
    if (refused) return refused;
    if (!started) this.leaveShared();
    for (let piece = await pieces.next(); piece; piece = await pieces.next()) {
      if (watch.cancelled()) return refuse('cancelled', { path });
      this.held.append(piece);
      refused = this.processHeld(pieces);
      if (refused) return refused;
      watch.progress(pieces.progress());
      if (started) continue;
      // How stamps are spelt is known once one was read.
      ({ refused } = await this.readBeside(pieces, watch));
      if (refused) return refused;
      started = true;
    }
    refused = this.finish() ?? this.damage.leaveOut(this.cursor.row, this.findings);
    this.addFindings();
    return refused;
  }

  /** Reads the lines that are held as a whole. */
  private processHeld(pieces: Pieces): Refused | undefined {
    const end = this.held.lastLineEnd();
    const refused = end > 0 ? this.process(end, pieces.progress(), false) : undefined;
    const isTooLong = this.held.length > limits.line;
    return refused ?? (isTooLong ? refuse('line-too-long', { path: this.path, line: this.cursor.line }) : undefined);
  }

  /** Reads with another thread what can be read so, if there is one. */
  private async readBeside(pieces: Pieces, watch: ReadWatch): Promise<{ started: boolean; refused?: Refused }> {
    const beside = this.startBeside(watch);
    if (beside === undefined) return { started: false };
    const refused = (await readWithOther(beside, pieces, watch, this)) ?? this.processHeld(pieces);
    return refused ? { started: true, refused } : { started: true };
  }

  /** Another thread that reads rows as they stand in the file, where they can be read by themselves. */
  private startBeside({ beside }: ReadWatch): RowsBeside | undefined {
    const { plan, quoted, unlabel, checksums, lineEnd } = this.layout;
    if (beside === undefined || quoted || unlabel || checksums || lineEnd !== 10) return undefined;
    const shared = sharedPlan(plan);
    const rows = shared && beside(shared, this.capacity);
    rows?.beginAt(this.rows);
    if (rows !== undefined) this.sinks.forEach((sink, k) => sink.moveTo(rows.valuesOf(k), this.rows));
    return rows;
  }

  /** Goes on in memory of its own. */
  leaveShared(): void {
    for (const sink of this.sinks) sink.grow(this.capacity);
  }

  /** Takes rows, of which another thread has read some or none. */
  take({ bytes, end, fraction }: WaitingRows, scanned: Scanned | undefined): Refused | undefined {
    const { cursor } = this;
    cursor.at = 0;
    this.lines.mark(this.cursor);
    if (scanned !== undefined) {
      const { rows, at, lines, empties, values } = scanned;
      this.sinks.forEach((sink, k) => {
        sink.takeValues(values(k), cursor.row);
        sink.empty ||= empties[k] !== 0;
      });
      cursor.row += rows;
      cursor.at = at;
      cursor.line += lines;
    }
    return this.readRows(bytes, end, fraction, false);
  }

  /** Reads what is held after the last piece. */
  private finish(): Refused | undefined {
    const { held } = this;
    held.trimZeros(0);
    if (held.length > 0) {
      held.append(Uint8Array.of(this.layout.lineEnd));
      const refused = this.process(held.length, 1, true);
      if (refused) return refused;
    }
    this.cursor.row = this.damage.leaveOutRemarks(this.cursor.row, this.findings);
    return undefined;
  }

  /** Reads bytes [0, end) of the buffer and moves the rest to its front. */
  private process(end: number, fraction: number, unended: boolean): Refused | undefined {
    const { cursor, layout } = this;
    cursor.at = 0;
    this.lines.mark(this.cursor);
    const refused =
      (layout.quoted ? this.readQuoted(end) : undefined) ?? this.readRows(this.held.bytes, end, fraction, unended);
    this.held.drop(end);
    return refused;
  }

  /** Reads rows from the cursor to a byte that ends a line. */
  private readRows(bytes: Uint8Array, end: number, fraction: number, unended: boolean): Refused | undefined {
    const { cursor, layout } = this;
    let refused: Refused | undefined;
    while (cursor.at < end && !refused) {
      if (cursor.row === this.capacity) refused = this.grow(fraction * (cursor.at / end));
      if (refused) break;
      if (!layout.unlabel && !layout.checksums) scan(bytes, cursor, end, this.capacity, layout.plan);
      if (cursor.at < end && cursor.row < this.capacity) refused = this.readLine(bytes, end, unended);
    }
    for (const sink of this.sinks) sink.lookUpTo(cursor.row);
    return refused;
  }

  private grow(fraction: number): Refused | undefined {
    const columns = this.layout.plan.sinks.filter((sink) => sink.kind !== 'skip').length;
    const wanted = fraction > 0.05 ? (1.05 * this.cursor.row) / fraction : 2 * this.cursor.row;
    const most = Math.floor(limits.samples / Math.max(columns, 1));
    this.capacity = Math.min(most, Math.max(Math.ceil(wanted), Math.ceil(1.25 * this.cursor.row)) + 1024);
    if (this.capacity <= this.cursor.row)
      return refuse('too-many-samples', { path: this.layout.path, what: 'numbers' });
    for (const sink of this.layout.plan.sinks) sink.grow(this.capacity);
    return undefined;
  }

  private readLine(buffer: Uint8Array, end: number, unended: boolean): Refused | undefined {
    const { cursor, layout } = this;
    this.lines.mark(this.cursor);
    let to = cursor.at;
    while (to < end && buffer[to] !== 10 && buffer[to] !== 13) to++;
    const text = this.withoutZeros(layout.decoder.decode(buffer.slice(cursor.at, to)));
    if (buffer[to] === 13 && buffer[to + 1] === 10) to++;
    cursor.at = Math.min(to + 1, end);
    const isLast = unended && cursor.at >= end;
    const bare = this.withoutFrame(text);
    const line = bare !== undefined && layout.unlabel && !isBlank(bare) ? layout.unlabel(bare) : bare;
    let refused: Refused | undefined;
    if (bare === undefined) {
      if (!isLast) this.lose();
    } else if (line === undefined) {
      if (!isLast) refused = this.fault({ kind: 'cell', column: 1, text, whole: text, found: 0 });
    } else if (!this.isNoRow(line)) refused = this.takeRow(fieldsOf(line, layout.delimiter), line, isLast);
    cursor.line++;
    this.lines.mark(this.cursor);
    return refused;
  }

  /** A line without the mark before it and the checksum behind it, where they have such; undefined where that is wrong. */
  private withoutFrame(text: string): string | undefined {
    const { isMarked, checksums, headerText } = this.layout;
    const unmarked = isMarked ? uncommented(text) : text;
    if (checksums === undefined || unmarked.trim() === headerText?.trim()) return unmarked;
    const bare = checksums.bare(unmarked);
    if (bare === undefined && this.wrongSums++ === 0) this.firstWrongSum = this.cursor.line;
    return bare;
  }

  /** A block of zeros that a loss of power left within the rows parts what stands before and after it. */
  private withoutZeros(text: string): string {
    if (!text.includes('\0')) return text;
    this.zerosWithin ||= this.cursor.line;
    return text.replace(/\0+/g, ' ');
  }

  /** Whether a line is blank, a comment, or the header once more. */
  private isNoRow(text: string): boolean {
    if (isBlank(text)) return true;
    if (isComment(text)) {
      if (this.comments.length < 100) this.comments.push(text);
      if (this.wouldBeRow(uncommented(text)) && this.markedRows++ === 0) this.firstMarkedRow = this.cursor.line;
      return true;
    }
    if (text.trim() !== this.layout.headerText?.trim()) return false;
    this.repeatedHeaders.push(this.cursor.line);
    return true;
  }

  /** Whether a text has a number in each column of numbers. */
  private wouldBeRow(text: string): boolean {
    const { sinks } = this.layout.plan;
    const fields = withoutTail(fieldsOf(text, this.layout.delimiter), this.layout.tail);
    return (
      fields.length === sinks.length &&
      sinks.every(({ kind }, k) => kind !== 'number' || parseNumber(fields[k], this.layout.decimal) !== undefined)
    );
  }

  private readQuoted(end: number): Refused | undefined {
    const { cursor, layout } = this;
    const text = layout.decoder.decode(this.held.bytes.subarray(0, end)).replace(/\r\n?/g, '\n');
    for (const fields of papa.parse(text.replace(/\n$/, ''), { delimiter: layout.delimiter, quoteChar: '"' }).data) {
      const joined = fields.join(layout.delimiter);
      const refused =
        (cursor.row === this.capacity ? this.grow(0) : undefined) ??
        (this.isNoRow(joined) ? undefined : this.takeRow(fields, joined, false));
      if (refused) return refused;
      cursor.line += 1 + joined.split('\n').length - 1;
    }
    cursor.at = end;
    return undefined;
  }

  private takeRow(found: readonly string[], text: string, mayBeCut: boolean): Refused | undefined {
    const { cursor, layout } = this;
    const fields = withoutTail(found, layout.tail);
    const { sinks } = layout.plan;
    while (fields.length > sinks.length && isBlank(fields[fields.length - 1])) fields.pop();
    if (fields.length !== sinks.length) {
      if (mayBeCut && fields.length < sinks.length) return this.noteCut(text);
      return this.fault({ kind: 'width', column: undefined, text, whole: text, found: fields.length });
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
        if (mayBeCut) return this.noteCut(text);
        const column = columnOfField(text, fields, k);
        return this.fault({ kind: 'cell', column, text: cell, whole: text, found: 0 }, k);
      }
      if (Number.isNaN(value)) {
        sink.empty = true;
        if (isOverload(cell) && this.overloads++ === 0) this.firstOverload = { line: cursor.line, cell };
      }
      sink.values[cursor.row] = value;
    }
    cursor.row++;
    return undefined;
  }

  private valueOf(cell: string, k: number): number | undefined {
    const sink = this.layout.plan.sinks[k];
    if (sink.kind === 'number') return parseNumber(cell, this.layout.decimal);
    const bytes = new TextEncoder().encode(cell);
    const seconds = sink.stamps!.read(bytes, 0, bytes.length);
    return Number.isNaN(seconds) ? undefined : seconds;
  }

  private noteCut(text: string): undefined {
    this.findings.push(finding('cut-short', 'note', { line: this.cursor.line, text }));
  }

  /** Keeps a row of no readings for a line that is no row, until all lines are read and it can be judged. */
  private fault(fault: Pick<Fault, 'kind' | 'column' | 'text' | 'whole' | 'found'>, k?: number): Refused | undefined {
    const { row, line } = this.cursor;
    const { plan, names } = this.layout;
    const [name, stamp] = k === undefined ? [undefined, false] : [names[k], plan.sinks[k].kind === 'stamp'];
    const refused = this.damage.add({ ...fault, row, line, name, stamp });
    this.lose();
    return refused;
  }

  /** Puts a row of no readings in the place of one that is lost. */
  private lose(): void {
    for (const sink of this.layout.plan.sinks) {
      if (sink.kind === 'skip') continue;
      sink.values[this.cursor.row] = NaN;
      sink.empty = true;
    }
    this.cursor.row++;
  }

  private addFindings(): void {
    const { findings } = this;
    if (this.held.hasZerosAtEnd) findings.push(finding('zero-bytes', 'note', {}));
    if (this.wrongSums > 0) {
      const facts = { count: this.wrongSums, rows: this.rows, line: this.firstWrongSum };
      findings.push(finding('checksum', 'warning', facts, { value: this.wrongSums }));
    }
    if (this.layout.checksums?.isKnown === false) findings.push(finding('checksum-unknown', 'note', {}));
    if (this.markedRows > 0) {
      const facts = { count: this.markedRows, line: this.firstMarkedRow };
      findings.push(finding('commented-rows', 'warning', facts, { value: this.markedRows }));
    }
    if (this.zerosWithin > 0) findings.push(finding('zero-bytes', 'warning', { line: this.zerosWithin }));
    if (this.firstOverload) {
      const { line, cell: text } = this.firstOverload;
      const facts = { count: this.overloads, line, text };
      findings.push(finding('overload', 'fault', facts, { value: this.overloads }));
    }
    const line = this.repeatedHeaders.at(0);
    if (line === undefined) return;
    const count = this.repeatedHeaders.length;
    findings.push(finding('header-repeated', 'note', { count, line }, { value: count }));
  }
}
