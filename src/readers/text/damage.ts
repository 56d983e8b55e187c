import { axisOf, readHeader } from '../names.ts';
import type { Finding } from '../recording.ts';
import { Refused, place, quote } from '../refusal.ts';
import { isTimeName } from '../time-names.ts';
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

  add(fault: Fault): void {
    this.faults.push(fault);
    const { path, delimiter } = this.shape;
    if (fault.row > 0 && namesColumns(fault.whole, delimiter)) {
      const early = fault.row < sureRows;
      throw new Refused(
        'header-changes',
        `${place(path, fault.line)}: from here on the columns are others than above (${quote(fault.whole)}): ${early ? `pass over what is above with skip ${fault.line - 1} if the table begins here, or ` : ''}cut the file in two before this line.`,
      );
    }
    if (this.faults.length >= mostFaults) this.refuse();
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
    const one = remarks.length === 1;
    findings.push({
      code: 'remarks-below',
      severity: 'note',
      message: `${one ? 'The last line is no row' : `The last ${remarks.length} lines are no rows`} of the table (line ${remarks[0].line}: ${quote(remarks[0].text)}) and ${one ? 'was' : 'were'} left out.`,
      value: remarks.length,
    });
    return left;
  }

  /** A line here and there that is no row, as serial lines lose characters, costs its samples; more are refused. */
  leaveOut(rows: number, findings: Finding[]): void {
    const { faults, shape } = this;
    const [first] = faults;
    if (first === undefined) return;
    const mark = shape.decimal === '.' ? ',' : '.';
    // A number by the other decimal mark is a reading misunderstood, not damage.
    const misread = faults.some(({ kind, text }) => kind === 'cell' && parseNumber(text, mark) !== undefined);
    if (misread || first.row < sureRows || faults.length > damagedShare * rows) this.refuse();
    const one = faults.length === 1;
    findings.push({
      code: 'damaged-lines',
      severity: 'warning',
      message: `${faults.length} ${one ? 'line is no row' : 'lines are no rows'} of the table (first at line ${first.line}: ${quote(first.text)}) and ${one ? 'was' : 'were'} left out.`,
      value: faults.length,
      threshold: damagedShare * rows,
    });
  }

  private refuse(): never {
    const { path, width, decimal } = this.shape;
    const [first] = this.faults;
    const count = this.faults.filter(({ kind }) => kind === first.kind).length;
    const more =
      count >= mostFaults ? `, as do more than ${mostFaults} others` : count > 1 ? `, as do ${count - 1} others` : '';
    const where = place(path, first.line, first.column);
    if (first.kind === 'width') {
      const advice =
        first.row < sureRows
          ? `pass over the lines down to it with skip ${first.line} if the table begins below it`
          : 'mend or remove it';
      throw new Refused(
        'ragged',
        `${where}: this line has ${first.found} ${first.found === 1 ? 'field' : 'fields'} where the others have ${width} (${quote(first.text)})${more}: ${advice}, or say how fields are parted with delimiter.`,
      );
    }
    const otherMark = decimal === '.' ? ',' : '.';
    const asOther = parseNumber(first.text, otherMark) !== undefined;
    const what = first.name ?? 'the line';
    const wanted = first.stamp
      ? 'a time of the form that the column has'
      : `a number (the decimal mark is "${decimal}")`;
    throw new Refused(
      'not-a-number',
      `${where}: ${quote(first.text)} in ${what} is not ${wanted}${more}: ${asOther ? `write decimal "${otherMark}" if that is the file's mark, or ` : ''}mend or remove the line.`,
    );
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
