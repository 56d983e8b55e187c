import type { ChartAxis } from '../../charts/output.ts';
import type { View } from '../slimVega.ts';

/** One plot of a chart on the page, in px of the picture. */
export interface Plot {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
  /** Which of several sets it shows. */
  readonly set: number;
  /** Of an axis value in s or Hz, in px of the picture. */
  readonly pixelOf: (value: number) => number;
  /** The axis value at a pixel. */
  readonly valueAt: (pixel: number) => number;
}

type Scale = ((value: number) => number) & { invert(pixel: number): number; copy(): Scale };

/** What of Vega's scene is asked here. */
interface SceneItem {
  readonly x?: number;
  readonly y?: number;
  readonly width?: number;
  readonly height?: number;
  readonly items?: readonly SceneMark[];
}
interface SceneMark {
  readonly name?: string;
  readonly items: readonly SceneItem[];
}

/** The plots of a chart that have its axis, from the top; none before it is drawn. */
export function plotsOf(view: View, { sets }: ChartAxis): Plot[] {
  const root = (view.scenegraph() as unknown as { root?: { items?: readonly SceneItem[] } }).root?.items?.at(0);
  if (root === undefined) return [];
  const [x, y] = view.origin();
  const padding = view.padding() as { readonly left: number; readonly top: number };
  const at = { left: padding.left + x, top: padding.top + y };
  if (sets === undefined) return [plotAt(root, at, 0, view.scale('x') as Scale)];
  return sets.flatMap((set, index) => {
    const group = root.items?.find(({ name }) => name === `concat_${index}_group`)?.items.at(0);
    return group === undefined ? [] : [plotAt(group, at, set, view.scale(`concat_${index}_x`) as Scale)];
  });
}

function plotAt(item: SceneItem, at: { readonly left: number; readonly top: number }, set: number, own: Scale): Plot {
  const left = at.left + (item.x ?? 0);
  // Vega changes its own where the chart shows another stretch: a drag goes on over the plot that it began in.
  const scale = own.copy();
  return {
    left,
    top: at.top + (item.y ?? 0),
    width: item.width ?? 0,
    height: item.height ?? 0,
    set,
    pixelOf: (value) => left + scale(value),
    valueAt: (pixel) => scale.invert(pixel - left),
  };
}

/** The rectangle that holds some plots. */
export function around(plots: readonly Plot[]): Pick<Plot, 'left' | 'top' | 'width' | 'height'> {
  const left = Math.min(...plots.map((plot) => plot.left));
  const top = Math.min(...plots.map((plot) => plot.top));
  const right = Math.max(...plots.map((plot) => plot.left + plot.width));
  const bottom = Math.max(...plots.map((plot) => plot.top + plot.height));
  return { left, top, width: right - left, height: bottom - top };
}
