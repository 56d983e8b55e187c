import { recordingOf, sine } from './notebook.ts';

/** Runs of several conditions with their run sheet. */
export interface Mounts {
  /** Runs in the order of the sheet: the condition of each, its band r.m.s. in g, and what the sheet says besides. */
  readonly runs: readonly { readonly condition: string; readonly level: number; readonly facts?: Facts }[];
  readonly seconds?: number;
}

type Facts = Readonly<Record<string, string | number>>;

/**
 * Recordings whose z is a sine of 20 Hz with the level given, beside one of 60 Hz that is the same in all; x holds as
 * much more of the like. The sheet `runs.csv` has a row for each.
 */
export function mounts({ runs, seconds = 4 }: Mounts): Record<string, string> {
  const headers = [...new Set(runs.flatMap(({ facts = {} }) => Object.keys(facts)))];
  const files: Record<string, string> = {};
  const rows = runs.map(({ condition, level, facts = {} }, k) => {
    const name = `${condition}-${k + 1}.csv`;
    const [signal, other] = [sine(20, level * Math.SQRT2, 1), sine(60, 0.05)];
    const z = (t: number): number => signal(t) + other(t);
    const [across, noise] = [sine(20.37, 2 * level), sine(61.3, 0.1)];
    files[name] = recordingOf({ x: (t) => across(t) + noise(t), z }, { seconds });
    return [name, condition, ...headers.map((header) => facts[header] ?? '')].join(',');
  });
  files['runs.csv'] = [['file', 'condition', ...headers].join(','), ...rows].join('\n') + '\n';
  return files;
}

/** Loads each condition by its name; with `where` more, and of channel z unless said. */
export const loadMounts = (conditions: readonly string[], where = '', channel = ' | channel z'): string =>
  conditions.map((one) => `${one} = load sheet "runs.csv" where condition ${one}${where} unit g${channel}\n`).join('');

/** Numbers that stand for scatter: the same in every test. */
export const wobble = (k: number): number => Math.sin(12.9898 * (k + 1)) * 0.02;
