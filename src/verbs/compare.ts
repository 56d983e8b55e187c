import { compare as compareLevels } from '../statistics/compare.ts';
import type { Comparison, ComparisonRow as Found, Levels } from '../statistics/comparison.ts';
import { askedBands, bandRow, bandWarnings, densityOf } from './bandsOf.ts';
import { comparedSides, type Side } from './comparedSides.ts';
import { bandMeanSquare, totalMeanSquare } from '../signal/band.ts';
import { blockMeanSquares } from './blocks.ts';
import { compareSentence } from './compareSentence.ts';
import { hasFlag, siOf } from './given.ts';
import type { Band, ComparisonRow, ComparisonValue, Run } from './values.ts';
import { answer, refuse, type Verb, type Warning } from './verb.ts';
import { windowNames } from '../signal/windows.ts';

export const compare: Verb = {
  form: {
    verb: 'compare',
    summary: 'Says how much B differs from A in each band, and how sure that is.',
    help: 'The run is the unit of evidence: each run gives one band r.m.s., their logarithms are compared by Welch’s t (Welch 1947), and the change is B/A − 1 of the geometric means, in percent of amplitude and in dB (20 log10). With fewer than 3 runs a side the figure stands without inference. A change that is not shown is not the same as no change: read the interval. Name bands before looking at the spectra.',
    operands: [
      {
        name: 'a',
        doc: 'The baseline: runs, or their spectrum.',
        accepts: [{ type: 'value', kinds: ['runs', 'spectrum'] }],
      },
      {
        name: 'b',
        doc: 'What is held against it.',
        accepts: [{ type: 'value', kinds: ['runs', 'spectrum'] }],
        keyword: 'with',
      },
    ],
    options: [
      {
        keyword: 'over',
        doc: 'The bands.',
        accepts: [{ type: 'range', dimension: 'frequency' }],
        many: true,
        default: '1 Hz to 0.4 × the rate',
      },
      {
        keyword: 'using',
        doc: 'The window of the spectra, when runs are given.',
        accepts: [
          { type: 'value', kinds: ['window'] },
          { type: 'word', words: windowNames },
          { type: 'step', verb: 'window' },
        ],
        default: 'window hann 2 s overlap 50 %',
      },
      {
        keyword: 'confidence',
        doc: 'Of the intervals.',
        accepts: [{ type: 'quantity', dimension: 'ratio', least: 0.5, most: 0.9999 }],
        default: '95 %',
      },
      {
        keyword: 'margin',
        doc: 'Changes smaller than this, either way, count as none; state it before looking.',
        accepts: [{ type: 'quantity', dimension: 'ratio', least: 0, most: 1 }],
      },
      { keyword: 'paired', doc: 'Pair the k-th run of A with the k-th of B.', accepts: [] },
    ],
    gives: 'comparison',
    examples: [
      'foam = load "raw/brick-foam-*.csv.gz" | channel z | trim 10..70 s\ngel = load "raw/brick-gel-*.csv.gz" | channel z | trim 10..70 s\ncompare foam with gel over 4..10 Hz, 10..50 Hz',
    ],
  },
  evaluate(given, { watch }) {
    const sides = comparedSides(given, watch);
    if ('failure' in sides) return sides;
    const { a, b, warnings } = sides;
    const spectra = [...a.spectrum.entries, ...b.spectrum.entries];
    const asked = askedBands(given.options.over ?? [], spectra, 'over');
    if ('failure' in asked) return asked;
    const bands = asked.length > 0 ? asked : [usualBand([...a.runs, ...b.runs])];
    const confidence = siOf(given, 'confidence') ?? 0.95;
    if (!(confidence > 0.5 && confidence < 1))
      return refuse('confidence.range', 'A confidence lies between 50 % and 99.99 %.', 'confidence');
    const margin = siOf(given, 'margin');
    const method = hasFlag(given, 'paired') ? ('paired' as const) : ('welch' as const);
    const found = compareLevels(
      bands.map((band) => levelsIn(band, a, b)),
      { confidence, margin, method },
    );
    const rows: ComparisonRow[] = [];
    for (const [index, band] of bands.entries()) {
      const row = rowOf(band, found.rows[index], a, b, found);
      if (row === undefined)
        return refuse(
          'compare.zero',
          `In ${band.from} to ${band.to} Hz a run has no vibration at all, so there is no ratio to give.`,
          'over',
        );
      rows.push(row);
    }
    const value: ComparisonValue = {
      kind: 'comparison',
      method: found.label,
      methodCode: found.method,
      confidence,
      channel: a.channel,
      metric: 'band r.m.s.',
      a: { name: a.name, runs: a.runs, spectrum: a.spectrum },
      b: { name: b.name, runs: b.runs, spectrum: b.spectrum },
      rows,
      ...(margin === undefined ? {} : { margin }),
    };
    const notes = found.notes.map(({ code, message, band }) => ({
      code: `compare.${code}`,
      message: band === undefined ? message : `${bands[band].from} to ${bands[band].to} Hz: ${message}`,
    }));
    return answer(value, unique([...warnings, ...bandWarnings(a.spectrum, bands), ...notes, ...shareWarnings(rows)]));
  },
};

/** Without bands: what vibration there is above 1 Hz, short of where a logger's own filter and folding set in. */
function usualBand(runs: readonly Run[]): Band {
  const slowest = Math.min(...runs.map(({ rate }) => rate));
  return { from: Math.min(1, slowest / 20), to: Math.floor(slowest * 0.4 * 10) / 10 };
}

function levelsIn(band: Band, a: Side, b: Side): Levels {
  const of = (side: Side): number[] => side.spectrum.entries.map((entry) => bandRow(entry, band).rms);
  const levels = { a: of(a), b: of(b) };
  if (levels.a.length !== 1 || levels.b.length !== 1) return levels;
  return {
    ...levels,
    blocksA: blockMeanSquares(a.spectrum.entries[0], band),
    blocksB: blockMeanSquares(b.spectrum.entries[0], band),
  };
}

function rowOf(band: Band, found: Found, a: Side, b: Side, comparison: Comparison): ComparisonRow | undefined {
  if (
    found.a === undefined ||
    found.b === undefined ||
    found.changePercent === undefined ||
    found.changeDb === undefined
  )
    return undefined;
  const { inference, block } = found;
  const interval = inference?.interval ?? block;
  const row = {
    band,
    unit: a.spectrum.entries[0].channel.unit,
    a: found.a,
    b: found.b,
    aRuns: a.spectrum.entries.map((entry) => bandRow(entry, band).rms),
    bRuns: b.spectrum.entries.map((entry) => bandRow(entry, band).rms),
    changePercent: found.changePercent,
    changeDb: found.changeDb,
    lowPercent: interval === undefined ? undefined : 100 * (interval.low - 1),
    highPercent: interval === undefined ? undefined : 100 * (interval.high - 1),
    p: inference?.p,
    pAdjusted: inference?.pAdjusted,
    outcome: found.outcome,
    shareOfA: shareOf(band, a),
  };
  return { ...row, sentence: compareSentence(row, a.name, b.name, comparison, inference) };
}

/** The band's share of A's mean square over the whole spectrum but the bin at 0, in percent, mean over the runs. */
function shareOf(band: Band, side: Side): number {
  const shares = side.spectrum.entries.map((entry) => {
    const density = densityOf(entry);
    const still = density.density[0] * density.step;
    return bandMeanSquare(density, band.from, band.to) / (totalMeanSquare(density) - still);
  });
  return (100 * shares.reduce((sum, share) => sum + share, 0)) / shares.length;
}

function shareWarnings(rows: readonly ComparisonRow[]): Warning[] {
  return rows
    .filter(({ shareOfA }) => shareOfA !== undefined && shareOfA < 1)
    .map(({ band, shareOfA }) => ({
      code: 'compare.small-share',
      message: `${band.from} to ${band.to} Hz holds only ${(shareOfA ?? 0).toPrecision(2)} % of the mean square of the baseline: a change there is hardly felt.`,
    }));
}

function unique(warnings: readonly Warning[]): Warning[] {
  return warnings.filter(({ message }, index) => warnings.findIndex((other) => other.message === message) === index);
}
