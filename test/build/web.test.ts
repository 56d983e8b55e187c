import { strict as assert } from 'node:assert';
import { build, type BuildOptions, type Metafile } from 'esbuild';
import { fileURLToPath } from 'node:url';
import { webParts } from '../../scripts/build/apart.mjs';
import { bundlesOf } from '../../scripts/build/bundles.mjs';

const root = fileURLToPath(new URL('../../', import.meta.url));

/** Files of a build, by what they are called from the project. */
async function outputsOf(wanted: (bundle: BuildOptions) => boolean): Promise<Metafile['outputs']> {
  const built = await Promise.all(
    bundlesOf({ root, version: '0' })
      .filter(wanted)
      .map((bundle) => build({ ...bundle, write: false, metafile: true })),
  );
  return Object.assign({}, ...built.map(({ metafile }) => metafile.outputs)) as Metafile['outputs'];
}

/** What is imported from no file of the project and no package that is bundled. */
const outsideOf = (outputs: Metafile['outputs'], file: string): string[] =>
  outputs[file].imports.filter(({ external }) => external === true).map(({ path }) => path);

describe('what a browser loads', function () {
  this.timeout(120_000);

  it('names nothing of Node in the extension and its parts', async () => {
    const files = [
      'dist/web/extension.cjs',
      'dist/web/extension.cjs.js',
      ...webParts.map((name) => `dist/${name}.cjs`),
    ];
    const outputs = await outsideBuilt(files);
    for (const file of files) {
      const outside = outsideOf(outputs, file).filter((path) => path !== 'vscode' && path !== './here.cjs');
      // The parts of Node are named where they are asked for, and never loaded.
      const parts = outside.filter((path) => !/^\.\/[\w]+\.cjs$/.test(path));
      assert.deepEqual(parts, [], file);
    }
  });

  async function outsideBuilt(files: readonly string[]): Promise<Metafile['outputs']> {
    return outputsOf(({ outfile }) => outfile !== undefined && files.includes(outfile));
  }

  it('names nothing of Node in the engine, in all that it loads', async () => {
    const outputs = await outputsOf(({ splitting }) => splitting === true);
    const seen = new Set<string>();
    const visit = (file: string): void => {
      if (seen.has(file)) return;
      seen.add(file);
      assert.deepEqual(outsideOf(outputs, file), [], file);
      for (const { path } of outputs[file].imports) visit(path);
    };
    visit('dist/webWorker.mjs');
    assert.ok(seen.size > 5);
  });

  it('links files that form no circle, which could not be addressed', async () => {
    const outputs = await outputsOf(({ splitting }) => splitting === true);
    const visit = (file: string, way: readonly string[]): void => {
      assert.ok(!way.includes(file), [...way, file].join(' -> '));
      for (const { path, external } of outputs[file].imports) if (external !== true) visit(path, [...way, file]);
    };
    visit('dist/webWorker.mjs', []);
  });
});
