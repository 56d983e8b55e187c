/** Vega's parts carry no types of their own; these are the ones that are used here. */
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
declare module 'vega-transforms';
declare module 'vega-view-transforms';
declare module 'vega-encode';
declare module 'vega-scenegraph' {
  export const textMetrics: {
    width: (
      item: { readonly fontSize?: number; readonly limit?: number },
      text: string | number | null | undefined,
    ) => number;
  };
}
