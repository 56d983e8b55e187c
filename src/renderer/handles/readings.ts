import type { ChartPart } from '../../charts/output.ts';
import type { Reads } from '../../charts/reads.ts';
import { fixed, plain, signed, significant } from '../../values/number.ts';

/** A curve of a chart that can be read: its places in s or Hz, and its values there. */
export interface Curve extends Reads {
  /** By which its legend knows it, if any does. */
  readonly series: string | undefined;
  readonly at: readonly number[];
  readonly low: readonly (number | null)[];
  /** Where a column of the picture holds several samples the highest of them. */
  readonly high: readonly (number | null)[];
}

interface Row {
  readonly reads?: Reads;
  readonly series?: string;
  readonly f?: readonly number[];
  readonly t?: readonly number[];
  readonly v?: readonly (number | null)[];
  readonly v2?: readonly (number | null)[];
}

/** The curves of a chart, pieces of one curve joined. */
export function curvesOf({ vega }: ChartPart): Curve[] {
  const { data = [] } = vega as { readonly data?: readonly { readonly values?: readonly Row[] }[] };
  const byLabel = new Map<string, Curve>();
  for (const { reads, series, f, t, v = [], v2 = v } of data.flatMap(({ values }) => values ?? [])) {
    if (reads === undefined) continue;
    const before = byLabel.get(reads.label);
    byLabel.set(reads.label, {
      ...reads,
      series,
      at: [...(before?.at ?? []), ...(f ?? t ?? [])],
      low: [...(before?.low ?? []), ...v],
      high: [...(before?.high ?? []), ...v2],
    });
  }
  return [...byLabel.values()].map(withPlacesOnce).filter(({ at }) => at.length > 0);
}

/** A place that stands there twice is a column of the picture, with the lowest of it and the highest. */
function withPlacesOnce(curve: Curve): Curve {
  if (!curve.at.some((place, index) => place === curve.at[index - 1])) return curve;
  const [at, low, high]: [number[], (number | null)[], (number | null)[]] = [[], [], []];
  const outer = (pick: typeof Math.min, ...values: readonly (number | null | undefined)[]): number | null => {
    const known = values.filter((value) => value !== null && value !== undefined);
    return known.length === 0 ? null : pick(...known);
  };
  curve.at.forEach((place, index) => {
    const again = place === at.at(-1);
    const [before, after] = again ? [low.pop(), high.pop()] : [null, null];
    if (!again) at.push(place);
    low.push(outer(Math.min, before, curve.low[index]));
    high.push(outer(Math.max, after, curve.high[index]));
  });
  return { ...curve, at, low, high };
}

/** The index of the place nearest to one. @param at ascending */
export function nearest(at: readonly number[], place: number): number {
  let [from, to] = [0, at.length - 1];
  while (to - from > 1) {
    const middle = (from + to) >> 1;
    if (at[middle] <= place) from = middle;
    else to = middle;
  }
  return Math.abs(at[to] - place) < Math.abs(place - at[from]) ? to : from;
}

/** `12.5 Hz`. @param grain what can be told apart */
export function placeText(at: number, grain: number, unit: 's' | 'Hz'): string {
  return `${fixed(at, decimalsOf(grain))} ${unit}`;
}

const decimalsOf = (grain: number): number => Math.min(9, Math.max(0, Math.ceil(-Math.log10(grain) - 1e-9)));

/** What a curve is at a place, with its unit; undefined where it has no value there. */
export function valueText(curve: Curve, place: number): string | undefined {
  const index = nearest(curve.at, place);
  const [low, high] = [levelText(curve, curve.low.at(index)), levelText(curve, curve.high.at(index))];
  if (low === undefined || high === undefined) return undefined;
  const unit = curve.unit === '' ? '' : ` ${curve.unit}`;
  return low === high ? `${low}${unit}` : `${low} to ${high}${unit}`;
}

function levelText({ factor, times = 10, digits = 3 }: Curve, value: number | null | undefined): string | undefined {
  if (value === null || value === undefined) return undefined;
  return factor === undefined ? significant(value, digits) : fixed(times * Math.log10(value * factor), 1);
}

/** How a curve differs from one place to another: both values and the dB and % between them, where these have a meaning. */
export function differenceText(curve: Curve, from: number, to: number): string | undefined {
  const [before, after] = [valueText(curve, from), valueText(curve, to)];
  if (before === undefined || after === undefined) return undefined;
  const [a, b] = [from, to].map((place) => curve.low[nearest(curve.at, place)] ?? NaN);
  const values = `${before} → ${after}`;
  if (curve.times === undefined || !(a > 0 && b > 0)) return values;
  const decibels = signed(fixed(curve.times * Math.log10(b / a), 1));
  return `${values} (${decibels} dB, ${signed(plain(100 * (b / a - 1), 3))} %)`;
}
