import { transforms } from 'vega-dataflow';
import { axisticks, datajoin, encode, legendentries, scale, sortitems, stack } from 'vega-encode';
import { expressionInterpreter } from 'vega-interpreter';
import { parse } from 'vega-parser';
import {
  aggregate,
  collect,
  compare,
  expression,
  extent,
  facet,
  field,
  filter,
  flatten,
  formula,
  joinaggregate,
  key,
  load,
  multiextent,
  multivalues,
  params,
  prefacet,
  proxy,
  relay,
  sieve,
  subflow,
  tupleindex,
  values,
} from 'vega-transforms';
import type { View } from 'vega-typings';
import { View as SlimView } from 'vega-view';
import { bound, identifier, mark, overlap, render, viewlayout } from 'vega-view-transforms';

/** Vega with no more than the charts need: no maps, trees, forces, word clouds, regressions; no code from text. */

Object.assign(transforms, { axisticks, datajoin, encode, legendentries, scale, sortitems, stack });
Object.assign(transforms, { bound, identifier, mark, overlap, render, viewlayout });
Object.assign(transforms, { aggregate, collect, compare, expression, extent, facet, field, filter, flatten, formula });
Object.assign(transforms, { joinaggregate, key, load, multiextent, multivalues, params, prefacet, proxy, relay });
Object.assign(transforms, { sieve, subflow, tupleindex, values });

export type Tooltip = (handler: unknown, event: MouseEvent, item: unknown, value: unknown) => void;

/** A view that draws SVG into an element. It fetches nothing: charts bring their data. */
export function createView(spec: Readonly<Record<string, unknown>>, container: HTMLElement, tooltip: Tooltip): View {
  const refuse = (): Promise<never> => Promise.reject(new Error('a chart may fetch nothing'));
  const options = {
    renderer: 'svg',
    container,
    hover: true,
    expr: expressionInterpreter,
    loader: { load: refuse, sanitize: refuse, http: refuse, file: refuse },
    tooltip,
  };
  const runtime = parse(spec, undefined, { ast: true });
  return new SlimView(runtime, options as unknown as ConstructorParameters<typeof SlimView>[1]);
}

export type { View } from 'vega-typings';
