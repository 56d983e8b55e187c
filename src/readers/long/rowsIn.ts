import type { Recording } from '../recording.ts';

/** Samples of each of a recording's channels, whether or not they stand in memory. */
export const rowsIn = ({ long, channels }: Pick<Recording, 'long' | 'channels'>): number =>
  long?.rows ?? channels.at(0)?.samples.length ?? 0;
