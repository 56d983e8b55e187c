import { interval, signed } from '../charts/number.ts';
import type { Facts } from '../language/services/outside.ts';
import { counted, listed } from '../result/words.ts';
import { formatNumber, formatQuantity } from '../units/format.ts';
import { descriptionOf } from '../values/kinds.ts';
import { channelWords } from '../values/resultant.ts';
import { extent, gapCount, type Run } from '../values/run.ts';
import { hasAxes, hasConditions, sidesIn, type ComparisonValue } from '../values/comparison.ts';
import type { RunsValue } from '../values/runs.ts';
import type { SpectrumValue } from '../values/spectrum.ts';
import type { Value } from '../values/value.ts';

export interface NameFacts extends Facts {
  /** The channels' other names: how their files spell them. */
  readonly headers?: readonly string[];
}

/** A value in short, for a hover and for what can be checked against it before anything runs. */
export function factsOf(value: Value): NameFacts {
  // eslint-disable-next-line @typescript-eslint/switch-exhaustiveness-check -- the description of a kind serves for all others
  switch (value.kind) {
    case 'quantity':
      return { kind: value.kind, summary: formatQuantity(value.quantity, 6) };
    case 'text':
      return { kind: value.kind, summary: `"${value.text}"` };
    case 'runs':
      return runsFacts(value);
    case 'window':
      return {
        kind: value.kind,
        summary: parts(
          value.shape,
          `${formatNumber(value.length)} s`,
          `overlap ${formatNumber(100 * value.overlap)} %`,
          `bins ${formatNumber(1 / value.length)} Hz apart`,
        ),
      };
    case 'spectrum':
      return spectrumFacts(value);
    case 'comparison':
      return { kind: value.kind, summary: comparisonSummary(value) };
    default:
      return { kind: value.kind, summary: parts(descriptionOf(value).words, rowsOf(value)) };
  }
}

const parts = (...words: readonly (string | undefined)[]): string =>
  words.filter((word) => word !== undefined && word !== '').join(' · ');

/** One figure where all agree to what is shown, else the least and the most of them. */
function spread(values: readonly number[], unit: string, digits: number): string {
  const [least, most] = [Math.min(...values), Math.max(...values)].map((value) => formatNumber(value, digits));
  return least === most ? `${least} ${unit}` : `${least} to ${most} ${unit}`;
}

const unique = (words: readonly string[]): string[] => [...new Set(words)];

function runsFacts({ kind, runs, excluded = [] }: RunsValue): NameFacts {
  if (runs.length === 0) return { kind, summary: 'no runs' };
  const channels = unique(runs.flatMap((run) => run.channels.map(({ name }) => name)));
  const words = unique(runs.flatMap((run) => run.channels.map(channelWords)));
  const headers = unique(runs.flatMap((run) => run.channels.flatMap(({ header }) => header ?? [])));
  const units = unique(runs.flatMap((run) => run.channels.map(({ unit }) => unit.symbol)));
  const uneven = runs.some(({ stamps }) => stamps !== undefined);
  const durations = runs.map(extent);
  const rates = runs.map(({ rate }) => rate);
  return {
    kind,
    summary: parts(
      counted(runs.length, 'run'),
      `${words.join(', ')} in ${units.map((unit) => unit || 'plain numbers').join(' and ')}`,
      `${uneven ? 'unevenly sampled, about ' : ''}${spread(rates, 'Hz', 4)}`,
      spread(durations, 's', 4),
      gapsOf(runs),
      excluded.length > 0 ? `${excluded.length} left out by the sheet` : undefined,
    ),
    channels,
    ...(headers.length > 0 ? { headers } : {}),
    ...(units.length === 1 && units[0] !== '' ? { unit: units[0] } : {}),
    rate: Math.min(...rates),
    duration: Math.min(...durations),
  };
}

function gapsOf(runs: readonly Run[]): string | undefined {
  const gaps = runs.reduce((sum, run) => sum + gapCount(run), 0);
  return gaps === 0 ? undefined : counted(gaps, 'gap');
}

function spectrumFacts({ kind, form, entries, axis }: SpectrumValue): Facts {
  if (entries.length === 0) return { kind, summary: 'no runs' };
  const units = unique(entries.map(({ unit }) => unit.symbol));
  const spacings = entries.map(({ spacing }) => spacing);
  const runs = new Set(entries.map(({ run }) => run)).size;
  return {
    kind,
    summary: parts(
      `${form === 'psd' ? 'density' : 'amplitude'} in ${units.join(' and ')}`,
      counted(runs, 'run'),
      `bins ${spread(spacings, axis === undefined ? 'Hz' : axis.unit.symbol || 'of an order', 4)} apart`,
      `about ${formatNumber(Math.min(...entries.map(({ averages }) => averages)), 2)} averages`,
    ),
    channels: unique(entries.map(({ channel }) => channel.name)),
    ...(units.length === 1 ? { unit: units[0] } : {}),
    ...(axis === undefined ? { rate: Math.min(...entries.map(({ run }) => run.rate)) } : {}),
  };
}

function comparisonSummary(value: ComparisonValue): string {
  const { metric, rows, strata } = value;
  const [baseline, ...conditions] = sidesIn(value).map(({ name, runs }) => `${name} (${counted(runs.length, 'run')})`);
  const sides = `${listed(conditions)} against ${baseline}`;
  const shown = rows.slice(0, 3).map((row) => {
    const { band, changePercent, lowPercent, highPercent, condition, stratum = 'all', channel } = row;
    const place = [
      ...(hasConditions(value) ? [condition] : []),
      ...(strata === undefined ? [] : [stratum]),
      ...(hasAxes(value) ? [channel] : []),
    ].map((word) => `${word}, `);
    const { value: change, low, high } = interval(changePercent, lowPercent, highPercent);
    const limits = lowPercent === undefined || highPercent === undefined ? '' : ` (${signed(low)} to ${signed(high)})`;
    return `${place.join('')}${formatNumber(band.from)} to ${formatNumber(band.to)} Hz: ${signed(change)}${limits} %`;
  });
  const rest = rows.length > shown.length ? `and ${rows.length - shown.length} more` : undefined;
  return parts(sides, metric, ...shown, rest);
}

function rowsOf(value: Value): string | undefined {
  if ('rows' in value && Array.isArray(value.rows)) return counted(value.rows.length, 'row');
  if ('entries' in value && Array.isArray(value.entries)) return counted(value.entries.length, 'entry', 'entries');
  return undefined;
}
