import { capitalised, listed } from '../../result/words.ts';
import { legendRows } from '../legends.ts';
import { layered } from '../marks.ts';
import { distinct } from '../names.ts';
import type { ChartPart } from '../output.ts';
import type { NamedSpectrum } from '../series.ts';
import { belowPlot, chartPart } from '../specification.ts';
import { overlayHeight, overlayOf } from './overlay.ts';
import { overlayLayers } from './overlayLayers.ts';
import type { OverlayOptions } from './overlayOptions.ts';
import { overlayDescription, overlaySettings } from './overlayWords.ts';

/** Every run thin, the mean strong, its confidence band light, bands shaded and labelled; log level. */
export function overlayChart(spectra: readonly NamedSpectrum[], options: OverlayOptions): ChartPart | undefined {
  const overlay = overlayOf(spectra, options);
  if (overlay === undefined) return undefined;
  const channels = distinct(overlay.series.map(({ channel }) => channel));
  const sets = distinct(overlay.series.map(({ set }) => set));
  return chartPart({
    what: 'spectrum',
    title: `${capitalised(overlay.quantity)} of ${listed(sets)}, ${channels.length === 1 ? 'channel' : 'channels'} ${listed(channels)}`,
    subtitle: overlaySettings(spectra, overlay),
    view: layered(overlayHeight, overlayLayers(overlay)),
    height: overlayHeight + belowPlot,
    legendRows: legendRows(overlay.series.map(({ label }) => label)),
    description: overlayDescription(overlay),
    ...(overlay.across.hertz ? { axis: { quantity: 'frequency' } } : {}),
  });
}
