import type { Domain } from './axes.ts';
import { layout, tall } from './layout.ts';
import { drawn } from '../values/number.ts';
import { fullWidth, role } from './specification.ts';
import { stripName } from './strips.ts';

/** Views and layers that charts are built of, as Vega-Lite takes them. What they show is read out from the description. */

type Values = readonly object[];

/** Layers over each other, as wide as the chart allows. */
export const layered = (height: number, layer: readonly object[], rest: object = {}): object => ({
  width: fullWidth,
  height: tall(height),
  ...rest,
  layer,
});

/** One layer, of values of its own or of those of its view. */
export const layerOf = (values: Values | undefined, mark: object, encoding: object): object => ({
  ...(values === undefined ? {} : { data: { values } }),
  mark: { aria: false, ...mark },
  encoding,
});

/** A layer of rows that hold a whole curve each, in arrays under these fields. */
export const curvesOf = (values: Values, fields: readonly string[], mark: object, encoding: object): object => ({
  ...layerOf(values, mark, encoding),
  transform: [{ flatten: fields }],
});

/** A line that a null breaks. */
export const brokenLine = { type: 'line', clip: true, invalid: 'break-paths-filter-domains' };

const tells = { tooltip: { content: 'encoding' } };
const told = { tooltip: { field: 'says', type: 'nominal' } };

/** A layer that tells the text in its field `says` at the pointer. */
export const tellingLayer = (values: Values | undefined, mark: object, encoding: object): object =>
  layerOf(values, { ...mark, ...tells }, { ...encoding, ...told });

/** A line that the pointer is told: of a series, or of the place itself. */
export interface ToldLine {
  readonly text: string;
  readonly series?: string;
}

/** Filled dots that tell their text at the pointer. */
export const dots = (values: Values | undefined, size: unknown, encoding: object, mark: object = {}): object =>
  tellingLayer(values, { type: 'point', filled: true, size: smaller(size), opacity: 1, ...mark }, encoding);

/** In print, where a px is larger than on a screen. */
const smaller = (size: unknown): unknown => (layout().print && typeof size === 'number' ? size * 0.6 : size);

/** A thin edge in the background's colour, which keeps dots apart. */
export const rim = (strokeWidth: number): object => ({ stroke: role('background'), strokeWidth });

/** Strips from `x` to the field `to` that are not seen and tell at the pointer their text, or their lines `told`: whoever hides a series takes its lines out. */
export const strips = (
  values: readonly { readonly says?: string; readonly told?: readonly ToldLine[] }[],
  x: object,
  to: string,
  { name = stripName, ...mark }: { readonly name?: string; readonly clip?: boolean } = {},
): object => ({
  name,
  ...tellingLayer(values, { type: 'rect', color: role('ink'), ...mark }, { x, x2: { field: to } }),
  ...(values.some(({ told: lines }) => lines !== undefined) ? { transform: [inLines] } : {}),
});

const inLines = { calculate: "join(pluck(datum.told, 'text'), '\\n')", as: 'says' };

/** What strips around places on a frequency axis tell: each reaches halfway to its neighbours. */
export function stripsAround(
  places: readonly number[],
  { from, to }: Domain,
  scale: 'linear' | 'log',
  told: (place: number) => readonly ToldLine[],
): { readonly f: number | null; readonly f2: number | null; readonly told: readonly ToldLine[] }[] {
  const between = (a: number, b: number): number => (scale === 'log' ? Math.sqrt(a * b) : (a + b) / 2);
  return places.map((place, index) => ({
    f: drawn(index === 0 ? from : between(places[index - 1], place)),
    f2: drawn(index === places.length - 1 ? to : between(place, places[index + 1])),
    told: told(place),
  }));
}

/** The dashed line of a mark. */
export const markRule = { type: 'rule', strokeDash: [3, 3], color: role('ink') };

export const writtenFrom = (field: string): object => ({ text: { field, type: 'nominal' } });

/** Text twice: in the background's colour as a rim, so that no line runs through it, and over that in the text's own. */
export const rimmedText = (values: Values, mark: object, encoding: object): object[] => [
  layerOf(values, { type: 'text', ...mark, ...rim(4), fill: role('background') }, encoding),
  layerOf(values, { type: 'text', ...mark, fill: role('ink') }, encoding),
];
