import { gapWords, historySentence, runsCaption } from '../words/recordings.ts';
import { channelWords } from '../../values/resultant.ts';
import { gapCount, sampleCount, sampledFor, stretchEnd, type Run } from '../../values/run.ts';
import { distinct } from '../words/names.ts';
import { aligned, fixed, significant, printedUnit } from '../../values/number.ts';
import type { Part, TablePart } from '../output.ts';
import { excludedPart } from './excluded.ts';
import { columns, some, type Column, type Presenter } from './kind.ts';

/** What was loaded: one row a run, with rate, length, unit and where the unit came from; then what was done to it. */
export const presentRuns: Presenter<'runs'> = ({ set, runs, excluded }, name) =>
  some(runsTable(runs, set ?? name), historyPart(runs), excludedPart(excluded));

interface Detail {
  readonly column: Column;
  readonly of: (run: Run) => string;
}

function runsTable(runs: readonly Run[], called: string | undefined): TablePart {
  const durations = aligned(runs.map(sampledFor));
  const shown: Detail[] = [
    { column: ['Run', '', 'left'], of: ({ label }) => label },
    { column: ['File', '', 'left'], of: ({ file }) => file.path },
    { column: ['Channels', '', 'left'], of: ({ channels }) => channels.map(channelWords).join(', ') },
    { column: ['Rate', 'Hz'], of: rateText },
    { column: ['Samples', ''], of: (run) => String(sampleCount(run)) },
    ...(runs.some(({ start }) => start !== 0)
      ? [{ column: ['Start', 's'] as const, of: ({ start }: Run) => fixed(start, 3) }]
      : []),
    { column: ['Duration', 's'], of: (run) => durations[runs.indexOf(run)] },
    { column: ['Unit', '', 'left'], of: unitText },
    ...(runs.some((run) => gapCount(run) > 0) ? [{ column: ['Gaps', '', 'left'] as const, of: gapText }] : []),
    ...(haveOneHistory(runs)
      ? []
      : [{ column: ['Done', '', 'left'] as const, of: ({ history }: Run) => history.join('; ') }]),
  ];
  return {
    type: 'table',
    caption: runsCaption(called, runs.length),
    columns: columns(...shown.map(({ column }) => column)),
    rows: runs.map((run) => shown.map(({ of }) => of(run))),
  };
}

const rateText = ({ rate, stamps }: Run): string =>
  stamps === undefined ? significant(rate) : `uneven, about ${significant(rate, 3)}`;

const unitText = ({ channels }: Run): string =>
  distinct(channels.map(({ unit, unitFrom }) => `${printedUnit(unit.symbol) || 'none'} (from ${unitFrom})`)).join(', ');

/** Whether the same was done to all, so that it need be said only once. */
const haveOneHistory = (runs: readonly Run[]): boolean =>
  distinct(runs.map(({ history }) => history.join('; '))).length <= 1;

function historyPart(runs: readonly Run[]): Part | undefined {
  const history = runs[0]?.history ?? [];
  if (!haveOneHistory(runs) || history.length === 0) return undefined;
  return { type: 'text', style: 'aside', text: historySentence(history) };
}

/** How many gaps, and how long they are together. */
function gapText(run: Run): string {
  const { stretches } = run;
  const gaps = gapCount(run);
  let missing = 0;
  for (let index = 1; index < stretches.length; index++) {
    missing += stretches[index].start - stretchEnd(run, stretches[index - 1]);
  }
  return gapWords(gaps, missing);
}
