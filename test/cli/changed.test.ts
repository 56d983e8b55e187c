import { strict as assert } from 'node:assert';
import { readFileSync, writeFileSync } from 'node:fs';
import { commitAll, gitIn, hasGit } from '../disk/git.ts';
import { loadPads, pads, worked } from '../verbs/pads.ts';
import { Sandbox } from './sandbox.ts';

const cells = `${loadPads}C = compare foam with gel over 10..30 Hz\nK = claim C reduction 5 %\nlevels foam`;
const notebook = `# A study\n\n\`\`\`washboard\n${cells}\n\`\`\`\n`;

describe('washboard changed', () => {
  let sandbox: Sandbox;
  beforeEach(() => (sandbox = new Sandbox({ 'ride.washboard.md': notebook, ...pads(worked) })));
  afterEach(() => sandbox.remove());

  const changed = (...rest: string[]): ReturnType<Sandbox['run']> =>
    sandbox.run('changed', sandbox.path('ride.washboard.md'), ...rest);

  async function committed(): Promise<void> {
    gitIn(sandbox.folder, 'init', '-q');
    await sandbox.run('record', sandbox.path('ride.washboard.md'));
    commitAll(sandbox.folder, 1_700_000_000);
  }

  it('tells what changed since a commit in the words and the order of verify', async function () {
    if (!hasGit()) this.skip();
    await committed();
    const same = await changed();
    assert.equal(same.code, 0);
    assert.match(same.printed, /against ride\.record\.json at [0-9a-f]{10} of 2023-11-14\n.*: the same \d+ values/);
    writeFileSync(sandbox.path('ride.washboard.md'), notebook.replace('10..30', '12..30').replace('5 %', '90 %'));
    const { code, printed } = await changed('HEAD');
    assert.equal(code, 1);
    const kinds = printed
      .split('\n')
      .slice(1)
      .map((line) => /: (K|C)\.(verdict|[a-z]+)/.exec(line)?.[1]);
    assert.equal(kinds[0], 'K', 'the verdict comes first');
    assert.ok(kinds.lastIndexOf('K') >= 0 && kinds.indexOf('C') > 0);
    const verified = await sandbox.run('verify', sandbox.path('ride.washboard.md'));
    assert.equal(printed.split('\n').slice(1).join('\n'), verified.printed);
  }).timeout(60_000);

  it('says that another version wrote the record, as verify does', async function () {
    if (!hasGit()) this.skip();
    await committed();
    const record = sandbox.path('ride.record.json');
    writeFileSync(record, readFileSync(record, 'utf8').replace(/"tool": ".*"/, '"tool": "washboard 0.0.1"'));
    commitAll(sandbox.folder, 1_700_100_000);
    for (const { code, errors } of [await changed(), await sandbox.run('verify', sandbox.path('ride.washboard.md'))]) {
      assert.equal(code, 0);
      assert.match(errors, /written by washboard 0\.0\.1, and this is washboard/);
    }
    assert.doesNotMatch((await changed('HEAD~1')).errors, /written by/);
  }).timeout(60_000);

  it('gives 2 outside git, for a revision that is none, and where no record was committed', async function () {
    if (!hasGit()) this.skip();
    assert.match((await changed()).errors, /git does not answer/);
    gitIn(sandbox.folder, 'init', '-q');
    commitAll(sandbox.folder, 1_700_000_000);
    for (const revision of ['no-such', '--output=x', ''])
      assert.match((await changed('--', revision)).errors, /git knows no revision/, revision);
    const { code, errors } = await changed();
    assert.equal(code, 2);
    assert.match(errors, /ride\.record\.json is not in git at HEAD/);
  }).timeout(60_000);
});
