import type { Domain } from './axes.ts';

/** What a row of a chart's data tells of its curve, so that a reader can ask for its values at a place. */
export interface Reads {
  readonly label: string;
  /** As it is printed. */
  readonly unit: string;
  /** So many times log10 of the ratio of two values is the dB between them; none where these mean nothing. */
  readonly times?: 10 | 20;
  /** Significant digits of its values: three unless said. */
  readonly digits?: number;
  /** Of values that are told in dB: 1 in the data is so much of the reference. */
  readonly factor?: number;
}

/** What a row of a chart's data tells of the levels of a picture whose colours stand for them. */
export interface ReadsCells {
  readonly reads: Omit<Reads, 'label'>;
  readonly columns: number;
  readonly rows: number;
  /** What the picture shows: s, and Hz upwards. */
  readonly time: Domain;
  readonly frequency: Domain;
  readonly scale: 'linear' | 'log';
  /** log10 of the levels, row by row from the lowest frequency on: two of `cellDigits` each, a share of what lies between these two. */
  readonly span: readonly [number, number];
  readonly cells: string;
}

/** Of a number to the base of their count; the number 0 is a cell where nothing was measured. */
export const cellDigits = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_';

/** The largest number of two of them. */
export const cellSteps = cellDigits.length ** 2 - 1;
