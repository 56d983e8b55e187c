import { strict as assert } from 'node:assert';
import { spawnSync } from 'node:child_process';
import { readFileSync, symlinkSync } from 'node:fs';
import { Sandbox } from './sandbox.ts';

describe('the command line', () => {
  let sandbox: Sandbox;
  before(() => {
    sandbox = new Sandbox({
      'ride.washboard.md': '![p](out.png) ![q](pipe.png)\n\n```washboard\nload "pipe.csv"\n```\n',
    });
  });
  after(() => sandbox.remove());

  it('knows no command by the words that every object has', async () => {
    for (const name of ['constructor', '__proto__', 'toString', 'hasOwnProperty']) {
      const { code, errors } = await sandbox.run(name);
      assert.equal(code, 2);
      assert.match(errors, new RegExp(`there is no command "${name}"`));
    }
  });

  it('explains each command, and tells its version wherever it is asked', async () => {
    const known = /; there is (.*)\.\n/.exec((await sandbox.run('none')).errors)?.[1].split(', ') ?? [];
    assert.ok(known.length >= 12, 'all commands are named where none is known');
    for (const name of known) {
      const { code, printed } = await sandbox.run(name, '--help');
      assert.equal(code, 0);
      assert.equal((await sandbox.run('help', name)).printed, printed);
      assert.match(printed, new RegExp(`^Usage: .*\\n\\n  ${name} `));
      assert.equal((await sandbox.run(name, '--version')).printed, (await sandbox.run('--version')).printed);
    }
  });

  it('prints the schema of its JSON', async () => {
    const { code, printed } = await sandbox.run('run', '--schema');
    assert.equal(code, 0);
    assert.equal(printed, readFileSync(new URL('../../media/run.schema.json', import.meta.url), 'utf8'));
  });

  it('reads no pipe: it would wait for ever', async () => {
    assert.equal(spawnSync('mkfifo', [sandbox.path('pipe.csv'), sandbox.path('pipe.png')]).status, 0);
    const { code, errors } = await sandbox.run('report', sandbox.path('ride.washboard.md'));
    assert.equal(code, 1);
    assert.equal(errors, '');
    assert.equal((await sandbox.run('look', sandbox.path('pipe.csv'))).code, 1);
    assert.match(
      (await sandbox.run('run', sandbox.path('ride.washboard.md'))).errors,
      /"pipe.csv" is a pipe or a device/,
    );
    assert.equal((await sandbox.run('run', sandbox.path('pipe.csv'))).code, 2);
  });

  it('takes no picture into a page that a link brings from outside the project', async () => {
    const outside = new Sandbox({ 'secret.png': 'SECRET' });
    try {
      symlinkSync(outside.path('secret.png'), sandbox.path('out.png'));
      await sandbox.run('report', sandbox.path('ride.washboard.md'), '--out', sandbox.path('linked.html'));
      const page = readFileSync(sandbox.path('linked.html'), 'utf8');
      assert.ok(!page.includes(Buffer.from('SECRET').toString('base64')));
      assert.match(page, /<em>p<\/em>/);
    } finally {
      outside.remove();
    }
  });
});
