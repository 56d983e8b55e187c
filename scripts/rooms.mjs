/** The rooms whose sources decide what a result is. */
export const deciding = [
  'result',
  'numbers',
  'units',
  'signal',
  'statistics',
  'readers',
  'language',
  'values',
  'notebook',
  'analysis',
  'verbs',
  'engine',
];

/** The two doors of the house may use every room but each other's and the renderer's. */
const below = [...deciding, 'charts', 'disk', 'report', 'files'];

/**
 * The rooms of src/ and who may import whom: the one table that the import test, the lint rules, the
 * TypeScript project of each room and the guide for contributors are all held against.
 *
 * `imports` are the rooms a room may import from, `types` those of which it may import types alone, `declarations` the
 * declarations of untyped packages that it shares with another room. `ambient` are the type packages that give it a host:
 * a room without one cannot even name `document`, `node:fs` or `vscode`. `packages` are the libraries of
 * npm it may import.
 */
export const rooms = {
  result: { imports: [], ambient: [], packages: [] },
  numbers: { imports: [], ambient: [], packages: [] },
  units: { imports: ['result', 'numbers'], ambient: [], packages: [] },
  signal: { imports: ['numbers'], ambient: [], packages: [] },
  statistics: { imports: ['numbers'], ambient: [], packages: [] },
  readers: {
    imports: ['result', 'numbers', 'units', 'signal'],
    ambient: [],
    packages: ['papaparse', 'hyparquet', 'hyparquet-compressors'],
  },
  language: { imports: ['result', 'units'], ambient: [], packages: [] },
  values: {
    imports: ['result', 'numbers', 'units', 'signal'],
    types: ['statistics', 'readers'],
    ambient: [],
    packages: [],
  },
  analysis: {
    imports: ['result', 'numbers', 'units', 'signal', 'statistics', 'readers', 'values', 'notebook'],
    ambient: [],
    packages: [],
  },
  verbs: {
    imports: ['result', 'numbers', 'units', 'language', 'values', 'analysis'],
    ambient: [],
    packages: [],
  },
  charts: {
    imports: ['result', 'numbers', 'units', 'values'],
    ambient: [],
    packages: ['vega', 'vega-lite', 'vega-typings'],
  },
  engine: {
    imports: ['result', 'numbers', 'units', 'readers', 'language', 'values', 'verbs', 'charts'],
    ambient: [],
    packages: [],
  },
  disk: { imports: ['result', 'units', 'signal', 'readers', 'values'], ambient: ['node'], packages: [] },
  notebook: { imports: ['result'], ambient: [], packages: [] },
  renderer: {
    imports: ['result', 'values', 'charts', 'notebook'],
    ambient: ['dom'],
    declarations: ['charts/vegaModules.d.ts'],
    packages: ['vega-*', 'vscode-notebook-renderer', 'markdown-it'],
  },
  report: {
    imports: ['result', 'numbers', 'values', 'notebook', 'engine', 'charts'],
    ambient: [],
    declarations: ['charts/vegaModules.d.ts'],
    packages: ['vega', 'vega-*', 'markdown-it'],
  },
  files: {
    imports: ['result', 'numbers', 'values', 'charts', 'engine', 'report'],
    ambient: ['node'],
    packages: ['hyparquet-writer', 'pdfkit', 'svg-to-pdfkit', '@resvg/resvg-wasm'],
  },
  editor: {
    imports: below,
    ambient: ['node', 'vscode'],
    packages: ['vscode'],
  },
  cli: {
    imports: below,
    ambient: ['node'],
    packages: [],
  },
};
