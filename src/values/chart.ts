import type { LevelReference } from './decibels.ts';
import { detail } from './columns.ts';
import type { Description } from './description.ts';
import type { RunsValue } from './runs.ts';
import type { SpectrumValue } from './spectrum.ts';
import type { LevelsValue } from './levels.ts';
import type { BandsValue } from './bands.ts';
import type { ComparisonValue } from './comparison.ts';
import type { EarlierValue } from './earlier.ts';
import type { PooledValue } from './pooled.ts';
import type { VerdictValue } from './verdict.ts';
import type { PeaksValue } from './peaks.ts';
import type { TransferValue } from './transfer.ts';
import type { SpectrogramValue } from './spectrogram.ts';
import type { RunningValue } from './running.ts';
import type { ShockValue } from './shock.ts';
import type { ProfileValue } from './profile.ts';
import type { RepeatsValue } from './repeats.ts';

/** What a `plot` was asked to show; how it is drawn is the charts' business. */
export interface ChartValue {
  readonly kind: 'chart';
  readonly subjects: readonly ChartSubject[];
  /** Hz or s, whichever the subjects' axis is. */
  readonly over?: { readonly from: number; readonly to: number };
  /** Of the frequency axis. */
  readonly frequency: 'linear' | 'log';
  /** What levels are told over in dB, where they are. */
  readonly level?: LevelReference;
  readonly marks: readonly { readonly at: number; readonly label: string }[];
}

/** One of the values a chart shows, with the name it was bound to. */
export interface ChartSubject {
  readonly name: string | undefined;
  readonly value: Drawable;
}

/** The values that a `plot` may be given: those whose descriptions say over what they are drawn. */
export type Drawable =
  | RunsValue
  | SpectrumValue
  | LevelsValue
  | BandsValue
  | ComparisonValue
  | EarlierValue
  | PooledValue
  | VerdictValue
  | PeaksValue
  | TransferValue
  | SpectrogramValue
  | RunningValue
  | ShockValue
  | ProfileValue
  | RepeatsValue;

export const chartKind = {
  kind: 'chart',
  words: 'a chart',
  summary: () => 'a chart',
  whole: [
    detail(
      'shows',
      ({ subjects }) => subjects.map(({ name, value }) => ({ name: name ?? null, kind: value.kind })),
      'rows',
    ),
  ],
  runs: () => [],
} satisfies Description<ChartValue>;
