import type { Message, Warning } from '../../result/result.ts';
import type { Band } from '../../values/band.ts';
import type { ComparisonRow } from '../../values/comparison.ts';
import { noteWarning, tell } from '../messages/evidence.ts';
import { powerSensitivity } from './sensitivity.ts';
import { differences, type Studied } from './comparability.ts';
import type { Compared, ComparedChange } from './compared.ts';
import type { Measurement } from './measurement.ts';
import { floorDoubts, type FloorDoubts } from './noiseFloor.ts';
import { comparedIn, type Sides } from './sides.ts';

/** What a reader must know of a comparison, and what forbids a verdict by it. */
export interface ComparisonDoubts {
  readonly warnings: readonly Warning[];
  /** Reasons that forbid a verdict by any row, as clauses. */
  readonly guards: readonly Message[];
  /** The same of one change alone. */
  ofChange(change: ComparedChange): readonly Message[];
  /** How a band of an axis stands to the logger at rest. */
  floor(axis: number, band: number): FloorDoubts;
  /** What is told once the rows are there. */
  afterRows(rows: readonly ComparisonRow[]): readonly Warning[];
}

/** Doubts about each pair of sides, in the order of the changes; those of one pair alone forbid a verdict by its rows alone. */
export function comparisonDoubts(compared: Compared): ComparisonDoubts {
  const { measurements, terms, changes, found } = compared;
  const [{ sides }] = measurements;
  const overall = changes.filter(({ stratum }) => stratum === undefined);
  const unlike = overall.map((change) => differences(pairOf(sides, change), studied(compared, change)));
  const floors = measurements.map((one) => terms.bands.map((band) => floorOf(band, one)));
  const all = unlike.flatMap(({ guards }) => guards);
  const isOfAll = ({ message }: Message): boolean =>
    unlike.every(({ guards }) => guards.some((other) => other.message === message));
  const bands = measurements.flatMap(() => terms.bands);
  const notes = changes.flatMap((change, k) => {
    const { a, b } = pairOf(sides, change);
    const stratum = strataWords(compared, change);
    return found[k].notes.flatMap((note) => noteWarning(note, { a: a.name, b: b.name }, bands, stratum) ?? []);
  });
  return {
    warnings: [
      ...floors.flat().flatMap(({ warnings }) => warnings),
      ...unlike.flatMap(({ warnings }) => warnings),
      ...notes,
      ...powerSensitivity(compared),
    ],
    guards: distinct(all.filter(isOfAll)),
    ofChange: ({ a, b }) => {
      const at = overall.findIndex((one) => one.a === a && one.b === b);
      return distinct(unlike[at].guards.filter((one) => !isOfAll(one)));
    },
    floor: (axis, band) => floors[axis][band],
    afterRows: shareWarnings,
  };
}

/** A change with the levels of its first band, or of the primary one. */
function studied({ terms, layout, levels, adjusted, strata }: Compared, change: ComparedChange): Studied {
  const { method, isPooled } = terms;
  const taken = [...adjusted.asked.map(({ column }) => column), ...(strata?.columns ?? [])];
  return {
    ...{ change, runs: layout.runs, levels: levels[terms.primary ?? 0] },
    options: { method, isPooled, isOverDays: layout.isOverDays },
    taken: taken.map((column) => column.toLowerCase()),
  };
}

const distinct = (messages: readonly Message[]): Message[] =>
  messages.filter(({ message }, index) => messages.findIndex((other) => other.message === message) === index);

const strataWords = ({ strata }: Compared, { stratum }: ComparedChange): string | undefined =>
  stratum === undefined ? undefined : strata?.words[strata.names.indexOf(stratum)];

function pairOf(sides: Sides, { a, b }: ComparedChange): Sides {
  const all = comparedIn(sides);
  return { a: all[a], b: all[b] };
}

/** How a band stands to the logger at rest, where there is one and the sides have spectra. */
function floorOf(band: Band, { measured, floor }: Measurement): FloorDoubts {
  const spectra = measured.flatMap(({ spectrum }) => spectrum ?? []);
  if (floor === undefined || spectra.length < measured.length) return { warnings: [], guards: [] };
  return floorDoubts(
    band,
    floor,
    spectra.flatMap(({ entries }) => entries),
  );
}

/** A share of the baseline's mean square below which a change hardly changes the whole, in percent (engineering choice). */
const smallShare = 1;

const shareWarnings = (rows: readonly ComparisonRow[]): Warning[] =>
  rows.flatMap(({ band, shareOfA }) =>
    shareOfA !== undefined && shareOfA < smallShare
      ? [tell('compare.small-share', { band, sharePercent: shareOfA })]
      : [],
  );
