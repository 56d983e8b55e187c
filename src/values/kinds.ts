import { agreementKind } from './agreement.ts';
import { bandsKind } from './bands.ts';
import { chartKind, type Drawable } from './chart.ts';
import { comparisonKind } from './comparison.ts';
import type { Described, Description, DrawnDescription, DrawnOver } from './description.ts';
import type { ExcludedRun } from './excluded.ts';
import { calibrationKind } from './calibration.ts';
import { earlierKind } from './earlier.ts';
import { findingsKind } from './findings.ts';
import { levelsKind } from './levels.ts';
import { loggersKind } from './loggers.ts';
import { methodsKind } from './methods.ts';
import { orderKind } from './order.ts';
import { peaksKind } from './peaks.ts';
import { planKind } from './plan.ts';
import { pooledKind } from './pooled.ts';
import { profileKind } from './profile.ts';
import { quantityKind } from './quantity.ts';
import { repeatsKind } from './repeats.ts';
import type { Run } from './run.ts';
import { runningKind } from './running.ts';
import { runsKind } from './runs.ts';
import { shockKind } from './shock.ts';
import { sheetKind } from './sheet.ts';
import { spectrogramKind } from './spectrogram.ts';
import { spectrumKind } from './spectrum.ts';
import { tableKind } from './table.ts';
import { textKind } from './text.ts';
import { transferKind } from './transfer.ts';
import type { Kind, Value, ValueOf } from './value.ts';
import { verdictKind } from './verdict.ts';
import { windowKind } from './window.ts';

/** Every kind of value with its description: what is left out here does not compile. */
export const kinds: {
  readonly [K in Kind]: K extends Drawable['kind'] ? DrawnDescription<ValueOf<K>> : Description<ValueOf<K>>;
} = {
  runs: runsKind,
  levels: levelsKind,
  running: runningKind,
  spectrum: spectrumKind,
  bands: bandsKind,
  peaks: peaksKind,
  spectrogram: spectrogramKind,
  profile: profileKind,
  transfer: transferKind,
  loggers: loggersKind,
  shock: shockKind,
  comparison: comparisonKind,
  verdict: verdictKind,
  agreement: agreementKind,
  earlier: earlierKind,
  pooled: pooledKind,
  repeats: repeatsKind,
  order: orderKind,
  sheet: sheetKind,
  plan: planKind,
  findings: findingsKind,
  calibration: calibrationKind,
  methods: methodsKind,
  table: tableKind,
  chart: chartKind,
  window: windowKind,
  quantity: quantityKind,
  text: textKind,
};

/** The description of a value's kind. */
export const descriptionOf = (value: Value): Described<Value> => kinds[value.kind];

export const kindNames = Object.keys(kinds) as readonly Kind[];

/** Kinds with a table. */
export const tabulatedKinds: readonly Kind[] = kindNames.filter((kind) => {
  const { caption, table } = kinds[kind];
  return caption !== undefined || table !== undefined;
});

/** Kinds that `plot` draws over an axis. */
export const kindsOver = (axis: DrawnOver): readonly Drawable['kind'][] =>
  kindNames.filter((kind) => kinds[kind].drawn === axis) as readonly Drawable['kind'][];

/** Kinds that `plot` takes. */
export const drawnKinds = kindNames.filter((kind) => kinds[kind].drawn !== undefined) as readonly Drawable['kind'][];

export const isDrawable = (value: Value): value is Drawable => kinds[value.kind].drawn !== undefined;

/** Every run that a value was made from. */
export const runsOf = (value: Value): readonly Run[] => descriptionOf(value).runs(value);

/** A value that hands on the runs that a run sheet leaves out. */
export type WithExcluded = Extract<Value, { readonly excluded?: readonly ExcludedRun[] }>;

export const handsOnExcluded = (value: Value): value is WithExcluded => kinds[value.kind].handsOnExcluded === true;

/** A value without a label of its own is called by the name it is bound to. */
export const namedBy = (value: Value, name: string): Value =>
  kinds[value.kind].named === true && 'set' in value && value.set === undefined ? { ...value, set: name } : value;
