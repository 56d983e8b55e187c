import { strict as assert } from 'node:assert';
import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { recording } from '../engine/memoryFiles.ts';
import { Sandbox } from './sandbox.ts';

const notebook = '```washboard\na = load "raw/a.csv" | channel z\nplot (spectrum a)\n```\n';

describe('the commands that write', () => {
  let sandbox: Sandbox;
  let ride: string;
  const raw = recording({ seed: 3 });
  before(() => {
    sandbox = new Sandbox({ 'raw/a.csv': raw, 'ride.washboard.md': notebook, 'notes.txt': 'mine' });
    ride = sandbox.path('ride.washboard.md');
  });
  after(() => sandbox.remove());

  it('replace neither the raw files nor the notebook nor the record with a report, even by force', async () => {
    assert.equal((await sandbox.run('record', ride)).code, 0);
    const record = readFileSync(sandbox.path('ride.record.json'), 'utf8');
    for (const force of [[], ['--force']])
      for (const name of ['raw/a.csv', 'ride.washboard.md']) {
        const { code, errors } = await sandbox.run('report', ride, '--out', sandbox.path(name), ...force);
        assert.equal(code, 2);
        assert.match(errors, /never written over/);
      }
    assert.equal((await sandbox.run('report', ride, '--out', sandbox.path('ride.record.json'))).code, 2);
    assert.equal(readFileSync(sandbox.path('raw/a.csv'), 'utf8'), raw);
    assert.equal(readFileSync(ride, 'utf8'), notebook);
    assert.equal(readFileSync(sandbox.path('ride.record.json'), 'utf8'), record);
  });

  it('write again what they wrote, and nothing of another making without --force', async () => {
    const notes = sandbox.path('notes.txt');
    assert.equal((await sandbox.run('report', ride, '--out', notes)).code, 2);
    assert.equal(readFileSync(notes, 'utf8'), 'mine');
    for (let time = 0; time < 2; time++) {
      assert.equal((await sandbox.run('report', ride)).code, 0);
      assert.equal((await sandbox.run('record', ride)).code, 0);
      assert.equal((await sandbox.run('figures', ride, '--out', sandbox.path('figures'))).code, 0);
    }
    assert.equal((await sandbox.run('report', ride, '--out', notes, '--force')).code, 0);
    writeFileSync(sandbox.path('figures/plot-a-spectrum.svg'), '<svg/>');
    assert.equal((await sandbox.run('figures', ride, '--out', sandbox.path('figures'))).code, 2);
    assert.equal(readFileSync(sandbox.path('figures/plot-a-spectrum.svg'), 'utf8'), '<svg/>');
    writeFileSync(sandbox.path('ride.record.json'), '{"cut": ');
    const { code, errors } = await sandbox.run('record', ride);
    assert.equal(code, 2);
    assert.match(errors, /is no record that Washboard made/);
  });

  it('write the charts of one cell alone, in the same bytes, where that is asked', async () => {
    const two = sandbox.path('two.washboard.md');
    writeFileSync(two, `${notebook}\n\`\`\`washboard\nplot a\n\`\`\`\n`);
    const [all, one] = ['all figures', 'one figure'].map((name) => sandbox.path(name));
    assert.equal((await sandbox.run('figures', two, '--out', all)).code, 0);
    assert.equal((await sandbox.run('figures', two, '--cell', '2', '--out', one)).code, 0);
    const charts = (folder: string): string[] => readdirSync(folder).filter((name) => name.endsWith('.svg'));
    const [only] = charts(one);
    assert.deepEqual([charts(all).length, charts(one).length], [2, 1]);
    assert.equal(readFileSync(join(one, only), 'utf8'), readFileSync(join(all, only), 'utf8'));
    const beyond = await sandbox.run('figures', two, '--cell', '9', '--out', one);
    assert.equal(beyond.code, 2);
    assert.match(beyond.errors, /there is no cell 9/);
  });

  it('say in a sentence where they can write nothing', async () => {
    const { code, errors } = await sandbox.run('report', ride, '--out', sandbox.path('none/a.html'));
    assert.equal(code, 2);
    assert.match(errors, /can't be written: its folder does not exist/);
    mkdirSync(sandbox.path('taken.html'));
    assert.match(
      (await sandbox.run('report', ride, '--out', sandbox.path('taken.html'))).errors,
      /a folder or a file stands/,
    );
    assert.match(
      (await sandbox.run('figures', ride, '--out', sandbox.path('notes.txt'))).errors,
      /stands in its place/,
    );
    assert.match(
      (await sandbox.run('sheet', sandbox.path('raw'), '--out', sandbox.path('raw/a.csv'), '--force')).errors,
      /is one of the raw files/,
    );
    assert.ok(!existsSync(sandbox.path('none')));
  });

  it('write a run sheet by force over a run sheet alone, and a page over no raw file that the run did not come to', async () => {
    const [other, sheet] = ['raw/other.csv', 'sheet.csv'].map((name) => sandbox.path(name));
    writeFileSync(other, raw);
    writeFileSync(sheet, 'file;condition;note\na.csv;foam;loud\n');
    for (const target of [ride, other, sandbox.path('notes.txt'), sandbox.path('ride.record.json')]) {
      const before = readFileSync(target);
      const { code, errors } = await sandbox.run('sheet', '--runs', '4', '--out', target, '--force');
      assert.equal(code, 2, target);
      assert.match(errors, /never written over|even --force writes a run sheet over/);
      assert.ok(readFileSync(target).equals(before));
    }
    assert.equal((await sandbox.run('sheet', '--runs', '4', '--out', sheet)).code, 2);
    assert.equal((await sandbox.run('sheet', '--runs', '4', '--out', sheet, '--force')).code, 0);
    assert.match(readFileSync(sheet, 'utf8'), /^file,condition,order/);
    // A load that fails names not all of its files.
    const failing = sandbox.path('failing.washboard.md');
    writeFileSync(failing, '```washboard\nb = load "raw/o*.csv" channel "none"\n```\n');
    const { code, errors } = await sandbox.run('report', failing, '--out', other, '--force');
    assert.equal(code, 2);
    assert.match(errors, /never written over|even --force writes a report page over/);
    assert.equal(readFileSync(other, 'utf8'), raw);
  });
});
