import { finite, list, type Json } from './jsonNumbers.ts';
import type { ComparisonRow, ComparisonSide, ComparisonValue, PercentInterval } from './comparison.ts';
import type { ExcludedRun } from './excluded.ts';
import type { OrderValue } from './order.ts';
import type { PlanFollowed, PlanValue } from './plan.ts';
import type { RepeatsValue } from './repeats.ts';
import type { SheetValue } from './sheet.ts';
import type { VerdictValue } from './verdict.ts';

// JSON of comparisons and of what is planned before and judged after.

export function comparisonJson(value: ComparisonValue): Json {
  const { a, b, rows, plan, margin } = value;
  return {
    method: value.method,
    method_code: value.methodCode,
    confidence: value.confidence,
    ...(margin === undefined ? {} : { margin_percent: 100 * margin }),
    unit: rows[0]?.unit.symbol ?? '',
    channel: value.channel,
    metric: value.metric,
    metric_code: value.metricCode ?? 'rms',
    a: a.name,
    b: b.name,
    a_runs: a.runs.map(({ label }) => label),
    b_runs: b.runs.map(({ label }) => label),
    order: a.places === undefined || b.places === undefined ? null : { a: [...a.places], b: [...b.places] },
    includes_excluded: value.includesExcluded === true,
    excluded: excludedOf([a, b]),
    plan: plan === undefined ? null : followedJson(plan),
    guards: [...(value.guards ?? [])],
    rows: rows.map(rowJson),
  };
}

const lowHigh = (interval: PercentInterval | undefined): Json =>
  interval === undefined
    ? null
    : { low_percent: finite(interval.lowPercent), high_percent: finite(interval.highPercent) };

function rowJson(row: ComparisonRow): Json {
  return {
    from_hz: row.band.from,
    to_hz: row.band.to,
    ...(row.band.label === undefined ? {} : { band: row.band.label }),
    primary: row.primary === true,
    a: finite(row.a),
    b: finite(row.b),
    change_percent: finite(row.changePercent),
    change_db: finite(row.changeDb),
    low_percent: finite(row.lowPercent),
    high_percent: finite(row.highPercent),
    p: finite(row.p),
    p_adjusted: finite(row.pAdjusted),
    outcome: row.outcome,
    share_of_a_percent: finite(row.shareOfA),
    spread_percent: row.spread === undefined ? null : finite(100 * row.spread),
    excludes:
      row.excludes === undefined
        ? null
        : {
            reduction_percent: finite(row.excludes.reductionPercent),
            increase_percent: finite(row.excludes.increasePercent),
            either_way_percent: finite(row.excludes.eitherWayPercent),
          },
    simultaneous: lowHigh(row.simultaneous),
    equivalence: lowHigh(row.equivalence),
    equivalence_p: finite(row.equivalence?.p),
    sensitivity: (row.sensitivity ?? []).map((one) => ({
      method: one.method,
      change_percent: finite(one.changePercent),
      low_percent: finite(one.lowPercent),
      high_percent: finite(one.highPercent),
      p: finite(one.p),
    })),
    guards: [...(row.guards ?? [])],
    sentence: row.sentence,
    a_each: list(row.aRuns),
    b_each: list(row.bRuns),
  };
}

function excludedOf(sides: readonly ComparisonSide[]): Json {
  const all = sides.flatMap(({ excluded = [] }) => excluded);
  return excludedJson(all.filter(({ path }, index) => all.findIndex((other) => other.path === path) === index));
}

/** Runs that a sheet leaves out of any value. */
export const excludedJson = (excluded: readonly ExcludedRun[]): Json =>
  excluded.map(({ label, path, why, obstacle: hindered }) => ({
    run: label,
    file: path,
    why,
    hindered: hindered ?? null,
  }));

const followedJson = ({ name, hash, question, deviations }: PlanFollowed): Json => ({
  name,
  question,
  sha256: hash,
  follows: deviations.length === 0,
  deviations: [...deviations],
});

export function verdictJson(value: VerdictValue): Json {
  const { verdict, claim, source, band, claimed, comparison, because, settle, sentence } = value;
  const sentences = because.map((text) => `${text.charAt(0).toUpperCase()}${text.slice(1).replace(/\.$/, '')}.`);
  return {
    verdict,
    reduction_percent: finite(value.reductionPercent),
    low_percent: finite(value.lowPercent),
    high_percent: finite(value.highPercent),
    because: sentences.join(' '),
    power_reduction_percent: finite(value.powerReductionPercent),
    claim,
    source: source ?? null,
    claimed_ratio_from: finite(claimed.from),
    claimed_ratio_to: finite(claimed.to),
    from_hz: band.from,
    to_hz: band.to,
    metric: comparison.metric,
    channel: comparison.channel,
    confidence: comparison.confidence,
    plan: comparison.plan === undefined ? null : followedJson(comparison.plan),
    excluded: excludedOf([comparison.a, comparison.b]),
    settle: settle ?? null,
    sentence,
  };
}

export function repeatsJson(value: RepeatsValue): Json {
  return {
    runs: finite(value.runs),
    detect_percent: 100 * value.detect,
    spread_percent: 100 * value.spread,
    power: value.power,
    power_reached: finite(value.reached),
    confidence: value.confidence,
    rows: value.table.map((row) => ({
      runs: row.runs,
      smallest_reduction_percent: finite(row.smallestPercent),
      half_width_percent: finite(row.halfWidthPercent),
    })),
  };
}

export function orderJson({ scheme, sequence, leanPercent, conditions, sheet }: OrderValue): Json {
  return {
    scheme,
    sequence: [...sequence],
    lean_percent: finite(leanPercent),
    conditions: conditions === undefined ? null : [...conditions],
    sheet: sheet ?? null,
  };
}

export function sheetJson({ file, columns, rows }: SheetValue): Json {
  return {
    file,
    columns: [...columns],
    rows: rows.map((row) => ({
      file: row.file,
      condition: row.condition ?? null,
      order: finite(row.order),
      excluded: row.excluded,
      why: row.why ?? null,
      cells: { ...row.facts },
    })),
  };
}

export const planJson = ({ entries, hash }: PlanValue): Json => ({
  sha256: hash,
  entries: entries.map(({ word, text }) => ({ word, text })),
});
