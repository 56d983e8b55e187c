import type { Domain } from '../axes.ts';
import { layerOf, writtenFrom } from '../marks.ts';
import { drawn } from '../../values/number.ts';
import { role } from '../specification.ts';
import { labelHeight, overlayLabels, visibleBands } from './overlayLabels.ts';
import type { OverlayOptions } from './overlayOptions.ts';

/** Bands shaded along the frequency axis, every second one a little darker. */
export function bandLayers(options: OverlayOptions, x: Domain, axis: object): object[] {
  const bands = visibleBands(options, x);
  if (bands.length === 0) return [];
  const values = bands.map(({ from, to }, index) => ({ f: drawn(from), f2: drawn(to), odd: index % 2 }));
  const fill = { condition: { test: 'datum.odd', value: role('shade_alternate') }, value: role('shade') };
  return [layerOf(values, { type: 'rect' }, { x: axis, x2: { field: 'f2' }, fill })];
}

/** Names of bands and marks along the upper edge; a layer each, for place and side are no fields of a mark. */
export const labelLayers = (options: OverlayOptions, x: Domain): object[] =>
  overlayLabels(options, x).map(({ at, text, row, align }) => {
    const dx = { left: 4, center: 0, right: -4 }[align];
    const place = { x: { expr: `width * ${at}` }, y: 10 + labelHeight * row };
    const mark = { type: 'text', align, dx, baseline: 'middle', color: role('ink'), ...place };
    return layerOf([{ text }], mark, writtenFrom('text'));
  });
