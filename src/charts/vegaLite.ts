/** What compiles charts, by itself as it is large: only `compiled.ts` loads it, once a chart is drawn. */
export { compile } from 'vega-lite';
