import type { Run } from '../../verbs/values.ts';
import { counted, distinct, printedUnit } from '../names.ts';
import { plain, significant } from '../number.ts';
import { excludedPart } from './excluded.ts';
import { columns, some, type Presenter } from './kind.ts';

/** What was loaded: one row a run, with rate, length, unit and where the unit came from, and gaps. */
export const presentRuns: Presenter<'runs'> = ({ set, runs, excluded }, name) => {
  const called = set ?? name;
  return some(
    {
      type: 'table',
      caption: `${called === undefined ? '' : `${called}: `}${counted(runs.length, 'run')}`,
      columns: columns(
        ['Run', '', 'left'],
        ['File', '', 'left'],
        ['Channels', '', 'left'],
        ['Rate', 'Hz'],
        ['Samples', ''],
        ['Start', 's'],
        ['Duration', 's'],
        ['Unit', '', 'left'],
        ['Gaps', '', 'left'],
        ['Done', '', 'left'],
      ),
      rows: runs.map(runRow),
    },
    excludedPart(excluded),
  );
};

function runRow(run: Run): string[] {
  const samples = run.channels[0]?.samples.length ?? 0;
  return [
    run.label,
    run.file.path,
    run.channels.map((channel) => channel.name).join(', '),
    run.times === undefined ? significant(run.rate) : `uneven, about ${significant(run.rate, 3)}`,
    String(samples),
    plain(run.start, 5),
    significant(samples / run.rate, 4),
    distinct(run.channels.map(({ unit, unitFrom }) => `${printedUnit(unit.symbol) || 'none'} (${unitFrom})`)).join(
      ', ',
    ),
    gapText(run),
    run.history.join('; '),
  ];
}

/** How many gaps, and how long they are together. */
function gapText({ stretches, rate }: Run): string {
  if (stretches.length < 2) return 'none';
  let missing = 0;
  for (let index = 1; index < stretches.length; index++) {
    const before = stretches[index - 1];
    missing += stretches[index].start - (before.start + (before.to - before.from) / rate);
  }
  return `${stretches.length - 1}, ${significant(missing, 2)} s in all`;
}
