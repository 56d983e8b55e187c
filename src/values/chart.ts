import type { RunsValue } from './runs.ts';
import type { WindowValue } from './window.ts';
import type { SpectrumValue } from './spectrum.ts';
import type { LevelsValue } from './levels.ts';
import type { BandsValue } from './bands.ts';
import type { ComparisonValue } from './comparison.ts';
import type { VerdictValue } from './verdict.ts';
import type { FindingsValue } from './findings.ts';
import type { PeaksValue } from './peaks.ts';
import type { TransferValue } from './transfer.ts';
import type { SpectrogramValue } from './spectrogram.ts';
import type { RunningValue } from './running.ts';
import type { ProfileValue } from './profile.ts';
import type { RepeatsValue } from './repeats.ts';
import type { OrderValue } from './order.ts';
import type { SheetValue } from './sheet.ts';
import type { PlanValue } from './plan.ts';
import type { TableValue } from './table.ts';

/** What a `plot` was asked to show; how it is drawn is the charts' business. */
export interface ChartValue {
  readonly kind: 'chart';
  readonly subjects: readonly ChartSubject[];
  /** Hz or s, whichever the subjects' axis is. */
  readonly over?: { readonly from: number; readonly to: number };
  /** Of the frequency axis. */
  readonly frequency: 'linear' | 'log';
  readonly marks: readonly { readonly at: number; readonly label: string }[];
}

/** One of the values a chart shows, with the name it was bound to. */
export interface ChartSubject {
  readonly name: string | undefined;
  readonly value: Drawable;
}

/** The values that a `plot` may be given. */
export type Drawable =
  | RunsValue
  | WindowValue
  | SpectrumValue
  | LevelsValue
  | BandsValue
  | ComparisonValue
  | VerdictValue
  | FindingsValue
  | PeaksValue
  | TransferValue
  | SpectrogramValue
  | RunningValue
  | ProfileValue
  | RepeatsValue
  | OrderValue
  | SheetValue
  | PlanValue
  | TableValue;
