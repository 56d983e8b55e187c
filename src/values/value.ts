import type { QuantityValue } from './quantity.ts';
import type { TextValue } from './text.ts';
import type { RunsValue } from './runs.ts';
import type { WindowValue } from './window.ts';
import type { SpectrumValue } from './spectrum.ts';
import type { LevelsValue } from './levels.ts';
import type { BandsValue } from './bands.ts';
import type { ComparisonValue } from './comparison.ts';
import type { AgreementValue } from './agreement.ts';
import type { VerdictValue } from './verdict.ts';
import type { CalibrationValue } from './calibration.ts';
import type { EarlierValue } from './earlier.ts';
import type { PooledValue } from './pooled.ts';
import type { FindingsValue } from './findings.ts';
import type { PeaksValue } from './peaks.ts';
import type { LoggersValue } from './loggers.ts';
import type { TransferValue } from './transfer.ts';
import type { SpectrogramValue } from './spectrogram.ts';
import type { RunningValue } from './running.ts';
import type { ShockValue } from './shock.ts';
import type { ProfileValue } from './profile.ts';
import type { RepeatsValue } from './repeats.ts';
import type { OrderValue } from './order.ts';
import type { SheetValue } from './sheet.ts';
import type { PlanValue } from './plan.ts';
import type { MethodsValue } from './methods.ts';
import type { TableValue } from './table.ts';
import type { ChartValue } from './chart.ts';

/**
 * The values of the language. All are immutable, say their unit and their runs, and are plain data, so that
 * they can cross from a worker. Arrays are shared, never copied to be safe.
 */
export type Value =
  | QuantityValue
  | TextValue
  | RunsValue
  | WindowValue
  | SpectrumValue
  | LevelsValue
  | BandsValue
  | ComparisonValue
  | VerdictValue
  | AgreementValue
  | EarlierValue
  | PooledValue
  | FindingsValue
  | CalibrationValue
  | PeaksValue
  | TransferValue
  | LoggersValue
  | SpectrogramValue
  | RunningValue
  | ShockValue
  | ProfileValue
  | RepeatsValue
  | OrderValue
  | SheetValue
  | PlanValue
  | MethodsValue
  | TableValue
  | ChartValue;

/** A kind of value. */
export type Kind = Value['kind'];

export type ValueOf<K extends Kind> = Extract<Value, { kind: K }>;
