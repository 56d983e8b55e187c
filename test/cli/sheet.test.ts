import { strict as assert } from 'node:assert';
import { readFileSync } from 'node:fs';
import { Sandbox } from './sandbox.ts';

describe('washboard sheet', () => {
  let sandbox: Sandbox;
  before(() => {
    sandbox = new Sandbox({
      'raw/foam-10.csv': '',
      'raw/foam-2.csv.gz': '',
      'raw/gel-1.wav': '',
      'raw/runs.csv': 'file\n',
      'raw/photo.jpg': '',
      'none/photo.jpg': '',
    });
  });
  after(() => sandbox.remove());

  it('makes a sheet of the recordings in a folder, with the condition that each name tells', async () => {
    const { code, printed } = await sandbox.run('sheet', sandbox.path('raw'));
    assert.equal(code, 0);
    const [head, ...rows] = printed.trimEnd().split('\n');
    assert.match(head, /^file,condition,order,pair,day,date,/);
    assert.deepEqual(
      rows.map((row) => row.split(',').slice(0, 2)),
      [
        ['foam-2.csv.gz', 'foam'],
        ['foam-10.csv', 'foam'],
        ['gel-1.wav', 'gel'],
      ],
    );
  });

  it('makes a sheet of runs to come, as many as a test needs, in ABBA order', async () => {
    const said = await sandbox.run('sheet', '--runs', '4', '--conditions', 'foam,gel');
    assert.equal(
      said.printed
        .trimEnd()
        .split('\n')
        .slice(1)
        .map((row) => row.split(',')[1])
        .join(' '),
      'foam gel gel foam gel foam foam gel',
    );
    // 5 % scatter, 4 runs of each: 12.6 % is the smallest reduction that 80 % power finds, so 13 % asks for 4 runs of each.
    const needed = await sandbox.run('sheet', '--detect', '13', '--spread', '5');
    assert.equal(needed.printed.trimEnd().split('\n').length - 1, 8);
  });

  it('writes over nothing', async () => {
    const { code, errors } = await sandbox.run('sheet', sandbox.path('raw'), '--out', sandbox.path('raw'));
    assert.equal(code, 2);
    assert.match(errors, /is there already/);
    assert.equal(readFileSync(sandbox.path('raw/runs.csv'), 'utf8'), 'file\n');
    assert.equal((await sandbox.run('sheet', sandbox.path('raw'), '--out', sandbox.path('new.csv'))).code, 0);
    assert.match(readFileSync(sandbox.path('new.csv'), 'utf8'), /^file,condition/);
  });

  it('gives 2 for wrong usage, and says why', async () => {
    const cases: [string[], RegExp][] = [
      [[], /name a folder/],
      [[sandbox.path('none')], /no recordings/],
      [[sandbox.path('nowhere')], /no folder/],
      [['--runs', 'many'], /whole number/],
      [['--detect', '5'], /needs --spread/],
      [['--detect', '0.001', '--spread', '50'], /more runs than/],
      [['--runs', '3', '--conditions', 'foam'], /two names or more/],
    ];
    for (const [words, said] of cases) {
      const { code, errors } = await sandbox.run('sheet', ...words);
      assert.equal(code, 2, words.join(' '));
      assert.match(errors, said);
    }
  });
});
