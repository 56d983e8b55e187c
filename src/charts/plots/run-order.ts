import type { ComparisonRow, ComparisonValue } from '../../values/comparison.ts';
import type { Run } from '../../values/run.ts';
import { comparedName } from '../compared.ts';
import { figureLabel, fittedNames, heightOfNames, legendRows, seriesLegend } from '../axes.ts';
import { axisTitle, capitalised, counted, printedUnit } from '../names.ts';
import { drawn, significant } from '../number.ts';
import type { ChartPart } from '../output.ts';
import { chartPart, fullWidth, role, seriesColour, seriesDash, seriesShape } from '../specification.ts';

const plotHeight = 180;

interface Dot {
  readonly run: Run;
  /** In the order the runs were made in, where it is known. */
  readonly place: number | undefined;
  readonly side: string;
  readonly rms: number;
}

/** Every run of both sides a dot, in the order they were made: scatter, drift and the change at once. */
export function runOrderChart(value: ComparisonValue, row: ComparisonRow): ChartPart | undefined {
  const { a, b } = value;
  const of = ({ runs, name, places }: ComparisonValue['a'], figures: readonly number[]): Dot[] =>
    figures.flatMap((rms, index) =>
      runs[index] === undefined ? [] : [{ run: runs[index], side: name, rms, place: places?.[index] }],
    );
  const { dots, known } = inOrder([...of(a, row.aRuns), ...of(b, row.bRuns)]);
  if (dots.length === 0) return undefined;
  const sides = a.name === b.name ? [a.name] : [a.name, b.name];
  const unit = row.unit.symbol;
  const scale = (range: (index: number) => unknown): object => ({
    domain: sides,
    range: sides.map((_, index) => range(index)),
  });
  const color = { field: 'side', type: 'nominal', scale: scale(seriesColour), legend: seriesLegend(sides, undefined) };
  const y = {
    field: 'rms',
    type: 'quantitative',
    scale: { zero: false, nice: true, padding: 8 },
    axis: { title: axisTitle(value.metric, unit), labelExpr: figureLabel, tickCount: 5 },
  };
  const means = sides.map((side, index) => ({ side, rms: drawn(index === 0 ? row.a : row.b) }));
  const values = dots.map(({ run, side, rms }, place) => ({
    place: `${place + 1}. ${run.label}`,
    side,
    rms: drawn(rms),
    says: `${run.label}, ${side}\n${significant(rms)} ${printedUnit(unit)}`,
  }));
  const places = values.map(({ place }) => place);
  return chartPart({
    title: `Every run: ${value.metric}, ${comparedName(value, row)}, channel ${value.channel}`,
    subtitle: `${known ? 'In the order in which the runs were made' : 'Set by set, for the order in which the runs were made is not known'}; the lines are the geometric means. The axis does not begin at zero.`,
    view: {
      width: fullWidth,
      height: plotHeight,
      layer: [
        {
          data: { values: means },
          mark: { type: 'rule', aria: false, strokeWidth: 1.4 },
          encoding: {
            y,
            color,
            strokeDash: { field: 'side', type: 'nominal', scale: scale(seriesDash), legend: null },
          },
        },
        {
          data: { values },
          mark: {
            type: 'point',
            aria: false,
            filled: true,
            size: 110,
            opacity: 1,
            stroke: role('background'),
            strokeWidth: 1,
            tooltip: { content: 'encoding' },
          },
          encoding: {
            x: {
              field: 'place',
              type: 'nominal',
              sort: null,
              scale: { domain: places },
              axis: { title: 'Run', ...fittedNames(places), grid: false },
            },
            y,
            color,
            shape: {
              field: 'side',
              type: 'nominal',
              scale: scale(seriesShape),
              legend: seriesLegend(sides, undefined),
            },
            tooltip: { field: 'says', type: 'nominal' },
          },
        },
      ],
    },
    height: plotHeight + heightOfNames(places),
    legendRows: legendRows(sides),
    description: `${capitalised(value.metric)}, ${comparedName(value, row)}, of ${counted(dots.length, 'run')}${known ? ' in the order they were made' : ''}: ${dots.map(({ run, side, rms }) => `${run.label} (${side}) ${significant(rms, 3)}`).join(', ')} ${printedUnit(unit)}.`,
  });
}

/** By the places that the comparison knows, else by the run sheet, else by the files' clocks, else as they stand. */
function inOrder(dots: readonly Dot[]): { dots: Dot[]; known: boolean } {
  const by = (placeOf: (dot: Dot) => number | undefined): Dot[] | undefined => {
    const places = dots.map(placeOf);
    if (places.some((each) => each === undefined) || new Set(places).size < places.length) return undefined;
    const placed = dots.map((dot, index) => ({ dot, at: places[index] ?? 0 }));
    return placed.sort((first, second) => first.at - second.at).map(({ dot }) => dot);
  };
  const ordered = by(({ place }) => place) ?? by(({ run }) => run.sheet?.order) ?? by(({ run }) => run.epoch);
  return { dots: ordered ?? [...dots], known: ordered !== undefined };
}
