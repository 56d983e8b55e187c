import type { Band } from '../../values/band.ts';
import { along } from '../along.ts';
import { placeLabels, type Domain, type PlacedLabel } from '../axes.ts';
import { layout } from '../layout.ts';
import { bandName } from '../words/names.ts';
import { hertz } from '../../values/number.ts';
import type { OverlayOptions } from './overlayOptions.ts';

/** Names of bands and marks above the curves. */

export const labelHeight = 14;
const rowLimit = 4;
/** So many bands are a scale of their own: a name here and there tells enough. */
const scaleOfBands = 8;
/** Width in px of a narrow plot, in which the names must not touch either. */
export const labelsFor = (): number => layout().plotWidth;

export interface VisibleBand {
  readonly band: Band;
  readonly from: number;
  readonly to: number;
}

/** Bands as far as they lie in the picture. */
export function visibleBands({ bands }: OverlayOptions, x: Domain): VisibleBand[] {
  return bands
    .map((band) => ({ band, from: Math.max(band.from, x.from), to: Math.min(band.to, x.to) }))
    .filter(({ from, to }) => from < to)
    .sort((a, b) => a.from - b.from);
}

export const visibleMarks = ({ marks }: OverlayOptions, x: Domain): OverlayOptions['marks'] =>
  marks.filter(({ at }) => at >= x.from && at <= x.to);

export function overlayLabels(options: OverlayOptions, x: Domain): PlacedLabel[] {
  const position = (at: number): number => along(x, options.frequency, at);
  const bands = visibleBands(options, x).map(({ band, from, to }) => ({
    at: (position(from) + position(to)) / 2,
    text: bandName(band),
    align: 'center' as const,
  }));
  const marks = visibleMarks(options, x).map(({ at, label }) => ({
    at: position(at),
    text: label === '' ? hertz(at) : label,
    align: 'left' as const,
  }));
  if (bands.length <= scaleOfBands) return placeLabels([...bands, ...marks], labelsFor(), rowLimit);
  const named = placeLabels(bands, labelsFor(), 1);
  return [...named, ...placeLabels(marks, labelsFor(), rowLimit - 1).map((mark) => ({ ...mark, row: mark.row + 1 }))];
}

/** Height in px to be kept free above the curves. */
export function labelRoom(options: OverlayOptions, x: Domain): number {
  const rows = overlayLabels(options, x).map(({ row }) => row + 1);
  return rows.length === 0 ? 0 : Math.max(...rows) * labelHeight + 4;
}
