import type { TopLevelSpec } from 'vega-lite';

/** Vega as plain JSON. */
export type Compiled = Record<string, unknown>;

let vegaLite: typeof import('./vegaLite.ts') | undefined;

/** Loads what compiles charts, which nobody need wait for who draws none; to be awaited before the picture of a chart is asked for. */
export async function readyToDraw(): Promise<void> {
  vegaLite ??= await import('./vegaLite.ts');
}

/** How many specifications are remembered: as many charts as some notebooks show. */
const most = 64;

/** Compiled specifications, as text, by their own text without data; the one that was used last stands last. */
const known = new Map<string, string>();

/**
 * Vega-Lite to Vega. Compiling does not look at inline data but to tell equal ones, and takes ten times as long as all else of a chart:
 * what differs in its data only, as a chart does whose trim moves, is compiled once. The result is the caller's own.
 */
export function compiled(specification: { readonly description: string }): Compiled {
  const data: unknown[][] = [];
  const template = withoutData({ ...specification, description: '' }, data);
  const key = JSON.stringify(template);
  const before = known.get(key);
  known.delete(key);
  const made = before ?? JSON.stringify(compile(template as TopLevelSpec));
  known.set(key, made);
  if (known.size > most) known.delete(known.keys().next().value!);
  const vega = JSON.parse(made) as Compiled;
  return withData({ ...vega, description: specification.description }, data);
}

function compile(specification: TopLevelSpec): object {
  if (vegaLite === undefined) throw new Error('a picture was asked for before `readyToDraw`');
  return vegaLite.compile(specification, { logger: quiet }).spec;
}

/** Vega-Lite's advice to the author of a specification is of no use to the reader of a chart. */
const quiet = {
  level: () => 0,
  error: (...said: readonly unknown[]): never => {
    throw new Error(`Vega-Lite refused a chart: ${said.join(' ')}`);
  },
  warn: () => quiet,
  info: () => quiet,
  debug: () => quiet,
} as never;

/** In place of rows: which of the data they are. */
const placeOf = (at: number): unknown[] => [{ $data: at }];

/** A copy with a place in each rows' stead; equal rows get the same, for Vega-Lite makes one source of them. */
function withoutData(node: unknown, data: unknown[][]): unknown {
  if (Array.isArray(node)) return node.map((one) => withoutData(one, data));
  if (typeof node !== 'object' || node === null) return node;
  return Object.fromEntries(
    Object.entries(node).map(([name, one]: [string, unknown]) => {
      if (name !== 'data' || !isInline(one)) return [name, withoutData(one, data)];
      const found = data.findIndex((rows) => isSame(rows, one.values));
      const at = found >= 0 ? found : data.push(one.values) - 1;
      return [name, { ...one, values: placeOf(at) }];
    }),
  );
}

const isInline = (data: unknown): data is { readonly values: unknown[] } =>
  typeof data === 'object' && data !== null && 'values' in data && Array.isArray(data.values);

/** Whether two pieces of plain JSON are equal. */
function isSame(a: unknown, b: unknown): boolean {
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return Object.is(a, b);
  if (a === b) return true;
  if (Array.isArray(a)) return Array.isArray(b) && a.length === b.length && a.every((one, at) => isSame(one, b[at]));
  const [own, other] = [Object.entries(a), new Map<string, unknown>(Object.entries(b))];
  return own.length === other.size && own.every(([name, one]) => other.has(name) && isSame(one, other.get(name)));
}

function withData(vega: Compiled, data: readonly unknown[][]): Compiled {
  const sources = (vega.data ?? []) as { values?: unknown }[];
  for (const source of sources) {
    const first: unknown = Array.isArray(source.values) ? source.values[0] : undefined;
    if (typeof first === 'object' && first !== null && '$data' in first) source.values = data[first.$data as number];
  }
  return vega;
}
