import type { KnownRun } from '../../statistics/knownRun.ts';
import type { ComparisonRow } from '../../values/comparisonParts.ts';
import type { Compared, ComparedChange } from './compared.ts';
import type { ComparisonDoubts } from './comparisonDoubts.ts';
import type { ResultPlace } from '../messages/comparison.ts';
import { guard } from '../messages/verdict.ts';
import { guardsIn } from './guards.ts';
import { comparisonRow } from './comparisonRow.ts';
import { conditionAt, lettersOf } from './knownRuns.ts';
import { levelName } from './metrics.ts';
import { comparedIn } from './sides.ts';
import { sensorErrors } from './sensors.ts';
import { wordsOf } from './strata.ts';

/** The rows of a comparison with their sentences: axis by axis and band by band, each change over all strata, then in each. */
export function comparedRows(compared: Compared, doubts: ComparisonDoubts): ComparisonRow[] {
  const { measurements, terms, changes } = compared;
  return measurements.flatMap((_, axis) =>
    terms.bands.flatMap((_band, band) =>
      changes.map((change, at) => rowOf(compared, doubts, { axis, band, change, at })),
    ),
  );
}

/** Where a row stands: its axis, its band and its change, whose place among all is `at`. */
interface Cell {
  readonly axis: number;
  readonly band: number;
  readonly change: ComparedChange;
  readonly at: number;
}

function rowOf(compared: Compared, doubts: ComparisonDoubts, { axis, band: index, change, at }: Cell): ComparisonRow {
  const { measurements, terms, found, levels, strata, layout, adjusted, sensors } = compared;
  const { sides, measured } = measurements[axis];
  const { metric, bands, ofSignal, margin, besides } = terms;
  const band = bands[index];
  const [a, b] = [change.a, change.b].map((side) => comparedIn(sides)[side]);
  const row = axis * bands.length + index;
  const isOf =
    (side: number) =>
    ({ condition }: KnownRun): boolean =>
      condition === conditionAt(side);
  const own = (side: number): number[] =>
    layout.runs.flatMap((run, k) =>
      isOf(side)(run) && (change.stratum === undefined || run.stratum === change.stratum) ? [k] : [],
    );
  const [ownA, ownB] = [own(change.a), own(change.b)];
  const apart = found[at].rows[row].inference?.apart?.slice(adjusted.stated.length) ?? [];
  const errors = apart.length === 0 ? [] : sensorErrors(sensors, apart, sides.a.channel);
  const place = {
    band: ofSignal ? undefined : band,
    level: levelName(metric, sides.a),
    channel: sides.a.channel,
    order: lettersOf(layout, [ownA, ownB]),
    a: a.name,
    b: b.name,
    stratum: wordsOf(strata, change.stratum),
    combined: strata !== undefined && change.stratum === undefined ? strata.words : undefined,
    days: strata?.isOfDays !== true || change.stratum !== undefined ? undefined : layout.isOverDays ? 'other' : 'these',
    adjusted: adjusted.asked,
    sensors: errors,
    isPooled: terms.isPooled && found[at].rows[row].inference !== undefined,
    references: sides.reference?.tracks.length ?? 0,
    together: togetherOf(compared, change, index === terms.primary),
  } as const;
  const guards = [
    ...doubts.ofBand(axis, index, at).guards,
    ...doubts.ofChange(change),
    ...(besides === undefined ? [] : [guard('guard.compared', { band })]),
  ];
  return comparisonRow(
    {
      ...{ band, unit: measured[change.a].unit, margin, place },
      levels: { a: ownA.map((k) => levels[row][k]), b: ownB.map((k) => levels[row][k]) },
      shareOfA: shareOfA(measured[change.a].shares?.(band), ownA, layout.runs.findIndex(isOf(change.a))),
      guards,
      sensors: errors,
      against: guardsIn(band, { ofAll: doubts.guards, own: guards, plan: terms.planned }),
      stratum: change.stratum,
    },
    found[at].rows[row],
    found[at],
  );
}

/** Mean over the runs that a row rests on. @param first place of the side's first run among all */
const shareOfA = (shares: readonly number[] | undefined, runs: readonly number[], first: number): number | undefined =>
  shares && runs.reduce((sum, k) => sum + shares[k - first], 0) / runs.length;

/** What the rows are whose intervals hold together; a primary one stands by itself. */
function togetherOf(
  compared: Compared,
  { stratum }: ComparedChange,
  isPrimary: boolean,
): NonNullable<ResultPlace['together']> {
  if (stratum !== undefined) return 'changes within strata';
  if (isPrimary) return 'changes in the primary band';
  const what = isOfBandsAlone(compared) ? 'bands' : 'changes';
  return compared.terms.primary === undefined ? what : `other ${what}`;
}

/** Whether nothing but bands tells the rows apart. */
const isOfBandsAlone = ({ measurements, changes }: Compared): boolean =>
  measurements.length === 1 && changes.length === 1;
