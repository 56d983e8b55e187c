/** Vega's parts carry no types of their own; these are the ones that the renderer and the report use. */
declare module 'vega-view' {
  import type { View as TypedView } from 'vega-typings';
  export const View: typeof TypedView;
}
declare module 'vega-parser' {
  import type { Config, Runtime, Spec } from 'vega-typings';
  export function parse(spec: Spec, config?: Config, options?: { readonly ast: boolean }): Runtime;
}
declare module 'vega-dataflow' {
  export const transforms: Record<string, unknown>;
}
type VegaTransform = unknown;
declare module 'vega-transforms' {
  export const aggregate: VegaTransform, collect: VegaTransform, compare: VegaTransform, expression: VegaTransform;
  export const extent: VegaTransform, facet: VegaTransform, field: VegaTransform, filter: VegaTransform;
  export const flatten: VegaTransform, formula: VegaTransform, joinaggregate: VegaTransform, key: VegaTransform;
  export const load: VegaTransform, multiextent: VegaTransform, multivalues: VegaTransform, params: VegaTransform;
  export const prefacet: VegaTransform, proxy: VegaTransform, relay: VegaTransform, sieve: VegaTransform;
  export const subflow: VegaTransform, tupleindex: VegaTransform, values: VegaTransform;
}
declare module 'vega-view-transforms' {
  export const bound: VegaTransform, identifier: VegaTransform, mark: VegaTransform, overlap: VegaTransform;
  export const render: VegaTransform, viewlayout: VegaTransform;
}
declare module 'vega-encode' {
  export const axisticks: VegaTransform, datajoin: VegaTransform, encode: VegaTransform, legendentries: VegaTransform;
  export const scale: VegaTransform, sortitems: VegaTransform, stack: VegaTransform;
}
declare module 'vega-scenegraph' {
  export const resetSVGDefIds: () => void;
  export const textMetrics: {
    width: (
      item: {
        readonly font?: string;
        readonly fontSize?: number;
        readonly fontWeight?: number | string;
        readonly limit?: number;
      },
      text: string | number | null | undefined,
    ) => number;
  };
}
