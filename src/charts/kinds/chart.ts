import { grouped } from '../../numbers/grouped.ts';
import { nothingToDraw } from '../words/limits.ts';
import type { Band } from '../../values/band.ts';
import type { ChartSubject, ChartValue, Drawable } from '../../values/chart.ts';
import type { Value } from '../../values/value.ts';
import type { ChartPart, Part } from '../output.ts';
import { inOneUnit } from '../oneUnit.ts';
import { bandChart } from '../plots/bandBars.ts';
import { comparisonChart } from '../plots/change.ts';
import { levelsChart } from '../plots/levels.ts';
import { overlayChart } from '../plots/overlayChart.ts';
import type { OverlayOptions } from '../plots/overlayOptions.ts';
import { peaksChart } from '../plots/peaks.ts';
import { profileChart } from '../plots/profile.ts';
import { ratioChart } from '../plots/ratio.ts';
import { repeatsChart } from '../plots/repeats.ts';
import { runningChart } from '../plots/running.ts';
import { shockChart } from '../plots/shock.ts';
import { spectrogramCharts } from '../plots/spectrogram.ts';
import { forestOf, studiesChart } from '../plots/studies.ts';
import { traceChart } from '../plots/trace.ts';
import { transferChart } from '../plots/transfer.ts';
import { verdictChart } from '../plots/verdict.ts';
import type { Presenter } from './kind.ts';

interface Named<K extends Value['kind']> {
  readonly name: string | undefined;
  readonly value: Extract<Value, { kind: K }>;
}

type Plot<K extends Value['kind']> = (
  subjects: readonly Named<K>[],
  chart: ChartValue,
) => readonly (ChartPart | undefined)[];

/** How subjects of each kind that `plot` takes are drawn. */
const plots: { readonly [K in Drawable['kind']]: Plot<K> } = {
  runs: (subjects, chart) => [traceChart(subjects, chart)],
  spectrum: (subjects, chart) => {
    const options = overlayOptions(chart);
    return grouped(
      subjects,
      ({ value }) => `${value.form} ${value.entries[0]?.unit.symbol ?? ''} ${value.axis?.name ?? ''}`,
    ).map((group) => overlayChart(group, options));
  },
  // Bands beside a spectrum shade its picture instead.
  bands: (subjects, chart) =>
    chart.subjects.some(({ value }) => value.kind === 'spectrum')
      ? []
      : grouped(subjects, ({ value }) => value.rows[0]?.unit.symbol ?? '').map((group) =>
          bandChart(group, chart.level),
        ),
  // Beside other studies a comparison's changes stand in the picture of all.
  comparison: (subjects, chart) =>
    isBesideStudies(chart)
      ? [studiesChart(chart.subjects.flatMap(forestOf))]
      : subjects.flatMap(({ value }) => [
          comparisonChart(value, overlayOptions(chart)),
          ratioChart(value, overlayOptions(chart)),
        ]),
  earlier: (_, chart) => (isOfComparison(chart) ? [] : [studiesChart(chart.subjects.flatMap(forestOf))]),
  pooled: (_, chart) =>
    isOfComparison(chart) || chart.subjects.some(({ value }) => value.kind === 'earlier')
      ? []
      : [studiesChart(chart.subjects.flatMap(forestOf))],
  levels: (subjects, { level }) =>
    grouped(subjects, ({ value }) => value.rows[0]?.channel.unit.symbol ?? '').map((group) =>
      levelsChart(group, level),
    ),
  running: (subjects, { over, level }) =>
    grouped(subjects, ({ value }) => value.entries[0]?.channel.unit.symbol ?? '').map((group) =>
      runningChart(group, { ...(over === undefined ? {} : { over }), ...(level === undefined ? {} : { level }) }),
    ),
  peaks: (subjects, chart) => subjects.map((subject) => peaksChart(subject, overlayOptions(chart))),
  transfer: (subjects, chart) => subjects.map((subject) => transferChart(subject, overlayOptions(chart))),
  spectrogram: (subjects, { over, frequency }) =>
    subjects.flatMap(({ value }) =>
      spectrogramCharts(value.entries, value.window, { frequency, ...(over === undefined ? {} : { over }) }),
    ),
  shock: (subjects, chart) =>
    grouped(subjects, ({ value }) => value.entries[0]?.channel.unit.symbol ?? '').map((group) =>
      shockChart(group, overlayOptions(chart)),
    ),
  // A profile beside a spectrum is drawn into its picture instead.
  profile: (subjects, chart) =>
    chart.subjects.some(({ value }) => value.kind === 'spectrum') ? [] : [profileChart(subjects)],
  verdict: (subjects) => subjects.map(({ value }) => verdictChart(value)),
  repeats: (subjects) => subjects.map(({ value }) => repeatsChart(value)),
};

/** A picture for each kind and unit among the subjects: figures in different units share no axis. */
export const presentChart: Presenter<'chart'> = (asked) => {
  const chart = { ...asked, subjects: inOneUnit(asked.subjects) };
  const kinds = [...new Set(chart.subjects.map(({ value }) => value.kind))];
  const parts = kinds.flatMap((kind) => {
    const subjects = chart.subjects.filter(({ value }) => value.kind === kind);
    return (plots[kind] as Plot<typeof kind>)(subjects, chart);
  });
  const drawn: Part[] = parts.filter((part) => part !== undefined);
  return drawn.length > 0 ? drawn : [{ type: 'text', text: nothingToDraw(kinds) }];
};

const isOfComparison = ({ subjects }: ChartValue): boolean => subjects.some(({ value }) => value.kind === 'comparison');
const isBesideStudies = ({ subjects }: ChartValue): boolean =>
  subjects.some(({ value }) => value.kind === 'earlier' || value.kind === 'pooled');

function overlayOptions({ subjects, over, frequency, marks, level }: ChartValue): OverlayOptions {
  const bands = subjects.flatMap(({ value }) => bandsIn(value));
  const profiles = subjects.flatMap(({ name, value }) => (value.kind === 'profile' ? [{ name, value }] : []));
  return {
    bands,
    profiles,
    frequency,
    marks,
    ...(over === undefined ? {} : { over }),
    ...(level === undefined ? {} : { level }),
  };
}

const bandsIn = (value: ChartSubject['value']): readonly Band[] => (value.kind === 'bands' ? value.bands : []);
