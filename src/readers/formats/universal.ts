import { success, type Result } from '../../result/result.ts';
import type { Reading } from '../assemble.ts';
import { limits } from '../limits.ts';
import { finding, refuse } from '../messages.ts';
import type { UniversalSeries } from '../messages/file.ts';
import type { OpenFile } from '../pieces.ts';
import type { ReadWatch } from '../recording.ts';
import type { Table, TableColumn } from '../table.ts';
import { Feed } from './feed.ts';
import { functionHeader, headerLines, type FunctionHeader } from './universalFunction.ts';
import { binaryForm, sizesOf, valuesInBytes, valuesInText, type FunctionValues } from './universalValues.ts';
import { log10Of } from '../../numbers/logarithm.ts';

/** One function of dataset 58. */
type Response = FunctionHeader & FunctionValues;

const minus = 0x2d;
/** Such bytes as `trim` takes away. */
const isBlank = (byte: number): boolean => byte === 0x20 || (byte >= 9 && byte <= 13) || byte === 0xa0;

/** Whether a text begins with a delimiter of the Universal File Format and the number of a dataset. */
export function isUniversal(head: Uint8Array): boolean {
  // Most texts are told by their first byte, of thousands of recordings in turn.
  if (head.length > 0 && head[0] !== minus && !isBlank(head[0])) return false;
  const lines = String.fromCharCode(...head.subarray(0, 400)).split('\n');
  const first = lines.findIndex((line) => line.trim() !== '');
  return (
    first >= 0 && /^ {0,4}-1\s{0,80}$/.test(lines[first]) && /^\s{0,6}\d{1,6}b?(?:\s|$)/.test(lines[first + 1] ?? '')
  );
}

const isDelimiter = (text: string): boolean => /^\s{0,4}-1\s*$/.test(text);

/**
 * Reads the time responses of dataset 58 (function at nodal degree of freedom) from a Universal File, as its published
 * description has it (Structural Dynamics Research Laboratory, University of Cincinnati: Universal file formats): real,
 * as text, or as bytes of IEEE 754 in either order (58b). Each function is a channel: x, y, z by its direction where all
 * are at one node. An acceleration without a unit is in that of the file's dataset 164, where there is one.
 */
export async function readUniversal(file: OpenFile, watch: ReadWatch): Promise<Result<Reading>> {
  const { path } = file;
  const pieces = file.from(0);
  const sets = new Datasets(path, new Feed(pieces), () => {
    watch.progress(pieces.progress());
    return watch.cancelled();
  });
  const responses: Response[] = [];
  const others = new Set<string>();
  let acceleration: string | undefined;
  for (;;) {
    const set = await sets.next();
    if (!set.ok) return set;
    if (set.value === undefined) break;
    const { kind, lines, response } = set.value;
    if (response) responses.push(response);
    else if (kind === '164') acceleration = accelerationIn(lines);
    else others.add(kind);
  }
  const settled = responses.map((one) =>
    one.unit === undefined && one.isAcceleration ? { ...one, unit: acceleration } : one,
  );
  return readingOf(path, settled, others);
}

interface Dataset {
  readonly kind: string;
  readonly lines: readonly string[];
  /** Where it is a time response. */
  readonly response: Response | undefined;
}

/** The datasets of a file, one after another. */
class Datasets {
  private readonly path: string;
  private readonly feed: Feed;
  private readonly cancelled: () => boolean;
  private line = 0;

  constructor(path: string, feed: Feed, cancelled: () => boolean) {
    this.path = path;
    this.feed = feed;
    this.cancelled = cancelled;
  }

  /** The next one, or undefined after the last. Refuses one that is not closed, or a response that can't be read. */
  async next(): Promise<Result<Dataset | undefined>> {
    let text = await this.take();
    while (text !== undefined && !isDelimiter(text)) text = await this.take();
    const from = this.line + 1;
    const first = text === undefined ? undefined : await this.take();
    if (first === undefined) return success(undefined);
    const kind = first.trim().split(/\s+/)[0] ?? '';
    if (kind === '58b') return this.binary(first, from);
    const lines = [first];
    for (text = await this.take(); text !== undefined && !isDelimiter(text); text = await this.take()) {
      if (this.line % 10_000 === 0 && this.cancelled()) return refuse('cancelled', { path: this.path });
      lines.push(text);
    }
    if (text === undefined) return refuse('damaged-universal', { path: this.path, line: this.line });
    if (kind !== '58') return success({ kind, lines, response: undefined });
    const header = functionHeader(this.path, lines, from);
    if (!header.ok) return header;
    if (header.value === undefined) return success({ kind, lines, response: undefined });
    const found = valuesInText(this.path, header.value, lines.slice(headerLines));
    return found.ok ? success({ kind, lines: [], response: { ...header.value, ...found.value } }) : found;
  }

  private async binary(first: string, from: number): Promise<Result<Dataset>> {
    const { path } = this;
    const lines = [first];
    while (lines.length < headerLines) {
      const text = await this.take();
      if (text === undefined) return refuse('damaged-universal', { path, line: this.line });
      lines.push(text);
    }
    const form = binaryForm(path, first, from);
    if (!form.ok) return form;
    const header = functionHeader(path, lines, from);
    if (!header.ok) return header;
    let response: Response | undefined;
    if (header.value === undefined) await this.feed.pass(form.value.bytes);
    else {
      const sizes = sizesOf(header.value, form.value);
      const length = form.value.bytes || header.value.count * (sizes[0] + sizes[1]);
      if (length > 8 * limits.samples) return refuse('too-many-samples', { path, what: 'values' });
      const found = valuesInBytes(path, header.value, await this.feed.take(length), form.value);
      if (!found.ok) return found;
      response = { ...header.value, ...found.value };
    }
    if (this.cancelled()) return refuse('cancelled', { path });
    // The delimiter stands at the end of the bytes, or on a line of its own.
    let text = await this.take();
    while (text?.trim() === '') text = await this.take();
    if (text === undefined || !isDelimiter(text)) return refuse('damaged-universal', { path, line: this.line });
    return success({ kind: '58b', lines, response });
  }

  private async take(): Promise<string | undefined> {
    this.line++;
    return this.feed.line(limits.line);
  }
}

/** The unit of acceleration by the units code of dataset 164: SI, feet, SI, feet, mm, cm, inches, mm. */
function accelerationIn(lines: readonly string[]): string | undefined {
  const code = Number((lines[1] ?? '').slice(0, 10));
  return [, 'm/s^2', 'ft/s^2', 'm/s^2', 'ft/s^2', 'mm/s^2', 'cm/s^2', 'in/s^2', 'mm/s^2'][code];
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
  if (first.times !== undefined) columns.unshift(timeColumn(first.times, first.digits));
  const table: Table = {
    columns,
    rows: first.values.length,
    named: true,
    isOfSignals: first.times === undefined,
    lineOf: () => undefined,
  };
  const layout = { format: 'Universal File, dataset 58', rows: first.values.length, keys: { title: first.title } };
  if (first.times !== undefined) return success({ table, origin: { path, layout, findings } });
  const stated = { rate: rateOf(first), from: 'file header' as const, name: 'the file header' };
  return success({ table, origin: { path, layout, findings, stated, epoch: first.first } });
}

/** The abscissa as the time, as fine as so many digits of its largest number. */
function timeColumn(values: Float64Array, digits: number): TableColumn {
  const largest = Math.max(Math.abs(values[0]), Math.abs(values[values.length - 1]));
  const decimals = largest > 0 ? digits - 1 - Math.floor(log10Of(largest)) : digits;
  return { kind: 'number', header: 'time', unitBelow: 's', values, decimals: Math.min(12, decimals) };
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
