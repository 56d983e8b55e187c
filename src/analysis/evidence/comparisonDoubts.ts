import type { Message, Warning } from '../../result/result.ts';
import type { ComparisonRow } from '../../values/comparisonParts.ts';
import { noteWarning, tell } from '../messages/evidence.ts';
import { leftOutOf, segmentSamples, shortIn } from '../spectra/segments.ts';
import { eachOnce, together } from '../together.ts';
import { powerSensitivity } from './sensitivity.ts';
import { differences, type Studied } from './comparability.ts';
import type { Compared, ComparedChange } from './compared.ts';
import { bandDoubts, type BandDoubts } from './bandDoubts.ts';
import { faultGuards } from './faultGuards.ts';
import { floorDoubts } from './noiseFloor.ts';
import { conditionAt } from './knownRuns.ts';
import type { Band } from '../../values/band.ts';
import type { Run } from '../../values/run.ts';
import type { Measurement } from './measurement.ts';
import { mixedWarnings } from './mixed.ts';
import { comparedIn, measuredIn, type Sides } from './sides.ts';
import { wordsOf } from './strata.ts';

/** What a reader must know of a comparison, and what forbids a verdict by it. */
export interface ComparisonDoubts {
  readonly warnings: readonly Warning[];
  /** Reasons that forbid a verdict by any row, as clauses. */
  readonly guards: readonly Message[];
  /** The same of one change alone. */
  ofChange(change: ComparedChange): readonly Message[];
  /** What a band of an axis holds that is no vibration, beside the change of this index. */
  ofBand(axis: number, band: number, change: number): BandDoubts;
  /** What is told once the rows are there. */
  afterRows(rows: readonly ComparisonRow[]): readonly Warning[];
}

/** Doubts about each pair of sides, in the order of the changes; those of one pair alone forbid a verdict by its rows alone. */
export function comparisonDoubts(compared: Compared): ComparisonDoubts {
  const { measurements, terms, changes, found } = compared;
  const [{ sides }] = measurements;
  const overall = changes.filter(({ stratum }) => stratum === undefined);
  const unlike = overall.map((change) => {
    const pair = pairOf(sides, change);
    const { warnings, guards } = differences(pair, studied(compared, change));
    const faults = measurements.flatMap((one) => faultGuards(pairOf(one.sides, change), terms)).slice(0, 1);
    return { warnings, guards: [...guards, ...faults] };
  });
  const banded = measurements.map((_, axis) =>
    terms.bands.map((_band, band) => changes.map((_change, at) => doubtsOf(compared, { axis, band, at }))),
  );
  const all = unlike.flatMap(({ guards }) => guards);
  const isOfAll = ({ message }: Message): boolean =>
    unlike.every(({ guards }) => guards.some((other) => other.message === message));
  const bands = measurements.flatMap(() => terms.bands);
  const notes = changes.flatMap((change, k) => {
    const { a, b } = pairOf(sides, change);
    const stratum = wordsOf(compared.strata, change.stratum);
    return found[k].notes.flatMap((note) => noteWarning(note, { a: a.name, b: b.name }, bands, stratum) ?? []);
  });
  return {
    warnings: [
      ...eachOnce(banded.flat(2).flatMap(({ warnings }) => warnings)),
      ...mixedWarnings(comparedIn(sides), takenOut(compared)),
      ...unlike.flatMap(({ warnings }) => warnings),
      ...notes,
      ...leftOut(measurements[0]),
      ...measurements.flatMap(faintLines),
      ...powerSensitivity(compared),
    ],
    guards: eachOnce(all.filter(isOfAll)),
    ofChange: ({ a, b }) => {
      const at = overall.findIndex((one) => one.a === a && one.b === b);
      return eachOnce(unlike[at].guards.filter((one) => !isOfAll(one)));
    },
    ofBand: (axis, band, change) => banded[axis][band][change],
    afterRows: shareWarnings,
  };
}

/** Sides of which lines do not stand out that were looked for. */
const faintLines = ({ sides, measured }: Measurement): Warning[] =>
  measuredIn(sides).flatMap(({ name, tracks }, index) => {
    const { faint = 0 } = measured[index];
    return faint === 0 ? [] : [tell('compare.line-faint', { side: name, faint, runs: tracks.length })];
  });

/** A change with the levels of its first band, or of the primary one. */
function studied(compared: Compared, change: ComparedChange): Studied {
  const { terms, layout, levels } = compared;
  const { method, isPooled } = terms;
  return {
    ...{ change, runs: layout.runs, levels: levels[terms.primary ?? 0] },
    options: { method, isPooled, isOverDays: layout.isOverDays },
    taken: takenOut(compared),
  };
}

/** Columns of the run sheet that the comparison takes care of, in lower case. */
const takenOut = ({ adjusted, strata }: Compared): string[] =>
  [...adjusted.asked.map(({ column }) => column), ...(strata?.columns ?? [])].map((column) => column.toLowerCase());

function pairOf(sides: Sides, { a, b }: ComparedChange): Sides {
  const all = comparedIn(sides);
  return { a: all[a], b: all[b] };
}

/** A band of an axis and the change that is stated in it, by their indices. */
interface Asked {
  readonly axis: number;
  readonly band: number;
  readonly at: number;
}

/** What a band holds that is no vibration: by the logger at rest, where there is one and the sides have spectra, and by its steps and range. */
function doubtsOf(
  { measurements, terms, layout, changes, found }: Compared,
  { axis, band: index, at }: Asked,
): BandDoubts {
  const { sides, measured, floor, levels: measuredLevels } = measurements[axis];
  const change = changes[at];
  const pair = pairOf(sides, change);
  const band = terms.bands[index];
  const interval = found[at].rows[axis * terms.bands.length + index].inference?.interval;
  const of = (side: number): number[] =>
    measuredLevels[index].filter((_, run) => layout.runs[run].condition === conditionAt(side));
  const levels = { a: of(change.a), b: of(change.b) };
  const [a, b] = [change.a, change.b].map((side) => measured[side].spectrum?.entries);
  const bandsIn = (side: number): ((run: number) => Band) => measured[side].bandOf ?? ((): Band => band);
  const bandOf = { a: bandsIn(change.a), b: bandsIn(change.b) };
  const doubts = [
    ...(floor === undefined || a === undefined || b === undefined
      ? []
      : [floorDoubts(band, floor, { a, b, interval, bandOf })]),
    bandDoubts(pair, terms, { band: terms.ofSignal ? undefined : band, levels, interval, bandOf }),
  ];
  return {
    warnings: doubts.flatMap(({ warnings }) => warnings),
    guards: doubts.flatMap(({ guards }) => guards),
  };
}

/** A share of the baseline's mean square below which a change hardly changes the whole, in percent (engineering choice). */
const smallShare = 1;

const shareWarnings = (rows: readonly ComparisonRow[]): Warning[] =>
  rows.flatMap(({ band, baseline, shareOfA, stratum }) =>
    stratum === undefined && shareOfA !== undefined && shareOfA < smallShare
      ? [tell('compare.small-share', { band, baseline, sharePercent: shareOfA })]
      : [],
  );

/** Share of a run's samples from which on it is told that they are not in its densities (engineering choice). */
const muchLeftOut = 0.1;

/** Runs of which losses leave much out of the densities that were made for the comparison; of others, who made them was told. */
function leftOut({ sides, measured }: Measurement): Warning[] {
  const told = measuredIn(sides).flatMap(({ spectrum, tracks, window }, side) => {
    if (spectrum !== undefined || measured[side].spectrum === undefined) return [];
    const isMuch = (run: Run): boolean => {
      const segment = segmentSamples(run, window);
      return shortIn(run, ({ from, to }) => to - from >= segment).some(
        ({ samples, all }) => samples > muchLeftOut * all,
      );
    };
    return leftOutOf(tracks.map(({ run }) => run).filter(isMuch), window);
  });
  return together(told);
}
