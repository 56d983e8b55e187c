import { calibrationFigure, channelNames, field, figure, ofRun } from './columns.ts';
import type { DrawnDescription } from './description.ts';
import { channelIn, rowsIn, runIn, scaled } from './scaling.ts';
import type { Channel, Run } from './run.ts';
import type { Unit } from '../units/unit.ts';
import { inShort } from './short.ts';
import { counted } from '../result/words.ts';

/** Running r.m.s. of each run and channel. */
export interface RunningValue {
  readonly kind: 'running';
  readonly set: string | undefined;
  /** Length of the sliding mean in s. */
  readonly over: number;
  readonly entries: readonly RunningEntry[];
}

/** In the channel's unit. */
export interface RunningEntry {
  readonly run: Run;
  readonly channel: Channel;
  /** End of each mean's stretch, in s on the recording's time axis. */
  readonly times: Float64Array;
  readonly rms: Float64Array;
  readonly largest: number;
  /** s on the recording's time axis. */
  readonly largestAt: number;
  /** Of a run that is too large for memory: values of which only the lowest and the highest are kept. */
  readonly thinned?: number;
}

const own = ({ channel }: RunningEntry): Unit => channel.unit;

/** In JSON and tables the r.m.s. of each span after the other, so that no sample counts twice. */
export const runningKind = {
  kind: 'running',
  words: 'a running level',
  summary: ({ entries }) => inShort('a running level', counted(entries.length, 'entry', 'entries')),
  caption: ({ over }) => `R.m.s. over each ${over} s`,
  whole: [figure('over', 's', ({ over }) => over)],
  rows: {
    key: 'rows',
    of: ({ entries }) => entries,
    each: ['run and channel', 'a run’s channel'],
    unit: own,
    sensor: ({ channel }) => channel.calibration,
    names: channelNames,
    columns: [
      field('largest', own, ({ largest }) => largest, 'The largest running r.m.s.'),
      field('largest_at', 's', ({ largestAt }) => largestAt, 'The end of the span of the largest running r.m.s.', {
        title: 'at',
      }),
      calibrationFigure(({ entries }: RunningValue) => entries),
    ],
    series: {
      indices: (entry, { over }) => marksOf(entry, over),
      columns: [
        { key: 'time', unit: 's', at: ({ times }, index) => times[index] },
        { key: 'rms', written: 'r.m.s.', unit: own, at: ({ rms }, index) => rms[index] },
      ],
    },
    pick: { together: ofRun, keep: (value, entries) => ({ ...value, set: undefined, entries }) },
  },
  inUnit(value, asked) {
    const entries = rowsIn(value.entries, asked, own, (entry, { factor }) => ({
      ...entry,
      run: runIn(entry.run, asked),
      channel: channelIn(entry.channel, asked),
      rms: scaled(entry.rms, factor),
      largest: entry.largest * factor,
    }));
    return entries && { ...value, entries };
  },
  drawn: 'time',
  named: true,
  runs: ({ entries }) => entries.map(({ run }) => run),
} satisfies DrawnDescription<RunningValue, RunningEntry>;

/** Indices of the values whose spans follow each other without overlap, from the first of each unbroken stretch. */
function marksOf({ times, thinned }: RunningEntry, over: number): number[] {
  const marks: number[] = [];
  // Half a step of grace: the span is a whole number of samples, and `over` need not be.
  const step = times.length > 1 && thinned === undefined ? times[1] - times[0] : 0;
  for (let i = 0; i < times.length; i++) {
    const gap = i > 0 && thinned === undefined && times[i] - times[i - 1] > 1.5 * step;
    if (marks.length === 0 || gap || times[i] - times[marks[marks.length - 1]] >= over - step / 2) marks.push(i);
  }
  return marks;
}
