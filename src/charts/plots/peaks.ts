import type { PeakRow, PeaksValue } from '../../values/peaks.ts';
import { along, frequencyAxis, legendRows, logLevelAxis, placeLabels, withHeadroom } from '../axes.ts';
import { axisTitle, capitalised, distinct, listed, printedUnit } from '../names.ts';
import { drawn, significant } from '../number.ts';
import type { ChartPart } from '../output.ts';
import { placeOn, setName } from '../series.ts';
import { chartPart, fullWidth, role } from '../specification.ts';
import { bareOverlay, overlayOf, type Overlay, type OverlayOptions } from './overlay.ts';
import { overlayLayers } from './overlay-layers.ts';
import { labelHeight, labelsFor } from './overlay-labels.ts';

const plotHeight = 300;
const labelRows = 4;

/** The spectrum with the lines that stand out marked, and named along the upper edge. */
export function peaksChart(
  { name, value }: { name: string | undefined; value: PeaksValue },
  options: OverlayOptions = bareOverlay,
): ChartPart | undefined {
  const bare = overlayOf([{ name, value: value.spectrum }], options);
  if (bare === undefined) return undefined;
  const rows = value.rows.filter(({ frequency }) => frequency >= bare.x.from && frequency <= bare.x.to);
  // With a mean, the names of its peaks stand for those of the runs about it.
  const means = rows.filter(isOfMean);
  const placed = placeLabels(
    (means.length > 0 ? means : rows).map(({ frequency }) => ({
      at: along(bare.x, options.frequency, frequency),
      text: placeOn(bare.across, frequency, 3),
      align: 'center',
    })),
    labelsFor,
    labelRows,
  );
  const used = Math.max(0, ...placed.map(({ row }) => row + 1));
  const overlay: Overlay = { ...bare, y: withHeadroom(bare.y, used * labelHeight + 6, plotHeight) };
  const names = overlay.series.map(({ label }) => label);
  return chartPart({
    title: `Peaks of ${setName({ name, value: value.spectrum })}, channel ${listed(distinct(rows.map(({ channel }) => channel)))}`,
    subtitle: `${capitalised(overlay.quantity)}; marked are lines that stand out of the confidence band of their surroundings${means.length > 0 && means.length < rows.length ? ', of the mean large and of single runs small' : ''}.`,
    view: {
      width: fullWidth,
      height: plotHeight,
      layer: [...overlayLayers(overlay), ...peakLayers(rows, overlay), ...nameLayers(placed)],
    },
    height: plotHeight + 46,
    legendRows: legendRows(names),
    description: peaksDescription(rows, overlay),
  });
}

const isOfMean = ({ run }: PeakRow): boolean => run === 'mean';

function peakLayers(rows: readonly PeakRow[], { x, y, options, quantity, unit, across }: Overlay): object[] {
  const values = rows.map((row) => ({
    f: drawn(row.frequency),
    v: drawn(row.level),
    top: y.to,
    size: isOfMean(row) || !rows.some(isOfMean) ? 90 : 26,
    says: `${row.run} ${row.channel}\n${placeOn(across, row.frequency)}\n${significant(row.level, 3)} ${printedUnit(unit)}`,
  }));
  const axisX = { field: 'f', ...frequencyAxis(x, options.frequency, true, across.title) };
  const axisY = { field: 'v', ...logLevelAxis(axisTitle(quantity, unit), y) };
  return [
    {
      data: { values: values.filter(({ size }) => size > 26) },
      mark: { type: 'rule', aria: false, strokeDash: [2, 3], color: role('ink'), opacity: 0.6, clip: true },
      encoding: { x: axisX, y: axisY, y2: { field: 'top' } },
    },
    {
      data: { values },
      mark: {
        type: 'point',
        shape: 'triangle-down',
        filled: true,
        aria: false,
        size: { expr: 'datum.size' },
        opacity: 1,
        fill: role('ink'),
        stroke: role('background'),
        strokeWidth: 1,
        yOffset: -8,
        tooltip: { content: 'encoding' },
      },
      encoding: { x: axisX, y: axisY, tooltip: { field: 'says', type: 'nominal' } },
    },
  ];
}

function nameLayers(placed: ReturnType<typeof placeLabels>): object[] {
  return placed.flatMap(({ at, text, row, align }) => {
    const mark = {
      type: 'text',
      aria: false,
      align,
      baseline: 'middle',
      x: { expr: `width * ${at}` },
      y: 8 + labelHeight * row,
    };
    const encoding = { text: { field: 'text', type: 'nominal' } };
    const data = { values: [{ text }] };
    return [
      { data, mark: { ...mark, stroke: role('background'), strokeWidth: 4, fill: role('background') }, encoding },
      { data, mark: { ...mark, fill: role('ink') }, encoding },
    ];
  });
}

function peaksDescription(rows: readonly PeakRow[], { quantity, x, unit, across }: Overlay): string {
  const lines = rows.map(({ run, channel, frequency, level, width }) => {
    const sharp = width === undefined ? '' : `, ${placeOn(across, Number(width.toPrecision(2)))} wide at half power`;
    return `${run} ${channel}: ${placeOn(across, frequency)}, ${significant(level, 3)} ${printedUnit(unit)}${sharp}.`;
  });
  return `${capitalised(quantity)} from ${placeOn(across, x.from)} to ${placeOn(across, x.to)} with its peaks. ${lines.join(' ')}`;
}
