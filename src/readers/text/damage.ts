import { axisOf, readHeader } from '../names.ts';
import type { Refused } from '../../result/result.ts';
import { finding, refuse } from '../messages.ts';
import type { Finding } from '../recording.ts';
import { isTimeName } from '../timeNames.ts';
import { fieldsOf } from './fields.ts';
import { parseNumber, type DecimalMark } from './number.ts';

/** A line that is no row of the table. */
export interface Fault {
  /** The row that stands in the columns for the line, of no readings. */
  readonly row: number;
  readonly line: number;
  readonly column: number | undefined;
  readonly text: string;
  /** The whole line. */
  readonly whole: string;
  /** The column that the text stands in, as messages call it, and whether it holds stamps. */
  readonly name: string | undefined;
  readonly stamp: boolean;
  readonly found: number;
  readonly kind: 'cell' | 'width';
}

const mostFaults = 1000;
/** Lines after the last row that may be remarks … */
const mostRemarks = 20;
/** … and the rows at the front within which a line that is none means that the layout is not understood. */
const sureRows = 20;
/** Share of the rows that may be damaged. */
const damagedShare = 0.01;

/** What is known of the table that the lines do not fit into. */
export interface TableShape {
  readonly path: string;
  readonly width: number;
  readonly delimiter: string;
  readonly decimal: DecimalMark;
}

/** The lines that are no rows, until all are read and they can be judged. */
export class Damage {
  private faults: Fault[] = [];
  private readonly shape: TableShape;

  constructor(shape: TableShape) {
    this.shape = shape;
  }

  /** Keeps a line; refuses the file where the line begins another table, or is one too many. */
  add(fault: Fault): Refused | undefined {
    this.faults.push(fault);
    const { path, delimiter } = this.shape;
    const { row, line, whole: text } = fault;
    if (row > 0 && namesColumns(text, delimiter))
      return refuse('header-changes', { path, line, text, isEarly: row < sureRows });
    return this.faults.length >= mostFaults ? this.refuse() : undefined;
  }

  /** Takes a few lines after the last row, such as totals, for no part of the table. Gives the rows that are left. */
  leaveOutRemarks(rows: number, findings: Finding[]): number {
    let left = rows;
    let count = this.faults.length;
    const isRemark = ({ kind, column }: Fault): boolean => kind === 'width' || column === 1;
    while (count > 0 && this.faults[count - 1].row === left - 1 && isRemark(this.faults[count - 1])) {
      count--;
      left--;
    }
    const remarks = this.faults.slice(count);
    if (remarks.length === 0 || remarks.length > mostRemarks || remarks.length > 0.1 * left) return rows;
    this.faults = this.faults.slice(0, count);
    const [{ line, text }] = remarks;
    findings.push(finding('remarks-below', 'note', { count: remarks.length, line, text }, { value: remarks.length }));
    return left;
  }

  /** A line here and there that is no row, as serial lines lose characters, costs its samples; more are refused. */
  leaveOut(rows: number, findings: Finding[]): Refused | undefined {
    const { faults, shape } = this;
    const first = faults.at(0);
    if (first === undefined) return undefined;
    const mark = shape.decimal === '.' ? ',' : '.';
    // A number by the other decimal mark is a reading misunderstood, not damage.
    const misread = faults.some(({ kind, text }) => kind === 'cell' && parseNumber(text, mark) !== undefined);
    if (misread || first.row < sureRows || faults.length > damagedShare * rows) return this.refuse();
    const facts = { count: faults.length, line: first.line, text: first.text };
    const basis = { value: faults.length, threshold: damagedShare * rows };
    findings.push(finding('damaged-lines', 'warning', facts, basis));
    return undefined;
  }

  private refuse(): Refused {
    const { path, width, decimal } = this.shape;
    const [{ line, column, text, row, found, kind, name, stamp }] = this.faults;
    const others = { count: this.faults.filter((one) => one.kind === kind).length, most: mostFaults };
    if (kind === 'width')
      return refuse('ragged', { path, line, text, fields: found, columns: width, others, isEarly: row < sureRows });
    const isOtherMark = parseNumber(text, decimal === '.' ? ',' : '.') !== undefined;
    return refuse('not-a-number', { path, line, column, text, name, isStamp: stamp, decimal, isOtherMark, others });
  }
}

/** Whether a line names columns, as where a logger was set up anew within one file. */
function namesColumns(line: string, delimiter: string): boolean {
  if (line.length > 500 || !/\p{L}/u.test(line)) return false;
  const names = fieldsOf(line, delimiter).filter((cell) => cell.trim() !== '');
  if (names.length < 2 || names.some((cell) => parseNumber(cell, '.') !== undefined)) return false;
  const telling = names.filter((cell) => {
    const { name, axis } = readHeader(cell);
    return axis !== undefined || axisOf(name) !== undefined || isTimeName(name);
  });
  return telling.length >= 2;
}
