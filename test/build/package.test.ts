import { strict as assert } from 'node:assert';
import { build } from 'esbuild';
import { execFileSync, spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import { deflateRawSync } from 'node:zlib';
import { bundlesOf } from '../../scripts/build/bundles.mjs';
import { withoutNeighbours } from '../../scripts/build/readme.mjs';

const root = fileURLToPath(new URL('../../', import.meta.url));
const packer = join(root, 'node_modules', '@vscode', 'vsce', 'vsce');

interface Packed {
  readonly file: string;
  readonly bytes: Uint8Array;
}

/** What a package holds: the bundles as they are built now, and all other files that are listed for it. */
async function packed(): Promise<Packed[]> {
  const bundles = bundlesOf({ root, version: '0' }).map((bundle) => build({ ...bundle, write: false }));
  const built = (await Promise.all(bundles)).flatMap(({ outputFiles }) => outputFiles ?? []);
  const listed = execFileSync(process.execPath, [packer, 'ls', '--no-dependencies'], { cwd: root, encoding: 'utf8' });
  const others = listed.split('\n').filter((file) => file !== '' && !file.startsWith('dist/'));
  return [
    ...built.map(({ path, contents }) => ({ file: relative(root, path).replaceAll('\\', '/'), bytes: contents })),
    ...others.map((file) => ({ file, bytes: readFileSync(join(root, file)) })),
  ];
}

const sizeOf = ({ file, bytes }: Packed): number => deflateRawSync(bytes, { level: 9 }).length + 2 * file.length + 100;

describe('the package', () => {
  let files: readonly Packed[];
  before(async function () {
    this.timeout(120_000);
    files = await packed();
  });

  it('is smaller than 2 MB', () => {
    const size = files.reduce((sum, file) => sum + sizeOf(file), 0);
    const largest = [...files].sort((a, b) => sizeOf(b) - sizeOf(a)).slice(0, 5);
    assert.ok(
      size < 2e6,
      `${size} bytes; the largest are ${largest.map((one) => `${one.file} ${sizeOf(one)}`).join(', ')}`,
    );
  });

  it('shows a page of which nothing is broken where there is no address for what lies beside it', () => {
    const text =
      'Words.\n\n![A picture](media/a.png)\n\nSee [the guide](GUIDE.md#start), [far](https://example.org/a) and [below](#end).\n';
    assert.equal(withoutNeighbours(text), 'Words.\n\nSee the guide, [far](https://example.org/a) and [below](#end).\n');
    const page = withoutNeighbours(readFileSync(join(root, 'README.md'), 'utf8'));
    assert.doesNotMatch(page, /\]\((?!\w+:|#)/);
  });

  it('has an extension host of less than 200,000 bytes', () => {
    const host = files.find(({ file }) => file === 'dist/extension.cjs');
    assert.ok(host !== undefined && host.bytes.length < 200_000, `${host?.bytes.length} bytes`);
  });

  it('holds every bundle that is built', () => {
    const patterns = readFileSync(join(root, '.vscodeignore'), 'utf8').split('\n');
    const kept = (file: string): boolean =>
      patterns.some(
        (one) =>
          one.startsWith('!') &&
          new RegExp(
            `^${one
              .slice(1)
              .replaceAll('.', '\\.')
              .replaceAll('**', '.+')
              .replaceAll(/(?<!\.)\*/g, '[^/]+')}$`,
          ).test(file),
      );
    assert.deepEqual(
      files.filter(({ file }) => file.startsWith('dist/') && !kept(file)).map(({ file }) => file),
      [],
    );
  });

  it('lists the samples that it holds, for where no folder can be listed', () => {
    const inSamples = files.flatMap(({ file }) => (file.startsWith('samples/') ? [file.slice('samples/'.length)] : []));
    const listed = JSON.parse(readFileSync(join(root, 'samples/files.json'), 'utf8')) as string[];
    assert.deepEqual([...listed, 'files.json'].sort(), inSamples.sort());
  });

  it('holds what its commands, its walkthrough and its figures open', () => {
    const names = files.map(({ file }) => file);
    for (const file of [
      'media/reference.md',
      'media/walkthrough/open.md',
      'media/fonts/Arimo-Regular.ttf',
      'samples/three-pads/runs.csv',
      'samples/README.md',
    ])
      assert.ok(names.includes(file), file);
  });

  describe('unpacked', () => {
    let folder: string;
    before(() => {
      folder = mkdtempSync(join(tmpdir(), 'washboard-package-'));
      for (const { file, bytes } of files) {
        mkdirSync(dirname(join(folder, file)), { recursive: true });
        writeFileSync(join(folder, file), bytes);
      }
      const rows = Array.from({ length: 2000 }, (_, n) => `${(n / 200).toFixed(3)},${Math.sin(n).toFixed(3)}`);
      writeFileSync(join(folder, 'a.csv'), `t (s),z (g)\n${rows.join('\n')}\n`);
      writeFileSync(join(folder, 'a.washboard.md'), '```washboard\nplot (load "a.csv")\n```\n');
    });
    after(() => rmSync(folder, { recursive: true }));
    const washboard = (...args: string[]): { status: number | null; stdout: string; stderr: string } =>
      spawnSync(process.execPath, [join(folder, 'dist', 'washboard.mjs'), ...args], { cwd: folder, encoding: 'utf8' });

    it('runs a notebook, and writes its report and its figures as SVG and PDF', () => {
      assert.equal(washboard('report', 'a.washboard.md').status, 0);
      const { status, stderr } = washboard('figures', 'a.washboard.md', '--out', 'figures', '--format', 'svg,pdf');
      assert.equal(status, 0, stderr);
    });

    it('says in one sentence that it draws no PNG', () => {
      const { status, stderr } = washboard('figures', 'a.washboard.md', '--out', 'more', '--format', 'png');
      assert.equal(status, 2);
      assert.match(stderr, /^[^\n]*draws no PNG[^\n]*Write svg or pdf\.\n$/);
    });
  });
});
