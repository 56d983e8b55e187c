import { visible, visibleLine } from '../result/visible.ts';
import type { Value } from '../values/value.ts';
import { presentAgreement } from './kinds/agreement.ts';
import { presentBands } from './kinds/bands.ts';
import { presentChart } from './kinds/chart.ts';
import { presentComparison } from './kinds/comparison.ts';
import { presentCalibration } from './kinds/calibration.ts';
import { presentEarlier } from './kinds/earlier.ts';
import { presentFindings } from './kinds/findings.ts';
import type { Presenter } from './kinds/kind.ts';
import { presentLevels } from './kinds/levels.ts';
import { presentLoggers } from './kinds/loggers.ts';
import { presentQuantity } from './kinds/quantity.ts';
import { presentRuns } from './kinds/runs.ts';
import { presentSpectrum } from './kinds/spectrum.ts';
import { presentTable } from './kinds/table.ts';
import { presentText } from './kinds/text.ts';
import { presentWindow } from './kinds/window.ts';
import { presentMethods } from './kinds/methods.ts';
import { presentOrder } from './kinds/order.ts';
import { presentPeaks } from './kinds/peaks.ts';
import { presentPlan } from './kinds/plan.ts';
import { presentPooled } from './kinds/pooled.ts';
import { presentProfile } from './kinds/profile.ts';
import { presentRepeats } from './kinds/repeats.ts';
import { presentRunning } from './kinds/running.ts';
import { presentSheet } from './kinds/sheet.ts';
import { presentShock } from './kinds/shock.ts';
import { presentSpectrogram } from './kinds/spectrogram.ts';
import { presentTransfer } from './kinds/transfer.ts';
import { presentVerdict } from './kinds/verdict.ts';
import type { Display } from './display.ts';
import type { Message, Output, Part } from './output.ts';
import { inOtherWords } from './specification.ts';
import { outputText } from './text.ts';

/** How each kind of value is shown: a new kind is its own file and one line here. */
const presenters: { readonly [K in Value['kind']]: Presenter<K> } = {
  quantity: presentQuantity,
  text: presentText,
  runs: presentRuns,
  window: presentWindow,
  spectrum: presentSpectrum,
  levels: presentLevels,
  bands: presentBands,
  comparison: presentComparison,
  findings: presentFindings,
  calibration: presentCalibration,
  order: presentOrder,
  peaks: presentPeaks,
  plan: presentPlan,
  profile: presentProfile,
  repeats: presentRepeats,
  running: presentRunning,
  sheet: presentSheet,
  spectrogram: presentSpectrogram,
  transfer: presentTransfer,
  loggers: presentLoggers,
  shock: presentShock,
  verdict: presentVerdict,
  agreement: presentAgreement,
  earlier: presentEarlier,
  pooled: presentPooled,
  methods: presentMethods,
  table: presentTable,
  chart: presentChart,
};

/**
 * What a statement shows: charts, tables and sentences of its value, its messages, and the whole as plain text.
 *
 * @param value the statement's value
 * @param name what it is bound to, if anything: it names sets that have no label of their own
 * @param messages warnings and notes of the statement, in the order they are to be shown
 * @param display how the reader wants it shown
 */
export function present(
  value: Value,
  name: string | undefined,
  messages: readonly Message[],
  { digits, palette }: Display = {},
): Output {
  const presenter = presenters[value.kind] as Presenter<Value['kind']>;
  const parts = presenter(value, name, digits).map(shown);
  const text = outputText(name, parts, messages);
  return { version: 1, name, kind: value.kind, parts, messages, text, ...(palette === undefined ? {} : { palette }) };
}

/** The same with its texts as they may be shown: a name or label from a file steers no reader, and a cell is one line. */
function shown(part: Part): Part {
  if (part.type === 'text') return { ...part, text: visible(part.text) };
  if (part.type === 'chart')
    return inOtherWords(part, {
      title: visibleLine(part.title),
      subtitle: visibleLine(part.subtitle),
      description: visible(part.description),
    });
  return {
    ...part,
    caption: visibleLine(part.caption),
    columns: part.columns.map((column) => ({
      ...column,
      name: visibleLine(column.name),
      unit: visibleLine(column.unit),
    })),
    rows: part.rows.map((row) => row.map(visibleLine)),
  };
}
