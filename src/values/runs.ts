import type { DrawnDescription } from './description.ts';
import type { ExcludedRun } from './excluded.ts';
import { sampleCount, type Run } from './run.ts';

/** One or more recordings, or stretches of them. */
export interface RunsValue {
  readonly kind: 'runs';
  /** What the set is called in legends: the `label` of `load`, else the name it was bound to. */
  readonly set: string | undefined;
  readonly runs: readonly Run[];
  /** Runs that the run sheet leaves out. */
  readonly excluded?: readonly ExcludedRun[];
}

const units = ({ channels }: Run): string[] => channels.map(({ unit }) => unit.symbol);

/** The unit of every channel, or none. */
function commonUnit({ runs }: RunsValue): string {
  const found = [...new Set(runs.flatMap(units))];
  return found.length === 1 ? found[0] : '';
}

const duration = (run: Run): number => sampleCount(run) / run.rate;

export const runsKind = {
  kind: 'runs',
  words: 'runs',
  caption: () => 'Runs',
  whole: [
    { key: 'unit', json: commonUnit },
    {
      key: 'count',
      read: ({ runs }) => runs.length,
      doc: 'The number of runs',
      dimension: 'ratio',
      notIn: 'json and table',
    },
  ],
  rows: {
    key: 'runs',
    of: ({ runs }) => runs,
    each: ['run', 'a run'],
    names: [{ key: 'label', heading: 'run', read: ({ label }) => label }],
    columns: [
      { key: 'file', read: ({ file }) => file.path },
      {
        key: 'channels',
        read: ({ channels }) => channels.map(({ name }) => name).join(', '),
        json: ({ channels }) => channels.map(({ name }) => name),
      },
      { key: 'units', heading: 'unit', read: (run) => [...new Set(units(run))].join(', '), json: units },
      { key: 'unit_from', json: ({ channels }) => channels.map(({ unitFrom }) => unitFrom) },
      { key: 'rate', unit: 'Hz', read: ({ rate }) => rate, doc: 'The rate', dimension: 'frequency' },
      { key: 'samples', read: sampleCount },
      { key: 'start', unit: 's', read: ({ start }) => start },
      { key: 'duration', unit: 's', read: duration, doc: 'The duration', dimension: 'time' },
      { key: 'gaps', json: ({ stretches }) => stretches.length - 1 },
      { key: 'history', json: ({ history }) => history },
    ],
    pick: { keep: (value, runs) => ({ ...value, set: undefined, runs }) },
  },
  drawn: 'time',
  named: true,
  handsOnExcluded: true,
  runs: ({ runs }) => runs,
} satisfies DrawnDescription<RunsValue, Run>;
