import { strict as assert } from 'node:assert';
import { readFileSync, writeFileSync } from 'node:fs';
import { Sandbox } from './sandbox.ts';

const cell = '```washboard\nk = 3 N/mm\nsoft = k / 4\n```\n';
const right = `# Springs\r\n\r\nThe spring has 3.0 N/mm<!-- = k -->,\r\nthe soft one **0.75 N/mm**<!-- = soft -->.\r\n\r\n${cell}`;
const wrong = right.replace('3.0 N', '4.0 N').replace('0.75', '0.70');

describe('numbers in prose at the command line', () => {
  let sandbox: Sandbox;
  const file = (): string => sandbox.path('springs.washboard.md');
  beforeEach(() => (sandbox = new Sandbox({ 'springs.washboard.md': wrong })));
  afterEach(() => sandbox.remove());

  it('make run and verify tell what differs, with its line, and end as for a changed figure', async () => {
    writeFileSync(file(), right);
    assert.equal((await sandbox.run('run', file())).code, 0);
    await sandbox.run('record', file());
    assert.equal((await sandbox.run('verify', file())).code, 0);
    writeFileSync(file(), wrong);
    const ran = await sandbox.run('run', file());
    assert.equal(ran.code, 1);
    assert.match(
      ran.errors,
      /springs\.washboard\.md:3: The text says 4\.0 N\/mm, and k is 3\.0 N\/mm\.\n.*:4: .*soft is 0\.75 N\/mm/,
    );
    const verified = await sandbox.run('verify', file());
    assert.equal(verified.code, 1);
    assert.match(verified.printed, /:3: The text says 4\.0/);
    assert.equal((await sandbox.run('run', file(), '--cell', '1')).code, 0);
  });

  it('stand in the JSON, and change nothing of its cells', async () => {
    const { code, json } = await sandbox.runJson('springs.washboard.md');
    assert.equal(code, 1);
    assert.equal(json.ok, true);
    assert.equal(json.cells.length, 1);
    const { prose } = json as unknown as { prose: { line: number; now: string; agrees: boolean }[] };
    assert.deepEqual(
      prose.map(({ line, now, agrees }) => [line, now, agrees]),
      [
        [3, '3.0', false],
        [4, '0.75', false],
      ],
    );
  });

  it('are listed, and written as they are now without another byte', async () => {
    const listed = await sandbox.run('numbers', file());
    assert.equal(listed.code, 1);
    assert.equal(readFileSync(file(), 'utf8'), wrong);
    const written = await sandbox.run('numbers', file(), '--write');
    assert.equal(written.code, 0);
    assert.match(written.printed, /:3: 4\.0 is now 3\.0 = k\n/);
    assert.equal(readFileSync(file(), 'utf8'), right);
    assert.equal((await sandbox.run('numbers', file())).code, 0);
  });

  it('are not written where they cannot be told', async () => {
    writeFileSync(file(), wrong.replace('= soft', '= hard'));
    const { code, printed } = await sandbox.run('numbers', file(), '--write');
    assert.equal(code, 1);
    assert.match(printed, /:4: .*hard/);
    assert.match(readFileSync(file(), 'utf8'), /3\.0 N\/mm<!-- = k -->[^]*0\.70 N\/mm/);
  });

  it('leave no trace in the report', async () => {
    writeFileSync(file(), right);
    assert.equal((await sandbox.run('report', file())).code, 0);
    const page = readFileSync(sandbox.path('springs.html'), 'utf8');
    assert.match(page, /3\.0 N\/mm,/);
    assert.doesNotMatch(page, /(?:<|&lt;)!-- =/);
  });
});
