import { detail, figure, runName } from './columns.ts';
import type { Column } from './description.ts';
import type { Json } from './jsonNumbers.ts';
import { rowJson } from './rows.ts';
import type { Run } from './run.ts';

/** Published ranges and values beside weighted levels, as context; never a finding on anyone's health. */
export interface ExposureValue {
  readonly rows: readonly ExposureRow[];
  /** What holds for all of them; to be shown wherever any of them is. */
  readonly cautions: readonly string[];
}

/** One run: three axes together where they are there with the weightings that go together, else one axis. */
export interface ExposureRow {
  readonly run: Run;
  readonly channels: readonly string[];
  /** As printed, one a channel: `Wk`. */
  readonly weightings: readonly string[];
  readonly body: 'whole body' | 'hand and arm';
  /** Weighted r.m.s. of the axis, or the vector sum of three, in m/s^2: what the comfort ranges are of. */
  readonly total: number;
  /**
   * What the action and limit values are of, in m/s^2, if the level held for eight hours a day: the largest of
   * 1.4 x, 1.4 y and z for the whole body, the vector sum for the hand.
   */
  readonly daily: number;
  /** Comfort ranges of ISO 2631-1:1997, C.2.3 that hold the total: two where they overlap; none for the hand. */
  readonly comfort: readonly string[];
  /** Action and limit values of Directive 2002/44/EC in m/s^2. */
  readonly action: number;
  readonly limit: number;
  /** All of this in words. */
  readonly sentences: readonly string[];
}

export const exposureColumns: readonly Column<ExposureRow>[] = [
  runName,
  figure('channels', '', ({ channels }) => channels.join(', '), { json: ({ channels }) => channels }),
  figure('weightings', '', ({ weightings }) => weightings.join(', '), {
    json: ({ weightings }) => weightings,
    title: 'Weighting',
  }),
  detail('body', ({ body }) => body, 'text'),
  figure('total', 'm/s^2', ({ total }) => total, { title: 'Weighted r.m.s.', digits: 3 }),
  figure('comfort', '', ({ comfort }) => comfort.join(' / ') || '–', {
    json: ({ comfort }) => comfort,
    title: 'Comfort range',
  }),
  figure('daily', 'm/s^2', ({ daily }) => daily, { title: 'If held for 8 h', digits: 3 }),
  figure('action', 'm/s^2', ({ action }) => action, { title: 'Action value', each: 'as given' }),
  figure('limit', 'm/s^2', ({ limit }) => limit, { title: 'Limit value', each: 'as given' }),
  detail('sentences', ({ sentences }) => sentences, 'texts'),
];

const jsonFirst = ['run', 'channels', 'weightings', 'body', 'total', 'daily'];

/** What JSON says of published ranges beside levels. */
export const exposureJson = ({ rows, cautions }: ExposureValue): Json => ({
  rows: rows.map((row) => Object.fromEntries(rowJson(exposureColumns, row, undefined, jsonFirst))),
  cautions,
});
