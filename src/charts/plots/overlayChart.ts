import { overlayTitle, overlayDescription, overlaySettings } from '../words/overlay.ts';
import { legendRows } from '../legends.ts';
import { layered } from '../marks.ts';
import type { ChartPart } from '../output.ts';
import type { NamedSpectrum } from '../series.ts';
import { belowPlot, chartPart } from '../specification.ts';
import { overlayHeight, overlayOf } from './overlay.ts';
import { overlayLayers } from './overlayLayers.ts';
import type { OverlayOptions } from './overlayOptions.ts';

/** Every run thin, the mean strong, its confidence band light, bands shaded and labelled; log level. */
export function overlayChart(spectra: readonly NamedSpectrum[], options: OverlayOptions): ChartPart | undefined {
  const overlay = overlayOf(spectra, options);
  if (overlay === undefined) return undefined;
  return chartPart({
    what: 'spectrum',
    title: overlayTitle(overlay),
    subtitle: overlaySettings(spectra, overlay),
    view: layered(overlayHeight, overlayLayers(overlay)),
    height: overlayHeight + belowPlot,
    legendRows: legendRows(overlay.series.map(({ label }) => label)),
    description: overlayDescription(overlay),
    ...(overlay.across.hertz ? { axis: { quantity: 'frequency' } } : {}),
  });
}
