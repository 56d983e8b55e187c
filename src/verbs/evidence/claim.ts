import type { Claim } from '../../statistics/claimForm.ts';
import { boundWords, claimFrom, directionWords, ofWords, sizeAccepts } from './claimWords.ts';
import { sideAgain, type Refused } from './sides.ts';
import { bandText } from '../../analysis/evidence/compareSentence.ts';
import { comparisonOf } from './comparison.ts';
import { option, operand, si, textOf, valueOf, wordOf } from '../arguments.ts';
import { judged, methodOf } from './verdict.ts';
import { sameBand } from '../../analysis/planning/planFollowed.ts';
import type { Band } from '../../values/band.ts';
import type { ComparisonRow, ComparisonValue } from '../../values/comparison.ts';
import { answer, type Arguments, type Verb } from '../verb.ts';
import { refuse, type Warning } from '../../result/result.ts';
import type { Watch } from '../../values/ports.ts';

export const claim: Verb = {
  form: {
    verb: 'claim',
    summary: 'Holds a claim against a comparison: supported, contradicted or not shown.',
    help: 'A claim is supported when the whole interval of the change lies where the claim is true, contradicted when none of it does, and otherwise not shown; at exactly the claimed value "not shown" is the honest answer 95 times of 100. A figure alone means "at least"; `at-most` and `about … tolerance` say otherwise, no figure means any reduction. `no-worse 5 %` is an increase of no more than 5 %. Percentages are of amplitude (r.m.s.); `of power` takes the figure as one of mean square, and both are shown: 15 % less amplitude is 27.75 % less power. Fewer than 3 runs a side, a fault in a recording, speeds too far apart, a band under the noise floor or one that the plan does not name forbid a verdict. Without words the claim of the comparison’s plan is judged.',
    operands: [
      { name: 'comparison', doc: 'What was found.', accepts: [{ type: 'value', kinds: ['comparison'] }] },
      { name: 'direction', doc: 'Which way.', accepts: [{ type: 'word', words: directionWords }], optional: true },
      {
        name: 'bound',
        doc: 'How the figure is meant.',
        accepts: [{ type: 'word', words: boundWords }],
        optional: true,
      },
      { name: 'size', doc: 'By how much, in % or dB.', accepts: sizeAccepts, optional: true },
    ],
    options: [
      {
        keyword: 'of',
        doc: 'What the percentage is of.',
        accepts: [{ type: 'word', words: ofWords }],
        default: 'amplitude',
      },
      {
        keyword: 'tolerance',
        doc: 'Points either way, for about.',
        accepts: [{ type: 'quantity', dimension: 'ratio', least: 0 }],
      },
      {
        keyword: 'over',
        doc: 'The band that the claim is about.',
        accepts: [{ type: 'range', dimension: 'frequency' }],
        default: 'the primary or only band of the comparison',
      },
      { keyword: 'source', doc: 'Where the claim stands.', accepts: [{ type: 'text', role: 'label' }] },
    ],
    gives: 'verdict',
    examples: [
      'foam = load "raw/brick-foam-*.csv.gz" | channel z | trim 10..70 s\ngel = load "raw/brick-gel-*.csv.gz" | channel z | trim 10..70 s\nbricks = compare foam with gel over 10..50 Hz\nclaim bricks reduction 15 % source "leaflet"',
      'foam = load "raw/brick-foam-*.csv.gz" | channel z | trim 10..70 s\ngel = load "raw/brick-gel-*.csv.gz" | channel z | trim 10..70 s\nbricks = compare foam with gel primary 10..50 Hz over 4..10 Hz\nclaim bricks no-worse 5 % over 4..10 Hz',
    ],
  },
  evaluate(given, { watch }) {
    const comparison = valueOf(given, 'comparison', 'comparison');
    const words = claimOf(given, comparison);
    if ('failure' in words) return words;
    const picked = rowFor(given, comparison, watch);
    if ('failure' in picked) return picked;
    const planned = given.operands.direction === undefined ? comparison.plan?.source : undefined;
    const value = judged(words, picked.comparison, picked.row, textOf(option(given, 'source')) ?? planned);
    return answer(value, picked.warnings);
  },
};

function claimOf(given: Arguments, { plan }: ComparisonValue): Claim | Refused {
  const direction = wordOf(operand(given, 'direction'));
  if (direction !== undefined) {
    const words = {
      direction,
      bound: wordOf(operand(given, 'bound')),
      size: operand(given, 'size'),
      of: wordOf(option(given, 'of')),
      tolerance: option(given, 'tolerance'),
    };
    return claimFrom(words, given.operands.size === undefined ? 'direction' : 'size');
  }
  if ((given.operands.bound ?? given.operands.size ?? given.options.of ?? given.options.tolerance) !== undefined)
    return refuse('claim.words', 'Say which way the change is claimed to go, as in "reduction 15 %".', 'comparison');
  if (plan?.claim !== undefined) return plan.claim;
  return refuse(
    'claim.words',
    'claim needs what is claimed, as in "reduction 15 %", or a comparison whose plan states it.',
    'comparison',
  );
}

interface Picked {
  readonly comparison: ComparisonValue;
  readonly row: ComparisonRow;
  readonly warnings: readonly Warning[];
}

/** The row that the claim is about: of the band it names, else the primary, else the only one. */
function rowFor(given: Arguments, comparison: ComparisonValue, watch: Watch): Picked | Refused {
  const { rows } = comparison;
  const over = option(given, 'over');
  if (over?.type === 'range') {
    const band = { from: si(over.from), to: si(over.to) };
    const row = rows.find((one) => sameBand(one.band, band));
    return row === undefined ? comparedAnew(band, comparison, watch) : { comparison, row, warnings: [] };
  }
  const row = rows.length === 1 ? rows[0] : rows.find(({ primary }) => primary === true);
  if (row !== undefined) return { comparison, row, warnings: [] };
  return refuse(
    'claim.band',
    `The comparison has the bands ${rows.map(({ band }) => bandText(band)).join(', ')}: say which one the claim is about, as in "over ${rows[0].band.from}..${rows[0].band.to} Hz".`,
    'comparison',
  );
}

/** A band that was not compared, measured now from the same spectra. */
function comparedAnew(band: Band, comparison: ComparisonValue, watch: Watch): Picked | Refused {
  const { rows, metricCode = 'rms', confidence, margin } = comparison;
  const [a, b] = [comparison.a, comparison.b].map(sideAgain);
  const known = rows.map((row) => bandText(row.band)).join(', ');
  if (a === undefined || b === undefined)
    return refuse(
      'claim.band',
      `The comparison has no band ${bandText(band)}, only ${known}: compare over it first.`,
      'over',
    );
  const half = Math.min(...[...a.tracks, ...b.tracks].map(({ run }) => run.rate)) / 2;
  if (!(band.to > band.from) || band.to > half)
    return refuse('band.outside', `The band ${bandText(band)} has no width or reaches past half the rate.`, 'over');
  const asked = {
    metric: metricCode,
    bands: [band],
    primary: undefined,
    confidence,
    margin,
    method: methodOf(comparison),
    ofSignal: false,
  };
  const found = comparisonOf({ a, b }, asked, watch);
  if ('failure' in found) return found;
  const { plan, includesExcluded, guards } = comparison;
  const value: ComparisonValue = {
    ...found.value,
    ...(plan === undefined ? {} : { plan }),
    ...(includesExcluded === true ? { includesExcluded } : {}),
    ...(guards === undefined ? {} : { guards }),
  };
  const message = `${bandText(band)} is none of the bands that were compared (${known}): it is compared here by itself.`;
  return { comparison: value, row: value.rows[0], warnings: [{ code: 'claim.band', message }, ...found.warnings] };
}
