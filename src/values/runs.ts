import { detail, field, figure } from './columns.ts';
import type { DrawnDescription, Known } from './description.ts';
import type { ExcludedRun } from './excluded.ts';
import { channelWords } from './resultant.ts';
import { extent, gapCount, sampleCount, sampledFor, type Run } from './run.ts';
import { inShort, unique } from './short.ts';
import { counted } from '../result/words.ts';
import { formatSpread } from '../units/format.ts';
import { excludedIn, measuresIn, runIn } from './scaling.ts';

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
  const found = unique(runs.flatMap(units));
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
  summary: runsInShort,
  known: ({ runs }) => (runs.length === 0 ? {} : knownOf(runs)),
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
      figure('units', '', (run) => unique(units(run)).join(', '), { heading: 'unit', json: units }),
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
  inUnit: (value, unit) =>
    value.runs.some((run) => measuresIn(run, unit))
      ? { ...value, runs: value.runs.map((run) => runIn(run, unit)), ...excludedIn(value, unit) }
      : undefined,
  drawn: 'time',
  named: true,
  handsOnExcluded: true,
  runs: ({ runs }) => runs,
} satisfies DrawnDescription<RunsValue, Run>;

function runsInShort({ runs, excluded = [] }: RunsValue): string {
  if (runs.length === 0) return 'no runs';
  const symbols = unique(runs.flatMap(units)).map((unit) => unit || 'plain numbers');
  const isUneven = runs.some(({ stamps }) => stamps !== undefined);
  const gaps = runs.reduce((sum, run) => sum + gapCount(run), 0);
  return inShort(
    counted(runs.length, 'run'),
    `${unique(runs.flatMap(({ channels }) => channels.map(channelWords))).join(', ')} in ${symbols.join(' and ')}`,
    `${isUneven ? 'unevenly sampled, about ' : ''}${formatSpread(runs.map(({ rate }) => rate))} Hz`,
    `${formatSpread(runs.map(extent))} s`,
    gaps === 0 ? undefined : counted(gaps, 'gap'),
    excluded.length > 0 ? `${excluded.length} left out by the sheet` : undefined,
  );
}

function knownOf(runs: readonly Run[]): Known {
  const channels = runs.flatMap((run) => run.channels);
  const headers = unique(channels.flatMap(({ header }) => header ?? []));
  const symbols = unique(runs.flatMap(units));
  return {
    channels: unique(channels.map(({ name }) => name)),
    ...(headers.length > 0 ? { headers } : {}),
    ...(symbols.length === 1 && symbols[0] !== '' ? { unit: symbols[0] } : {}),
    rate: Math.min(...runs.map(({ rate }) => rate)),
    duration: Math.min(...runs.map(extent)),
  };
}
