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
  const sandboxes: Sandbox[] = [];
  afterEach(() => sandboxes.splice(0).forEach((one) => one.remove()));

  function makeSandbox(files: Readonly<Record<string, string>>): void {
    sandbox = new Sandbox(files);
    sandboxes.push(sandbox);
  }

  /** Commits one set of files and then another. */
  function history(first: Readonly<Record<string, string>>, second: Readonly<Record<string, string>>): void {
    makeSandbox(first);
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

  it('is not told where git may not be asked', async function () {
    if (!hasGit()) this.skip();
    history({ [name]: book }, recordings);
    const { printed } = await sandbox.run('run', sandbox.path(name), '--no-git');
    assert.match(printed, /Is it less\?/);
    assert.doesNotMatch(printed, /committed/);
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

  it('stands beside the recordings’ own dates: those of the run sheet, or of the loggers’ clocks', async function () {
    if (!hasGit()) this.skip();
    const day = 86_400;
    const dated = (at: number): Record<string, string> =>
      pads({
        ...worked,
        facts: { date: Array.from({ length: 6 }, () => new Date(1000 * at).toISOString().slice(0, 10)) },
      });
    const words = async (files: Readonly<Record<string, string>>): Promise<string> => {
      history({ [name]: book }, files);
      const { printed } = await told();
      const text = printed.replace(/\s+/g, ' ');
      return /\(2023-11-17\), and (.*?)\./.exec(text)?.[1] ?? text;
    };
    const own = (at: number): string =>
      `the recordings’ own dates (from ${new Date(1000 * at).toISOString().slice(0, 10)})`;
    assert.equal(await words(dated(early + 2 * day)), `before ${own(early + 2 * day)}`);
    assert.equal(await words(dated(early - 30 * day)), `after ${own(early - 30 * day)}`);
    // Neither the sheet nor a clock tells its zone: a day leaves it open.
    assert.equal(await words(dated(early)), `within a day of ${own(early)}`);
    const clocked = Object.entries(pads(worked)).map(([path, text]) => [
      path,
      text
        .replace(/^t \(s\)/, 'epoch (s)')
        .replace(/^([\d.]+),/gm, (_, t) => `${(early - 9 * day + Number(t)).toFixed(3)},`),
    ]);
    assert.equal(await words(Object.fromEntries(clocked)), `after ${own(early - 9 * day)}`);
  }).timeout(180_000);

  it('is not told outside git', async () => {
    makeSandbox({ [name]: book, ...recordings });
    const { printed, isBefore } = await told();
    assert.equal(isBefore, undefined);
    assert.doesNotMatch(printed, /in git/i);
  }).timeout(60_000);
});
