import { strict as assert } from 'node:assert';
import { writeFileSync } from 'node:fs';
import { commitAll, gitIn, hasGit } from '../disk/git.ts';
import { loadPads, pads, worked } from '../verbs/pads.ts';
import { Sandbox } from './sandbox.ts';

const name = 'a.washboard.md';
const plan = 'p = plan "Is it less?" primary 10..30 Hz claim reduction 5 %';
const book = `\`\`\`washboard\n${plan}\n${loadPads}C = compare foam with gel plan p\ncompare foam with gel plan p\nclaim C\n\`\`\`\n`;
const early = 1_700_000_000;
const late = 1_700_200_000;
const recordings = pads(worked);

interface FollowedJson {
  readonly plan: { readonly age: { readonly before_raw_files: boolean | null } | null };
}

describe('the age of a plan', () => {
  let sandbox: Sandbox;
  afterEach(() => sandbox.remove());

  /** Commits one set of files and then another. */
  function history(first: Readonly<Record<string, string>>, second: Readonly<Record<string, string>>): void {
    sandbox = new Sandbox(first);
    gitIn(sandbox.folder, 'init', '-q');
    commitAll(sandbox.folder, early);
    for (const [path, text] of Object.entries(second)) writeFileSync(sandbox.path(path), text);
    commitAll(sandbox.folder, late);
  }

  async function told(): Promise<{ printed: string; isBefore: boolean | null | undefined }> {
    const { json } = await sandbox.runJson(name);
    const comparison = json.cells[0].statements.find((statement) => statement.name === 'C')?.value as FollowedJson;
    const { printed } = await sandbox.run('run', sandbox.path(name));
    return { printed, isBefore: comparison.plan.age?.before_raw_files };
  }

  it('is before the raw files where it was committed first', async function () {
    if (!hasGit()) this.skip();
    history({ [name]: book }, recordings);
    const { printed, isBefore } = await told();
    assert.equal(isBefore, true);
    const age = /was committed on 2023-11-14: before the raw files’ first commit \(2023-11-17\)\./g;
    assert.equal(printed.replace(/\s+/g, ' ').match(age)?.length, 2, 'comparison and claim');
  }).timeout(60_000);

  it('is not before the raw files where they came first', async function () {
    if (!hasGit()) this.skip();
    history(recordings, { [name]: book });
    const { printed, isBefore } = await told();
    assert.equal(isBefore, false);
    assert.match(
      printed.replace(/\s+/g, ' '),
      /on 2023-11-17: not before the raw files’ first commit \(2023-11-14\)\./,
    );
  }).timeout(60_000);

  it('is not told outside git', async () => {
    sandbox = new Sandbox({ [name]: book, ...recordings });
    const { printed, isBefore } = await told();
    assert.equal(isBefore, undefined);
    assert.doesNotMatch(printed, /in git/i);
  }).timeout(60_000);
});
