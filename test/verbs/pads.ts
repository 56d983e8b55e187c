import { recordingOf, sine } from './notebook.ts';

/** Band r.m.s. of each run, in g, and what the run sheet says of it. */
export interface Pads {
  readonly a: readonly number[];
  readonly b: readonly number[];
  /** Place of each run in the day, those of A first. */
  readonly order?: readonly number[];
  /** Further columns of the sheet: a header and a cell a run, those of A first. */
  readonly facts?: Readonly<Record<string, readonly string[]>>;
  readonly seconds?: number;
}

/** The worked example that the statistics are published with. */
export const worked: Pads = { a: [0.3, 0.312, 0.305], b: [0.262, 0.255, 0.27] };

/**
 * Recordings of two pads with a run sheet: each run is a sine of 20 Hz whose r.m.s. is the level given, beside a sine of
 * 60 Hz that is the same in all, so that the band from 10 to 30 Hz holds that level and nothing else.
 */
export function pads({ a, b, order, facts = {}, seconds = 10 }: Pads): Record<string, string> {
  const levels = [...a, ...b];
  const names = levels.map((_, k) => (k < a.length ? `foam-${k + 1}` : `gel-${k - a.length + 1}`));
  const files: Record<string, string> = {};
  levels.forEach((level, k) => {
    const signal = sine(20, level * Math.SQRT2, 1);
    const other = sine(60, 0.05);
    files[`${names[k]}.csv`] = recordingOf({ z: (t) => signal(t) + other(t) }, { seconds });
  });
  const columns = Object.keys(facts);
  const rows = names.map((name, k) =>
    [`${name}.csv`, k < a.length ? 'foam' : 'gel', order?.[k] ?? '', ...columns.map((column) => facts[column][k])].join(
      ',',
    ),
  );
  files['runs.csv'] = [['file', 'condition', 'order', ...columns].join(','), ...rows].join('\n') + '\n';
  return files;
}

export const loadPads =
  'foam = load sheet "runs.csv" where condition foam unit g\ngel = load sheet "runs.csv" where condition gel unit g\n';

/** The first recording of the second pad with a clock that stood still for a while. */
export function stopped(made: Pads): Record<string, string> {
  const rows = pads(made)['gel-1.csv'].split('\n');
  const [held] = rows[400].split(',');
  return { 'gel-1.csv': rows.map((row, i) => (i > 400 && i < 460 ? row.replace(/^[^,]*/, held) : row)).join('\n') };
}
