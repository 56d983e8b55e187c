import { changeText, rowLabel, type ClaimedChange } from '../words/compared.ts';
import { changeName, hasConditions, hasSeveral, type ComparisonValue } from '../../values/comparison.ts';
import { changesWithin, outcomeWord, type ComparisonRow } from '../../values/comparisonParts.ts';
import { levelAxis, textWidth, type Domain } from '../axes.ts';
import { bySeries } from '../legends.ts';
import { dots, layerOf, rimmedText, writtenFrom } from '../marks.ts';
import { distinct } from '../words/names.ts';
import { drawn, plain, signed } from '../../values/number.ts';
import { role } from '../specification.ts';
import { layout } from '../layout.ts';
import { labelsFor } from './overlayLabels.ts';

export const outcomes = [
  { outcome: 'lower', shape: 'triangle-down', ink: 'lower' },
  { outcome: 'higher', shape: 'triangle-up', ink: 'higher' },
  { outcome: 'equivalent', shape: 'square', ink: 'equivalent' },
  { outcome: 'not shown', shape: 'circle', ink: 'unclear' },
] as const satisfies readonly {
  readonly outcome: ComparisonRow['outcome'];
  readonly shape: string;
  readonly ink: string;
}[];

/** From the lowest limit to the highest, zero inside; a limit far beyond every change runs off the edge. */
export function changeDomain(rows: readonly ComparisonRow[], margin = 0, claim?: ClaimedChange): Domain {
  const changes = [...rows.map((row) => row.changePercent), ...claimEnds(claim)];
  const reach = Math.max(...changes.map(Math.abs), margin * 100, 2) * 4 + 10;
  const from = Math.max(
    -100,
    -reach,
    Math.min(-margin * 110, 0, ...changes, ...rows.map((row) => row.lowPercent ?? 0)),
  );
  const to = Math.min(reach, Math.max(margin * 110, 0, ...changes, ...rows.map((row) => row.highPercent ?? 0)));
  const room = (to - from) * 0.06 + 0.5;
  return { from: from - room, to: to + room };
}

/** Width in px that a row's name takes at most. */
export const labelLimit = (value: ComparisonValue): number => (hasSeveral(value) ? 220 : 90);

/** Zone of no practical difference, zero line, interval, change and its figures, from back to front. @param rowHeight in px */
export function changeLayers(value: ComparisonValue, rowHeight: number, claim?: ClaimedChange): object[] {
  const { rows, margin } = value;
  const domain = changeDomain(rows, margin, claim);
  const values = changeData(value, domain);
  const x = changeAxis(value, domain);
  const y = {
    field: 'band',
    type: 'nominal',
    sort: null,
    scale: { domain: rows.map((row) => rowLabel(value, row)), padding: 0.1 },
    axis: { title: null, ticks: false, domain: false, labelLimit: labelLimit(value) },
  };
  const present = outcomes.filter(({ outcome }) => rows.some((row) => row.outcome === outcome));
  const byOutcome = (range: readonly unknown[]): object => ({
    field: 'outcome',
    type: 'nominal',
    scale: { domain: present.map(({ outcome }) => outcomeWord(outcome, value)), range },
    // The word stands beside each change.
    legend: null,
  });
  const color = byOutcome(present.map(({ ink }) => role(ink)));
  // Several conditions are told apart by shape and dash; what was found stands beside each in words and colour.
  const conditions = hasConditions(value) ? bySeries(conditionsIn(value), 'dot', { field: 'condition' }) : undefined;
  const shape = conditions?.shape ?? byOutcome(present.map((entry) => entry.shape));
  const dash = conditions === undefined ? {} : { strokeDash: conditions.strokeDash };
  const written = { dy: -12, fontSize: 11, align: { expr: 'datum.side' } };
  return [
    ...(claim === undefined ? zoneOfMargin(margin, x) : claimLayers(claim, domain, { x, y, values, rowHeight })),
    ...upright(values, { at: 0, line: { strokeWidth: 1.2 }, x, y, rowHeight }),
    layerOf(
      values,
      { type: 'rule', strokeWidth: role('strong'), clip: true },
      { y, x: x('low'), x2: { field: 'high' }, color, ...dash },
    ),
    dots(values, 110, { y, x: x('change'), color, shape }),
    ...rimmedText(values, written, { y, x: x('change'), ...writtenFrom('text') }),
  ];
}

type FieldAxis = (field: string) => object;

/** From where to where a row's figures, which stand 12 px above its middle, reach, in px above that. */
const figures = { from: 5, to: 19 };

/** Where an upright line stands, and what it is drawn over. */
interface Upright {
  readonly at: number;
  readonly line: object;
  readonly x: FieldAxis;
  readonly y: object;
  /** px of a row. */
  readonly rowHeight: number;
}

/** A line over all rows; in print it leaves out what figures stand on it, so that no sign is crossed. */
function upright(values: readonly ChangeDatum[], { at, line, x, y, rowHeight }: Upright): object[] {
  const end = drawn(at);
  const whole = { type: 'rule', ...line };
  if (!layout().print || !values.some((row) => goesOver(row, at))) return [layerOf([{ end }], whole, { x: x('end') })];
  const half = rowHeight / 2;
  const piece = (isOver: boolean, from: number, to: number): object[] => {
    const rows = values.flatMap((row) => (goesOver(row, at) === isOver ? [{ band: row.band, end }] : []));
    const reach = { yOffset: from, y2Offset: to };
    return rows.length === 0 || to <= from
      ? []
      : [layerOf(rows, { ...whole, ...reach }, { x: x('end'), y, y2: { field: 'band' } })];
  };
  return [...piece(false, -half, half), ...piece(true, -half, -figures.to), ...piece(true, -figures.from, half)];
}

/** The sides are named in the chart's title, where a long name can break. */
const changeAxis =
  ({ metric }: ComparisonValue, { from, to }: Domain): FieldAxis =>
  (field) =>
    levelAxis(field, `Change of ${metric} (%)`, { domain: [from, to], nice: false, zero: false }, changeTicks);

const changeTicks = { grid: true, tickCount: { expr: 'floor(chartWidth / 80)' } };

const zoneLayer = (zone: Domain, x: FieldAxis, color: object, opacity: number): object =>
  layerOf([zone], { type: 'rect', color, opacity }, { x: x('from'), x2: { field: 'to' } });

const zoneOfMargin = (margin: number | undefined, x: FieldAxis): object[] =>
  margin === undefined ? [] : [zoneLayer({ ...changesWithin(margin) }, x, role('shade_alternate'), 1)];

const claimEnds = (claim: ClaimedChange | undefined): number[] =>
  [claim?.from, claim?.to].filter((end) => end !== undefined);

/** What the claim allows, shaded, and its limits as lines with their figures. */
function claimLayers(
  claim: ClaimedChange,
  domain: Domain,
  { values, ...place }: Omit<Upright, 'at' | 'line'> & { readonly values: readonly ChangeDatum[] },
): object[] {
  const { x } = place;
  const zone = { from: claim.from ?? domain.from, to: claim.to ?? domain.to };
  const ends = claimEnds(claim).map((end) => ({ end: drawn(end), text: `claim ${signed(plain(end, 3))} %` }));
  const label = { type: 'text', align: 'left', dx: 4, y: { expr: 'height - 8' } };
  return [
    zoneLayer(zone, x, role('equivalent'), 0.18),
    ...claimEnds(claim).flatMap((at) =>
      upright(values, { ...place, at, line: { strokeDash: [5, 3], strokeWidth: 1.4 } }),
    ),
    layerOf(ends, label, { x: x('end'), ...writtenFrom('text') }),
  ];
}

/** What rows' marks are told apart by, where there are several conditions. */
const conditionsIn = (value: ComparisonValue): string[] => distinct(value.rows.map((row) => changeName(value, row)));

const wordsOf = (value: ComparisonValue, row: ComparisonRow): string =>
  `${changeText(row)}, ${outcomeWord(row.outcome, value)}`;

/** Centred over its place where that leaves it in the picture, however narrow; else to the side that has room. */
function sideOf(along: number, text: string): 'left' | 'center' | 'right' {
  const half = textWidth(text) / 2 / labelsFor();
  return along < half ? 'left' : along > 1 - half ? 'right' : 'center';
}

interface ChangeDatum {
  readonly band: string;
  readonly change: number | null;
  readonly low: number | null;
  readonly high: number | null;
  readonly outcome: string;
  readonly condition: string;
  readonly side: 'left' | 'center' | 'right';
  /** From where to where its figures reach. */
  readonly reach: Domain;
  readonly text: string;
  readonly says: string;
}

const goesOver = ({ reach: { from, to } }: ChangeDatum, at: number): boolean => from <= at && at <= to;

/** Where a row's figures stand beside its change, and from where to where they reach. @param along as a part of the picture's width */
function placeOf(along: number, text: string, { from, to }: Domain): Pick<ChangeDatum, 'side' | 'reach'> {
  const side = sideOf(along, text);
  const width = textWidth(text) / labelsFor();
  const start = along - { left: 0, center: width / 2, right: width }[side];
  return { side, reach: { from: from + start * (to - from), to: from + (start + width) * (to - from) } };
}

function changeData(value: ComparisonValue, domain: Domain): ChangeDatum[] {
  return value.rows.map((row) => {
    const text = wordsOf(value, row);
    const band = rowLabel(value, row);
    return {
      band,
      change: drawn(row.changePercent),
      low: drawn(Math.max(domain.from, row.lowPercent ?? row.changePercent)),
      high: drawn(Math.min(domain.to, row.highPercent ?? row.changePercent)),
      outcome: outcomeWord(row.outcome, value),
      condition: changeName(value, row),
      ...placeOf((row.changePercent - domain.from) / (domain.to - domain.from), text, domain),
      text,
      says: `${band}\n${row.sentence}`,
    };
  });
}
