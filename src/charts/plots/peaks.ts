import { peaksDescription, peaksSubtitle, peaksTitle } from '../words/spectra.ts';
import type { PeakRow, PeaksValue } from '../../values/peaks.ts';
import { along } from '../along.ts';
import { placeLabels, withHeadroom, type PlacedLabel } from '../axes.ts';
import { tall } from '../layout.ts';
import { legendRows } from '../legends.ts';
import { dots, layered, layerOf, rim, rimmedText, writtenFrom } from '../marks.ts';
import { drawn } from '../../values/number.ts';
import type { ChartPart } from '../output.ts';
import { placeOn } from '../series.ts';
import { belowPlot, chartPart, role } from '../specification.ts';
import { overlayAxes, overlayHeight, overlayOf, type Overlay } from './overlay.ts';
import { labelHeight, labelsFor } from './overlayLabels.ts';
import { overlayLayers } from './overlayLayers.ts';
import { bareOverlay, type OverlayOptions } from './overlayOptions.ts';

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
    labelsFor(),
    labelRows,
  );
  const used = Math.max(0, ...placed.map(({ row }) => row + 1));
  const overlay: Overlay = { ...bare, y: withHeadroom(bare.y, used * labelHeight + 6, tall(overlayHeight)) };
  const names = overlay.series.map(({ label }) => label);
  return chartPart({
    what: 'peaks',
    title: peaksTitle(name, value, rows),
    subtitle: peaksSubtitle(overlay.quantity, means.length > 0 && means.length < rows.length),
    view: layered(overlayHeight, [...overlayLayers(overlay), ...peakLayers(rows, overlay), ...nameLayers(placed)]),
    height: overlayHeight + belowPlot,
    legendRows: legendRows(names),
    description: peaksDescription(rows, overlay),
    ...(overlay.across.hertz ? { axis: { quantity: 'frequency' } } : {}),
  });
}

const isOfMean = ({ run }: PeakRow): boolean => run === 'mean';

function peakLayers(rows: readonly PeakRow[], overlay: Overlay): object[] {
  const { y, scale, across } = overlay;
  const values = rows.map((row) => ({
    f: drawn(row.frequency),
    v: drawn(row.level),
    top: y.to,
    size: isOfMean(row) || !rows.some(isOfMean) ? 90 : 26,
    says: `${row.run} ${row.channel}\n${placeOn(across, row.frequency)}\n${scale.write(row.level, 3)} ${scale.unit}`,
  }));
  const axes = overlayAxes(overlay);
  const color = role('ink');
  const rule = { type: 'rule', strokeDash: [2, 3], color, opacity: 0.6, clip: true };
  const triangle = { shape: 'triangle-down', fill: color, ...rim(1), yOffset: -8 };
  return [
    layerOf(
      values.filter(({ size }) => size > 26),
      rule,
      { ...axes, y2: { field: 'top' } },
    ),
    dots(values, { expr: 'datum.size' }, axes, triangle),
  ];
}

const nameLayers = (placed: readonly PlacedLabel[]): object[] =>
  placed.flatMap(({ at, text, row, align }) => {
    const mark = { align, baseline: 'middle', x: { expr: `width * ${at}` }, y: 8 + labelHeight * row };
    return rimmedText([{ text }], mark, writtenFrom('text'));
  });
