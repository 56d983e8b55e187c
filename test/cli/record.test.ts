import { strict as assert } from 'node:assert';
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { recording } from '../engine/memoryFiles.ts';
import { Sandbox } from './sandbox.ts';

const notebook = '# A study\n\n```washboard\nruns = load "raw/*.csv" | channel z | trim 2..18 s\nlevels runs\n```\n';

describe('washboard record and verify', () => {
  let sandbox: Sandbox;
  beforeEach(() => {
    sandbox = new Sandbox({
      'raw/a.csv': recording({ seed: 3 }),
      'raw/b.csv': recording({ seed: 4 }),
      'ride.washboard.md': notebook,
      'wrong.washboard.md': '```washboard\nlevls x\n```\n',
    });
  });
  afterEach(() => sandbox.remove());

  it('writes a record beside the notebook, the same each time, which verifies', async () => {
    const { code, printed } = await sandbox.run('record', sandbox.path('ride.washboard.md'));
    assert.equal(code, 0);
    assert.match(printed, /values of 2 raw files/);
    const first = readFileSync(sandbox.path('ride.record.json'), 'utf8');
    assert.match(first, /"sha256": "[0-9a-f]{64}"/);
    await sandbox.run('record', sandbox.path('ride.washboard.md'));
    assert.equal(readFileSync(sandbox.path('ride.record.json'), 'utf8'), first);
    const verified = await sandbox.run('verify', sandbox.path('ride.washboard.md'));
    assert.equal(verified.code, 0);
    assert.match(verified.printed, /the same \d+ values from the same 2 raw files/);
  });

  it('records a result once that another cell shows again by its name', async () => {
    const shown = `${notebook.replace('levels runs', 'L = levels runs')}\n\`\`\`washboard\nL\n\`\`\`\n`;
    writeFileSync(sandbox.path('shown.washboard.md'), shown);
    assert.equal((await sandbox.run('record', sandbox.path('shown.washboard.md'))).code, 0);
    const record = readFileSync(sandbox.path('shown.record.json'), 'utf8');
    assert.match(record, /"L\.rows/);
    assert.doesNotMatch(record, /statement/);
    const verified = await sandbox.run('verify', sandbox.path('shown.washboard.md'));
    assert.equal(verified.code, 0);
  });

  it('tells of a raw file that changed, with the figures that changed by it', async () => {
    await sandbox.run('record', sandbox.path('ride.washboard.md'));
    writeFileSync(sandbox.path('raw/b.csv'), recording({ seed: 4, level: 0.5 }));
    const { code, printed } = await sandbox.run('verify', sandbox.path('ride.washboard.md'));
    assert.equal(code, 1);
    assert.match(printed, /raw\/b\.csv/);
    assert.doesNotMatch(printed, /raw\/a\.csv/);
    assert.match(printed, /rms/);
  });

  it('tells of a trim that changed by the figures that changed', async () => {
    await sandbox.run('record', sandbox.path('ride.washboard.md'));
    writeFileSync(sandbox.path('ride.washboard.md'), notebook.replace('2..18', '3..18'));
    const { code, printed } = await sandbox.run('verify', sandbox.path('ride.washboard.md'));
    assert.equal(code, 1);
    assert.match(printed, /start_s/);
  });

  it('gives 2 without a record, or with one that is none', async () => {
    const without = await sandbox.run('verify', sandbox.path('ride.washboard.md'));
    assert.equal(without.code, 2);
    assert.match(without.errors, /has no record/);
    writeFileSync(sandbox.path('ride.record.json'), '{');
    assert.equal((await sandbox.run('verify', sandbox.path('ride.washboard.md'))).code, 2);
    assert.equal((await sandbox.run('verify')).code, 2);
    assert.equal((await sandbox.run('record')).code, 2);
  });

  it('records a notebook that fails, and gives 1', async () => {
    const { code, errors } = await sandbox.run('record', sandbox.path('wrong.washboard.md'));
    assert.equal(code, 1);
    assert.match(errors, /levls/);
    assert.ok(existsSync(sandbox.path('wrong.record.json')));
  });
});
