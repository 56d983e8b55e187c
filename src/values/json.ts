import {
  comparisonJson,
  excludedJson,
  orderJson,
  planJson,
  repeatsJson,
  sheetJson,
  verdictJson,
} from './evidenceJson.ts';
import { finite, list, unlessCommon, type Json } from './jsonNumbers.ts';
import { exposureJson, peaksJson, profileJson, runningJson, spectrogramJson, transferJson } from './signalJson.ts';
import { tabulate } from './tabulate.ts';
import type { Run } from './run.ts';
import type { SpectrumEntry, SpectrumValue } from './spectrum.ts';
import type { Value } from './value.ts';

export type { Json } from './jsonNumbers.ts';
export { finite } from './jsonNumbers.ts';

/** A value as `run --json` gives it: numbers in SI-named keys, or in the data's own unit where `unit` says so. */
export function toJson(value: Value): Json {
  const json = bodyJson(value);
  if (!('excluded' in value) || value.excluded === undefined || typeof json !== 'object' || json === null) return json;
  return { ...json, excluded: excludedJson(value.excluded) };
}

function bodyJson(value: Value): Json {
  switch (value.kind) {
    case 'quantity':
      return { value: finite(value.quantity.value), unit: value.quantity.unit.symbol };
    case 'text':
      return { text: value.text };
    case 'runs':
      return { unit: commonUnit(value.runs), runs: value.runs.map(runJson) };
    case 'window':
      return { shape: value.shape, length_s: value.length, overlap_percent: value.overlap * 100 };
    case 'levels':
      return {
        unit: value.rows[0]?.channel.unit.symbol ?? '',
        rows: value.rows.map((row) => ({
          run: row.run.label,
          channel: row.channel.name,
          ...unlessCommon(value.rows[0]?.channel.unit.symbol, row.channel.unit.symbol),
          mean: finite(row.mean),
          rms: finite(row.rms),
          total_rms: finite(row.totalRms),
          peak: finite(row.peak),
          crest_factor: finite(row.crestFactor),
          kurtosis: finite(row.kurtosis),
          vdv: finite(row.vdv),
          skewness: finite(row.skewness),
          peak_to_peak: finite(row.peakToPeak),
          p99: finite(row.percentile99),
          p99_9: finite(row.percentile999),
          mtvv: finite(row.mtvv),
          mtvv_at_s: finite(row.mtvvAt),
          duration_s: finite(row.duration),
          ...(row.channel.weighting === undefined ? {} : { weighting: row.channel.weighting }),
        })),
        ...(value.exposure === undefined ? {} : { exposure: exposureJson(value.exposure) }),
      };
    case 'spectrum':
      return spectrumJson(value);
    case 'bands':
      return {
        unit: value.rows[0]?.unit.symbol ?? '',
        rows: value.rows.map((row) => ({
          run: row.run.label,
          channel: row.channel.name,
          ...unlessCommon(value.rows[0]?.unit.symbol, row.unit.symbol),
          from_hz: row.band.from,
          to_hz: row.band.to,
          ...(row.band.label === undefined ? {} : { label: row.band.label }),
          rms: finite(row.rms),
        })),
      };
    case 'peaks':
      return peaksJson(value);
    case 'running':
      return runningJson(value);
    case 'spectrogram':
      return spectrogramJson(value);
    case 'transfer':
      return transferJson(value);
    case 'profile':
      return profileJson(value);
    case 'comparison':
      return comparisonJson(value);
    case 'verdict':
      return verdictJson(value);
    case 'repeats':
      return repeatsJson(value);
    case 'order':
      return orderJson(value);
    case 'sheet':
      return sheetJson(value);
    case 'plan':
      return planJson(value);
    case 'findings':
      return {
        rows: value.rows.map(({ run, finding }) => ({
          run: run.label,
          code: finding.code,
          severity: finding.severity,
          message: finding.message,
          value: finite(finding.value),
        })),
      };
    case 'chart':
      return { shows: value.subjects.map(({ name, value: shown }) => ({ name: name ?? null, kind: shown.kind })) };
    case 'table': {
      const { columns, rows, caption } = value;
      return {
        caption,
        columns: columns.map(({ name, unit }) => ({ name, unit })),
        rows: rows.map((row) => row.map((one) => (typeof one === 'number' ? finite(one) : one))),
      };
    }
    default: {
      const numbers = tabulate(value);
      return numbers === undefined ? null : toJson(numbers);
    }
  }
}

function commonUnit(runs: readonly Run[]): string {
  const units = [...new Set(runs.flatMap((run) => run.channels.map(({ unit }) => unit.symbol)))];
  return units.length === 1 ? units[0] : '';
}

function runJson(run: Run): Json {
  const samples = run.channels[0]?.samples.length ?? 0;
  return {
    label: run.label,
    file: run.file.path,
    channels: run.channels.map(({ name }) => name),
    units: run.channels.map(({ unit }) => unit.symbol),
    unit_from: run.channels.map(({ unitFrom }) => unitFrom),
    rate_hz: run.rate,
    samples,
    start_s: run.start,
    duration_s: samples / run.rate,
    gaps: run.stretches.length - 1,
    history: [...run.history],
  };
}

/** Over orders or cycles per metre, `frequency` and `spacing` are in that axis and lose their `_hz`. */
function spectrumJson(value: SpectrumValue): Json {
  const [first] = value.entries;
  const hz = value.axis === undefined ? '_hz' : '';
  const key = value.form === 'amplitude' ? 'amplitude' : 'density';
  const frequencies = ({ spacing, level }: Pick<SpectrumEntry, 'spacing' | 'level'>): number[] =>
    Array.from(level, (_, k) => k * spacing);
  const mean = value.means.map((one) => ({
    channel: one.channel,
    [`spacing${hz}`]: one.spacing,
    [key]: list(one.level),
    low: list(one.low),
    high: list(one.high),
  }));
  return {
    unit: first.unit.symbol,
    form: value.form,
    window: value.window.shape,
    ...(value.axis === undefined
      ? {}
      : { axis: value.axis.name, axis_unit: value.axis.unit.symbol, by: value.axis.by }),
    [`spacing${hz}`]: first.spacing,
    segments: first.segments,
    segment_samples: first.segmentSamples,
    [`enbw${hz}`]: first.noiseBandwidth,
    averages: first.averages,
    confidence: value.confidence,
    [value.axis === undefined ? 'frequency_hz' : 'position']: frequencies(first),
    runs: value.entries.map((entry) => ({
      run: entry.run.label,
      channel: entry.channel.name,
      ...unlessCommon(first.unit.symbol, entry.unit.symbol),
      // Clocks differ from run to run, and so then do the bins' frequencies.
      ...(entry.spacing === first.spacing ? {} : { [`spacing${hz}`]: entry.spacing }),
      segments: entry.segments,
      averages: entry.averages,
      [key]: list(entry.level),
      low: list(entry.low),
      high: list(entry.high),
    })),
    mean: mean.length > 0 ? mean[0] : null,
    means: mean,
  };
}
