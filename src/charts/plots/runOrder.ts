import { runOrderDescription, runOrderSubtitle, runOrderTitle, type KnownOrder } from '../words/change.ts';
import { sidesOfRow, type ComparisonValue } from '../../values/comparison.ts';
import type { ComparisonRow } from '../../values/comparisonParts.ts';
import type { Run } from '../../values/run.ts';
import { heightOfNames, levelAxis, runsAxis } from '../axes.ts';
import { bySeries, legendRows } from '../legends.ts';
import { dots, layered, layerOf, rim } from '../marks.ts';
import { bandOfRow } from '../words/compared.ts';
import { axisTitle, distinct } from '../words/names.ts';
import { drawn, significant, printedUnit } from '../../values/number.ts';
import type { ChartPart } from '../output.ts';
import { levelScaleOf } from '../levelScale.ts';
import { chartPart, type Drawing } from '../specification.ts';
import { crowdSubtitle, runsAsMade, runsInOrder } from '../words/crowds.ts';
import { crowdDrawing, hasCrowd } from './crowdedRuns.ts';

const plotHeight = 180;

interface Dot {
  readonly run: Run;
  /** In the order the runs were made in, where it is known. */
  readonly place: number | undefined;
  /** Which of the strata it is of; 0 without. */
  readonly stratum: number;
  readonly side: string;
  readonly rms: number;
}

/** Every run of both sides a dot (of very many, where most of them lie), in the order they were made: scatter, drift and the change at once. */
export function runOrderChart(value: ComparisonValue, row: ComparisonRow): ChartPart | undefined {
  const like = value.rows.filter(
    ({ band, channel, stratum, baseline }) =>
      band === row.band && channel === row.channel && stratum === row.stratum && baseline === row.baseline,
  );
  // The conditions beside this one are shown with it.
  const others = (like.includes(row) ? like : [row]).map((one) => ({ one, side: sidesOfRow(value, one).b }));
  const { a } = sidesOfRow(value, row);
  const of = ({ runs, name, places, strata }: ComparisonValue['a'], figures: readonly number[]): Dot[] =>
    runs.slice(0, figures.length).map((run, index) => ({
      ...{ run, side: name, rms: figures[index], place: places?.[index] },
      // Of a row within one stratum all runs are of it.
      stratum: row.stratum === undefined ? (value.strata?.names.indexOf(strata?.[index] ?? '') ?? 0) : 0,
    }));
  const { made, known } = inOrder([...of(a, row.aRuns), ...others.flatMap(({ one, side }) => of(side, one.bRuns))]);
  if (made.length === 0) return undefined;
  const sides = distinct([a.name, ...others.map(({ side }) => side.name)]);
  const levels = { zero: false, nice: true, padding: 8 };
  const y = levelAxis('rms', axisTitle(value.metric, row.unit.symbol), levels, { tickCount: 5 });
  const means = sides.map((series, index) => ({ series, rms: drawn(index === 0 ? row.a : others[index - 1].one.b) }));
  const shown = { value, row, made, known, sides, y, means };
  return chartPart({
    what: 'runs',
    title: runOrderTitle(value, row),
    legendRows: legendRows(sides),
    ...(hasCrowd(made.map(({ side }) => ({ series: side }))) ? drawnAsCrowds(shown) : drawnOneByOne(shown)),
  });
}

interface Shown {
  readonly value: ComparisonValue;
  readonly row: ComparisonRow;
  readonly made: readonly Dot[];
  readonly known: KnownOrder;
  readonly sides: readonly string[];
  readonly y: object;
  readonly means: readonly object[];
}

type Drawn = Pick<Drawing, 'subtitle' | 'view' | 'height' | 'description'>;

const meanLines = ({ sides, y, means }: Shown): object => {
  const { color, strokeDash } = bySeries(sides, 'dot');
  return layerOf(means, { type: 'rule', strokeWidth: 1.4 }, { y, color, strokeDash });
};

function drawnOneByOne(shown: Shown): Drawn {
  const { value, row, made, known, sides, y } = shown;
  const { color, shape } = bySeries(sides, 'dot');
  const numbers = numbersOf(made, known);
  const values = made.map(({ run, side, rms }, index) => ({
    place: numbers === undefined ? run.label : `${numbers[index]}. ${run.label}`,
    series: side,
    rms: drawn(rms),
    says: `${run.label}, ${side}\n${significant(rms)} ${printedUnit(row.unit.symbol)}`,
  }));
  const places = values.map(({ place }) => place);
  const x = runsAxis('place', places, { grid: false });
  return {
    subtitle: runOrderSubtitle(known),
    view: layered(plotHeight, [meanLines(shown), dots(values, 110, { x, y, color, shape }, rim(1))]),
    height: plotHeight + heightOfNames(places),
    description: runOrderDescription(value, row, made, known !== 'not'),
  };
}

function drawnAsCrowds(shown: Shown): Drawn {
  const { value, row, made, known, sides, y } = shown;
  const points = made.map(({ run, side, rms }, k) => ({ series: side, run: run.label, level: rms, place: k + 1 }));
  const foot = points.reduce((least, { level }) => Math.min(least, level), Infinity);
  const title = known === 'not' ? runsInOrder : runsAsMade;
  const scale = levelScaleOf(row.unit, undefined);
  const crowds = { points, series: sides, scale, y, title, height: plotHeight, foot };
  return {
    subtitle: `${runOrderSubtitle(known)} ${crowdSubtitle}`,
    ...crowdDrawing(crowds, `${value.metric}, ${bandOfRow(value, row)},`, [meanLines(shown)]),
  };
}

/**
 * The numbers that runs have in their sheet, else their places in the order in which they were made; where that is not known
 * a number would pretend that it were, and stands only between runs of one name.
 */
function numbersOf(made: readonly Dot[], known: KnownOrder): readonly number[] | undefined {
  const written = made.flatMap(({ run }) => run.sheet?.order ?? []);
  if (written.length === made.length) return written;
  const isNamedTwice = new Set(made.map(({ run }) => run.label)).size < made.length;
  return known === 'not' && !isNamedTwice ? undefined : made.map((_, index) => index + 1);
}

/**
 * By the places that the comparison knows, else by the run sheet, else by the files' clocks, else as they stand. Strata that
 * have an order each come one after the other.
 */
function inOrder(dots: readonly Dot[]): { made: Dot[]; known: KnownOrder } {
  const by = (placeOf: (dot: Dot) => number | undefined, isWithin: boolean): Dot[] | undefined => {
    const placed = dots.map((dot) => ({ dot, stratum: isWithin ? dot.stratum : 0, at: placeOf(dot) ?? NaN }));
    const keys = new Set(placed.map(({ stratum, at }) => `${stratum} ${at}`));
    if (placed.some(({ at }) => Number.isNaN(at)) || keys.size < placed.length) return undefined;
    return placed.sort((one, other) => one.stratum - other.stratum || one.at - other.at).map(({ dot }) => dot);
  };
  const sources = [({ place }: Dot) => place, ({ run }: Dot) => run.sheet?.order, ({ run }: Dot) => run.epoch];
  for (const source of sources) {
    const all = by(source, false);
    if (all !== undefined) return { made: all, known: 'all' };
    const within = by(source, true);
    if (within !== undefined) return { made: within, known: 'within strata' };
  }
  return { made: [...dots], known: 'not' };
}
