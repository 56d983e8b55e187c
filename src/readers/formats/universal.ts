import type { Origin } from '../assemble.ts';
import { limits } from '../limits.ts';
import type { Pieces } from '../pieces.ts';
import type { Finding, ReadWatch } from '../recording.ts';
import { Refused, figure, place } from '../refusal.ts';
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
 * real, even spacing. Each function is a channel: x, y, z by its direction where all are at one node.
 */
export async function readUniversal(
  path: string,
  pieces: Pieces,
  size: number,
  watch: ReadWatch,
): Promise<{ readonly origin: Origin; readonly table: Table }> {
  const responses: Response[] = [];
  const passed = new Map<string, number>();
  const state = { path, responses, passed, lines: [] as string[], line: 0, inside: false };
  for await (const text of linesOf(pieces, limits.line)) {
    state.line++;
    if (watch.cancelled()) throw new Refused('cancelled', `${path}: reading was stopped.`);
    if (state.line % 10_000 === 0) watch.progress(Math.min(1, pieces.taken() / size));
    if (/^\s{0,4}-1\s*$/.test(text)) {
      if (state.inside) endSet(state);
      state.inside = !state.inside;
      state.lines = [];
    } else if (state.inside) state.lines.push(text);
  }
  if (state.inside && state.lines.length > 0) {
    throw new Refused(
      'damaged-universal',
      `${place(path, state.line)}: the last dataset of this Universal File is not closed, so the file is cut short: export it again.`,
    );
  }
  return tableOf(path, responses, passed);
}

function endSet(state: {
  path: string;
  responses: Response[];
  passed: Map<string, number>;
  lines: string[];
  line: number;
}): void {
  const { path, lines, passed } = state;
  const kind = (lines[0] ?? '').trim().split(/\s+/)[0] ?? '';
  const from = state.line - lines.length;
  if (kind === '58b')
    throw new Refused(
      'universal-binary',
      `${place(path, from)}: this Universal File holds dataset 58 in its binary form, which can't be read: export it as ASCII.`,
    );
  const response = kind === '58' ? responseOf(path, lines, from) : undefined;
  if (response) state.responses.push(response);
  else passed.set(kind, (passed.get(kind) ?? 0) + 1);
}

/** A time response, or undefined where the function is another (a spectrum, say). */
function responseOf(path: string, lines: readonly string[], from: number): Response | undefined {
  const bad = (record: number, what: string): never => {
    throw new Refused(
      'universal-format',
      `${place(path, from + record)}: ${what}: export the time histories as ASCII, real, evenly spaced.`,
    );
  };
  if (lines.length < 13) bad(0, `dataset 58 has ${lines.length} lines, fewer than its header`);
  const identity = lines[6];
  const kind = Number(identity.slice(0, 5));
  const [type, count, spacing, first, step] = numbersOf(lines[7]);
  const abscissa = Number(lines[8].slice(0, 10));
  if (!(kind === 1 || (kind === 0 && abscissa === 17))) return undefined;
  if (type !== 2 && type !== 4)
    bad(
      7,
      `the function is ${type === 5 || type === 6 ? 'complex' : `of data type ${type}`}, and only real ones can be read`,
    );
  if (spacing !== 1) bad(7, 'the function is unevenly spaced, which is not read here');
  if (!(step > 0)) bad(7, `the step of ${step} s is no time step`);
  if (!Number.isInteger(count) || count < 2 || count > limits.samples) bad(7, `the function states ${count} values`);
  const values = new Float64Array(Math.min(count, 13 * lines.length));
  let filled = 0;
  for (const line of lines.slice(12))
    for (const value of numbersOf(line)) if (filled < values.length) values[filled++] = value;
  if (filled < count) bad(12, `the function has ${filled} values where its header states ${count}`);
  const { node, entity, direction } = responseAt(identity);
  const unit = lines[9].slice(46, 66).trim() || lines[9].trim().split(/\s+/).slice(5).join(' ');
  return {
    line: from,
    title: lines[1].trim(),
    node,
    entity,
    direction,
    step,
    first,
    unit: /^(none)?$/i.test(unit) ? undefined : unit,
    values,
  };
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

function tableOf(
  path: string,
  responses: readonly Response[],
  passed: ReadonlyMap<string, number>,
): { origin: Origin; table: Table } {
  const [first] = responses;
  if (!first) {
    const held = [...passed.keys()]
      .map((kind) => (kind === '58' ? 'functions that are no time responses' : `dataset ${kind}`))
      .join(', ');
    throw new Refused(
      'no-time-response',
      `${path}: this Universal File holds no time response (dataset 58, function type 1)${held ? `, only ${held}` : ''}: export the time histories.`,
    );
  }
  for (const other of responses) {
    if (other.values.length === first.values.length && Math.abs(other.step / first.step - 1) < 1e-6) continue;
    throw new Refused(
      'universal-differ',
      `${place(path, other.line)}: this function has ${other.values.length} values at ${figure(1 / other.step)} Hz where the first has ${first.values.length} at ${figure(1 / first.step)} Hz: export functions of one rate and length to one file.`,
    );
  }
  const findings: Finding[] = [];
  if (responses.some(({ direction }) => direction < 0)) {
    findings.push({
      code: 'direction-reversed',
      severity: 'note',
      message: 'Functions that are stated along a negative axis were turned to the positive one.',
    });
  }
  const oneNode = new Set(responses.map(({ node, entity }) => `${node} ${entity}`)).size === 1;
  const columns = responses.map((one): TableColumn => {
    const values = one.direction < 0 ? one.values.map((value) => -value) : one.values;
    return { kind: 'number', header: nameOf(one, oneNode), unitBelow: one.unit, values, decimals: 9 };
  });
  const table: Table = { columns, rows: first.values.length, named: true, lineOf: () => undefined };
  const layout = { format: 'Universal File, dataset 58', rows: first.values.length, keys: { title: first.title } };
  const stated = { rate: 1 / first.step, from: 'file header' as const, name: 'the file header' };
  return { table, origin: { path, layout, findings, stated, epoch: first.first } };
}

function nameOf({ node, entity, direction }: Response, oneNode: boolean): string {
  const letter = ['', 'x', 'y', 'z', 'rx', 'ry', 'rz'][Math.abs(direction)] ?? '';
  if (oneNode && letter !== '') return letter;
  if (entity !== '') return `${entity} ${node}${letter ? ` ${letter}` : ''}`;
  return `node ${node}${letter ? ` ${letter}` : ''}`;
}
