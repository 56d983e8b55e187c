import { frequencyAxis, type Domain } from '../axes.ts';
import { drawn } from '../number.ts';
import { role } from '../specification.ts';
import type { OverlayOptions } from './overlay.ts';
import { labelHeight, overlayLabels, visibleBands } from './overlay-labels.ts';

/** Bands shaded, every second one a little darker. */
export function bandLayers(options: OverlayOptions, x: Domain, title?: string): object[] {
  const bands = visibleBands(options, x);
  if (bands.length === 0) return [];
  return [
    {
      data: { values: bands.map(({ from, to }, index) => ({ f: drawn(from), f2: drawn(to), odd: index % 2 })) },
      mark: { type: 'rect', aria: false },
      encoding: {
        x: { field: 'f', ...frequencyAxis(x, options.frequency, true, title) },
        x2: { field: 'f2' },
        fill: { condition: { test: 'datum.odd', value: role('shade_alternate') }, value: role('shade') },
      },
    },
  ];
}

/** Names of bands and marks along the upper edge; a layer each, for place and side are no fields of a mark. */
export function labelLayers(options: OverlayOptions, x: Domain): object[] {
  return overlayLabels(options, x).map(({ at, text, row, align }) => ({
    data: { values: [{ text }] },
    mark: {
      type: 'text',
      aria: false,
      align,
      dx: align === 'center' ? 0 : align === 'left' ? 4 : -4,
      baseline: 'middle',
      color: role('ink'),
      x: { expr: `width * ${at}` },
      y: 10 + labelHeight * row,
    },
    encoding: { text: { field: 'text', type: 'nominal' } },
  }));
}
