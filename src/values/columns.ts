import type { Figure } from './description.ts';
import type { Channel, Run } from './run.ts';

/** The name of a row that is of one run. */
export const runName: Figure<{ readonly run: Run }> = { key: 'run', read: ({ run }) => run.label };

/** The names of a row that is of one channel of one run. */
export const channelNames: readonly Figure<{ readonly run: Run; readonly channel: Channel }>[] = [
  runName,
  { key: 'channel', read: ({ channel }) => channel.name },
];

/** Rows of one run are picked together. */
export const ofRun = ({ run }: { readonly run: Run }): string => run.label;

/** A fraction as a figure in percent. */
export const inPercent = (fraction: number | undefined): number | undefined =>
  fraction === undefined ? undefined : 100 * fraction;
