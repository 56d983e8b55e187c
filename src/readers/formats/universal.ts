import { success, type Refused, type Result } from '../../result/result.ts';
import type { Reading } from '../assemble.ts';
import { limits } from '../limits.ts';
import { finding, refuse } from '../messages.ts';
import type { UniversalFault, UniversalSeries } from '../messages/file.ts';
import type { OpenFile } from '../pieces.ts';
import type { ReadWatch } from '../recording.ts';
import type { Table, TableColumn } from '../table.ts';
import { linesOf } from './feed.ts';

/** One function of dataset 58. */
interface Response {
  readonly line: number;
  readonly title: string;
  readonly node: number;
  /** Name of the response's part, or nothing. */
  readonly entity: string;
  readonly direction: number;
  readonly step: number;
  readonly first: number;
  /** The abscissa of each value, where it is uneven. */
  readonly times: Float64Array | undefined;
  readonly unit: string | undefined;
  readonly values: Float64Array;
}

/** Whether a text begins with a delimiter of the Universal File Format and the number of a dataset. */
export function isUniversal(head: Uint8Array): boolean {
  const lines = String.fromCharCode(...head.subarray(0, 400)).split('\n');
  const first = lines.findIndex((line) => line.trim() !== '');
  return (
    first >= 0 && /^ {0,4}-1\s{0,80}$/.test(lines[first]) && /^\s{0,6}\d{1,6}b?(?:\s|$)/.test(lines[first + 1] ?? '')
  );
}

const number = /[-+]?(?:\d+\.?\d*|\.\d+)(?:[EeDd][-+]?\d+)?/g;

/**
 * Reads the time responses of dataset 58 (function at nodal degree of freedom) from a Universal File, as its published
 * description has it (Structural Dynamics Research Laboratory, University of Cincinnati: Universal file formats): ASCII,
 * real. Each function is a channel: x, y, z by its direction where all are at one node.
 */
export async function readUniversal(file: OpenFile, watch: ReadWatch): Promise<Result<Reading>> {
  const { path } = file;
  const pieces = file.from(0);
  const responses: Response[] = [];
  const others = new Set<string>();
  let lines: string[] = [];
  let line = 0;
  let inside = false;
  for await (const text of linesOf(pieces, limits.line)) {
    line++;
    if (watch.cancelled()) return refuse('cancelled', { path });
    if (line % 10_000 === 0) watch.progress(pieces.progress());
    if (!/^\s{0,4}-1\s*$/.test(text)) {
      if (inside) lines.push(text);
      continue;
    }
    const set = inside ? dataset(path, lines, line - lines.length) : undefined;
    if (set?.ok === false) return set;
    if (typeof set?.value === 'string') others.add(set.value);
    else if (set) responses.push(set.value);
    inside = !inside;
    lines = [];
  }
  return inside && lines.length > 0 ? refuse('damaged-universal', { path, line }) : readingOf(path, responses, others);
}

/** The time response of a dataset, or the kind of one that holds none. */
function dataset(path: string, lines: readonly string[], from: number): Result<Response | string> {
  const kind = (lines[0] ?? '').trim().split(/\s+/)[0] ?? '';
  if (kind === '58b') return refuse('universal-binary', { path, line: from });
  return kind === '58' ? responseOf(path, lines, from) : success(kind);
}

/** A time response, or `58` where the function is another (a spectrum, say). */
function responseOf(path: string, lines: readonly string[], from: number): Result<Response | string> {
  const bad = (record: number, fault: UniversalFault): Refused =>
    refuse('universal-format', { path, line: from + record, fault });
  if (lines.length < 13) return bad(0, { kind: 'header', lines: lines.length });
  const identity = lines[6];
  const kind = Number(identity.slice(0, 5));
  const [type, count, spacing, first, step] = fieldsOf(lines[7], [10, 10, 10, 13, 13]);
  const abscissa = Number(lines[8].slice(0, 10));
  if (!(kind === 1 || (kind === 0 && abscissa === 17))) return success('58');
  if (type !== 2 && type !== 4) return bad(7, { kind: 'data type', type });
  if (spacing !== 0 && spacing !== 1) return bad(7, { kind: 'spacing' });
  if (spacing === 1 && !(step > 0)) return bad(7, { kind: 'step', step });
  if (!Number.isInteger(count) || count < 2 || count > limits.samples) return bad(7, { kind: 'count', count });
  // Of uneven spacing each value stands behind its place on the abscissa.
  const width = spacing === 0 ? 2 : 1;
  const numbers = lines
    .slice(12)
    .flatMap(numbersOf)
    .slice(0, width * count);
  if (numbers.length < width * count)
    return bad(12, { kind: 'values', values: Math.floor(numbers.length / width), count });
  const values = Float64Array.from({ length: count }, (_, i) => numbers[width * i + width - 1]);
  const times = spacing === 0 ? Float64Array.from({ length: count }, (_, i) => numbers[2 * i]) : undefined;
  const unit = unitOf(lines[9]);
  return success({
    line: from,
    title: lines[1].trim(),
    ...responseAt(identity),
    step,
    first,
    times,
    unit: /^(none)?$/i.test(unit) ? undefined : unit,
    values,
  });
}

/** The unit of an axis, from columns 48 to 67 of its record (I10,3I5,2(1X,20A1)); where a text is shorter, its last word. */
const unitOf = (record: string): string => record.slice(47, 67).trim() || record.trim().split(/\s+/).slice(5).join(' ');

/** Numbers that stand in columns of their own; where they don't, as they come. */
function fieldsOf(line: string, widths: readonly number[]): number[] {
  let at = 0;
  const texts = widths.map((width) => line.slice(at, (at += width)).trim());
  const isNumber = (text: string): boolean => text.match(number)?.[0] === text;
  return texts.every(isNumber) ? texts.map((text) => Number(text.replace(/[Dd]/, 'e'))) : numbersOf(line);
}

function numbersOf(line: string): number[] {
  return (line.match(number) ?? []).map((text) => Number(text.replace(/[Dd]/, 'e')));
}

/** Response node and direction of record 6, by its columns: 2(I5,I10), 2(1X,10A1,I10,I4). */
function responseAt(identity: string): Pick<Response, 'node' | 'entity' | 'direction'> {
  const entity = identity.slice(31, 41).trim();
  return {
    entity: /^none$/i.test(entity) ? '' : entity,
    node: Number(identity.slice(41, 51)) || 0,
    direction: Number(identity.slice(51, 55)) || 0,
  };
}

function readingOf(path: string, responses: readonly Response[], others: ReadonlySet<string>): Result<Reading> {
  const first = responses.at(0);
  if (first === undefined) return refuse('no-time-response', { path, held: [...others] });
  const series = (one: Response): UniversalSeries => ({ values: one.values.length, rate: rateOf(one) });
  const odd = responses.find((one) => !isAlongside(one, first));
  if (odd) return refuse('universal-differ', { path, line: odd.line, own: series(odd), first: series(first) });
  const isTurned = responses.some(({ direction }) => direction < 0);
  const findings = isTurned ? [finding('direction-reversed', 'note', {})] : [];
  const oneNode = new Set(responses.map(({ node, entity }) => `${node} ${entity}`)).size === 1;
  const columns = responses.map((one): TableColumn => {
    const values = one.direction < 0 ? one.values.map((value) => -value) : one.values;
    return { kind: 'number', header: nameOf(one, oneNode), unitBelow: one.unit, values, decimals: 9 };
  });
  if (first.times !== undefined)
    columns.unshift({ kind: 'number', header: 'time', unitBelow: 's', values: first.times, decimals: 9 });
  const table: Table = { columns, rows: first.values.length, named: true, lineOf: () => undefined };
  const layout = { format: 'Universal File, dataset 58', rows: first.values.length, keys: { title: first.title } };
  if (first.times !== undefined) return success({ table, origin: { path, layout, findings } });
  const stated = { rate: rateOf(first), from: 'file header' as const, name: 'the file header' };
  return success({ table, origin: { path, layout, findings, stated, epoch: first.first } });
}

/** In Hz; of uneven spacing the mean. */
const rateOf = ({ times, values, step }: Response): number =>
  times === undefined ? 1 / step : (values.length - 1) / (times[times.length - 1] - times[0]);

/** Whether two functions share their clock. */
function isAlongside(one: Response, other: Response): boolean {
  if (one.values.length !== other.values.length) return false;
  if (one.times === undefined || other.times === undefined)
    return one.times === other.times && Math.abs(one.step / other.step - 1) < 1e-6;
  const { times } = other;
  return one.times.every((time, i) => time === times[i]);
}

function nameOf({ node, entity, direction }: Response, oneNode: boolean): string {
  const letter = ['', 'x', 'y', 'z', 'rx', 'ry', 'rz'][Math.abs(direction)] ?? '';
  if (oneNode && letter !== '') return letter;
  if (entity !== '') return `${entity} ${node}${letter ? ` ${letter}` : ''}`;
  return `node ${node}${letter ? ` ${letter}` : ''}`;
}
