import { strict as assert } from 'node:assert';
import { build, type Metafile } from 'esbuild';
import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { bundlesOf } from '../../scripts/build/bundles.mjs';
import { licenceTexts } from '../../scripts/build/licences.mjs';
import { noticesFile, noticesOf } from '../../scripts/build/notices.mjs';

const root = fileURLToPath(new URL('../../', import.meta.url));

/** The nearest folder above a file with a package's name and version in it. */
function packageOf(path: string): { folder: string; name: string; version: string } {
  for (let folder = dirname(path); ; folder = dirname(folder)) {
    if (!readdirSync(folder).includes('package.json')) continue;
    const { name, version } = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8')) as Record<string, string>;
    if (name !== undefined && version !== undefined) return { folder, name, version };
  }
}

describe('the notices', () => {
  let metafiles: Metafile[];
  before(async () => {
    const built = bundlesOf({ root, version: '0' }).map((bundle) => build({ ...bundle, write: false, metafile: true }));
    metafiles = (await Promise.all(built)).map(({ metafile }) => metafile);
  });

  it('name every package that a bundle holds, with the whole of its licence', () => {
    const text = noticesOf(metafiles, root);
    const inputs = metafiles.flatMap(({ inputs: files }) => Object.keys(files));
    const foreign = new Set(inputs.filter((path) => path.includes('node_modules/')).map((path) => join(root, path)));
    const packages = new Map([...foreign].map((path) => [packageOf(path).folder, packageOf(path)]));
    assert.ok(packages.size > 20, `${packages.size} packages`);
    for (const { folder, name, version } of packages.values()) {
      assert.ok(text.includes(`\n${name} ${version} (`), `${name} ${version} is not named`);
      const licence = readdirSync(folder).find((file) => /^licen[cs]e/i.test(file));
      const own = licence && readFileSync(join(folder, licence), 'utf8').replace(/\r\n?/g, '\n').trim();
      const words = own ?? licenceTexts[name];
      assert.ok(words !== undefined, `${name} has no licence`);
      assert.ok(text.includes(words), `the licence of ${name} is not whole`);
    }
  });

  it('keep the notice of each file that is a port of another’s work, and the fonts’ licence', () => {
    const text = noticesOf(metafiles, root);
    const inputs = new Set(metafiles.flatMap(({ inputs: files }) => Object.keys(files)));
    const own = [...inputs].filter((path) => path.startsWith('src/'));
    const ports = own.filter((path) => /copyright/i.test(readFileSync(join(root, path), 'utf8')));
    assert.ok(ports.length > 0);
    for (const path of ports) {
      assert.ok(text.includes(`In ${path}\n`), path);
      const said = /^.*copyright.*$/im.exec(readFileSync(join(root, path), 'utf8'))![0].replace(/^ \* /, '');
      assert.ok(text.includes(said), said);
    }
    assert.match(text, /freely granted, provided that this notice is preserved\./);
    assert.ok(text.includes(readFileSync(join(root, 'media/fonts/OFL.txt'), 'utf8').trim()));
  });

  it('refuse a package that states no licence', () => {
    const inputs = { 'test/editor/node_modules/nothing/index.js': { bytes: 1, imports: [] } };
    assert.throws(() => noticesOf([{ inputs, outputs: {} }], root));
  });

  it('are packed', () => {
    assert.ok(readFileSync(join(root, '.vscodeignore'), 'utf8').split('\n').includes(`!${noticesFile}`));
  });
});
