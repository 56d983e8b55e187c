import { detail, field, figure } from './columns.ts';
import type { DrawnDescription } from './description.ts';
import type { ExcludedRun } from './excluded.ts';
import { gapCount, sampleCount, sampledFor, type Run } from './run.ts';

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

/** The names of a resultant's axes. */
function axesJson({ channels }: Run): string[] | undefined {
  const axes = channels.flatMap((channel) => channel.axes ?? []);
  return axes.length === 0 ? undefined : axes.map(({ name }) => name);
}

export const runsKind = {
  kind: 'runs',
  words: 'runs',
  caption: () => 'Runs',
  whole: [
    detail('unit', commonUnit, 'text'),
    field('count', '', ({ runs }) => runs.length, 'The number of runs', { notIn: 'json and table' }),
  ],
  rows: {
    key: 'runs',
    of: ({ runs }) => runs,
    each: ['run', 'a run'],
    names: [figure('label', '', ({ label }) => label, { heading: 'run' })],
    columns: [
      figure('file', '', ({ file }) => file.path),
      figure('channels', '', ({ channels }) => channels.map(({ name }) => name).join(', '), {
        json: ({ channels }) => channels.map(({ name }) => name),
      }),
      figure('units', '', (run) => [...new Set(units(run))].join(', '), { heading: 'unit', json: units }),
      detail('axes', axesJson, 'texts'),
      detail('unit_from', ({ channels }) => channels.map(({ unitFrom }) => unitFrom), 'texts'),
      field('rate', 'Hz', ({ rate }) => rate, 'The rate'),
      figure('samples', '', sampleCount),
      figure('start', 's', ({ start }) => start),
      field('duration', 's', sampledFor, 'The duration'),
      detail('gaps', gapCount, 'number'),
      detail('history', ({ history }) => history, 'texts'),
    ],
    pick: { keep: (value, runs) => ({ ...value, set: undefined, runs }) },
  },
  drawn: 'time',
  named: true,
  handsOnExcluded: true,
  runs: ({ runs }) => runs,
} satisfies DrawnDescription<RunsValue, Run>;
