import { strict as assert } from 'node:assert';
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { gunzipSync } from 'node:zlib';
import { sideBySide } from '../../scripts/samples/sideBySide.ts';
import { near, valueOf } from '../verbs/notebook.ts';

const folder = fileURLToPath(new URL('../../samples/side/', import.meta.url));
const textOf = (file: string): string => gunzipSync(readFileSync(file)).toString();

describe('the two loggers side by side of the samples', () => {
  it('come out of their script again, line for line', function () {
    const made = mkdtempSync(join(tmpdir(), 'washboard-side-'));
    const script = fileURLToPath(new URL('../../scripts/samples/makeSideBySide.ts', import.meta.url));
    try {
      execFileSync(process.execPath, ['--import', 'tsx', script, made], { cwd: folder });
      assert.deepEqual(readdirSync(made).sort(), readdirSync(folder).sort());
      for (const file of readdirSync(made)) assert.equal(textOf(join(made, file)), textOf(join(folder, file)), file);
    } finally {
      rmSync(made, { recursive: true });
    }
  });

  it('are found as they were made', async () => {
    const files = { 'left.csv': textOf(`${folder}left.csv.gz`), 'right.csv': textOf(`${folder}right.csv.gz`) };
    const text = 'left = load "left.csv"\nright = load "right.csv"\nloggers left with right over 5..70 Hz';
    const { clock, rows } = await valueOf('loggers', text, files);
    const { late, ppm, gains } = sideBySide.loggers.right;
    near(clock.late, late, 1e-4);
    near(clock.fast, ppm * 1e-6, 0.05);
    assert.deepEqual(
      rows.map(({ channel }) => channel),
      ['x', 'z'],
    );
    rows.forEach(({ ratio, low = NaN, high = NaN }, k) => {
      near(ratio, gains[k], 0.001);
      assert.ok(low < gains[k] && gains[k] < high, `${low} to ${high}`);
    });
  });
});
