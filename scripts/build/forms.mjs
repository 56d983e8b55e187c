// The editor's host needs the words of the language, and none of what computes: wherever it imports the catalogue, it
// gets the same catalogue as plain data, made from the source at build time. So the engine's code (transforms,
// filters, readers) stays in the worker's bundle, and waking the extension loads none of it.
import { build } from 'esbuild';

/** Rooms that the extension host's bundle has to be free of. */
export const computing = ['signal', 'statistics', 'readers'];

/** An esbuild plugin that puts the forms in the place of the verbs. */
export const formsOnly = {
  name: 'forms-only',
  setup({ onLoad }) {
    onLoad({ filter: /[\\/]src[\\/]verbs[\\/]catalogue\.ts$/ }, async ({ path }) => {
      const data = await catalogueOf(path);
      return { contents: `export const catalogue = ${JSON.stringify(data)};`, loader: 'js' };
    });
  },
};

/** The catalogue, from its source; an error if anything in it is lost as data. */
async function catalogueOf(path) {
  const { outputFiles } = await build({
    entryPoints: [path],
    bundle: true,
    write: false,
    format: 'esm',
    platform: 'neutral',
    mainFields: ['module', 'main'],
    logLevel: 'warning',
  });
  const source = Buffer.from(outputFiles[0].contents).toString('base64');
  const { catalogue } = await import(`data:text/javascript;base64,${source}`);
  const lost = lossIn(catalogue, 'catalogue');
  if (lost) throw new Error(`${lost} is no plain data, so the extension host can't have it.`);
  return catalogue;
}

/** Where a value holds something that JSON would lose. */
function lossIn(value, where) {
  if (typeof value === 'function' || value === undefined || (typeof value === 'number' && !Number.isFinite(value)))
    return where;
  if (typeof value !== 'object' || value === null) return undefined;
  const plain = Array.isArray(value) || Object.getPrototypeOf(value) === Object.prototype;
  if (!plain) return where;
  for (const [key, part] of Object.entries(value)) {
    const lost = lossIn(part, `${where}.${key}`);
    if (lost) return lost;
  }
  return undefined;
}

/** Stops a build whose extension host would load what computes. */
export function holdToForms({ inputs }) {
  const found = Object.keys(inputs).filter((path) =>
    new RegExp(`src/(?:${computing.join('|')})/|node_modules/`).test(path),
  );
  if (found.length > 0) throw new Error(`The extension host would load ${found.slice(0, 5).join(', ')}.`);
}
