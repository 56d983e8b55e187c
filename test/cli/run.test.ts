import { strict as assert } from 'node:assert';
import { recording } from '../engine/memoryFiles.ts';
import { Sandbox, type RunJson, type StatementJson } from './sandbox.ts';

const fence = (cell: string): string => `\`\`\`washboard\n${cell}\n\`\`\`\n`;
const book = (...cells: readonly string[]): string => `# A study\n\n${cells.map(fence).join('\nMore prose.\n\n')}`;
const statements = (json: RunJson): StatementJson[] => json.cells.flatMap((cell) => cell.statements);

describe('washboard run', () => {
  let sandbox: Sandbox;
  before(() => {
    sandbox = new Sandbox({
      'raw/a.csv': recording({ seed: 3 }),
      'good.washboard.md': book('runs = load "raw/a.csv" | channel z', 'part = trim runs 2..18 s\nlevels part'),
      'wrong.washboard.md': book(
        'runs = load "raw/a.csv"',
        'levls runs',
        'trim runs 2..500 s',
        'load "raw/b.csv"',
        'load "../../etc/passwd"',
        'k = 40 N/mm + 3 mm',
        'window hann 2 s',
        'levels missing',
      ),
      'broken.washboard.md': Uint8Array.of(35, 32, 0xff, 0xfe, 10),
      'empty.washboard.md': 'Only prose.\n',
      'unclosed.washboard.md': '```washboard\nk = 40 N/mm',
    });
  });
  after(() => sandbox.remove());

  it('prints what the cells show, and gives 0', async () => {
    const { code, printed, errors } = await sandbox.run('run', sandbox.path('good.washboard.md'));
    assert.equal(code, 0);
    assert.equal(errors, '');
    assert.match(printed, /cell 1, line 4: runs = load/);
    assert.match(printed, /cell 2, line 11/);
    assert.match(printed, /kurtosis/i);
  });

  it('gives one JSON document of the shape that is promised', async () => {
    const { code, json } = await sandbox.runJson('good.washboard.md');
    assert.equal(code, 0);
    assert.equal(json.notebook, 'good.washboard.md');
    assert.equal(json.ok, true);
    assert.deepEqual(
      json.sources.map(({ path }) => path),
      ['raw/a.csv'],
    );
    assert.match(json.sources[0].sha256, /^[0-9a-f]{64}$/);
    assert.deepEqual(
      json.cells.map(({ index, line }) => [index, line]),
      [
        [0, 4],
        [1, 10],
      ],
    );
    const [runs, part, levels] = statements(json);
    assert.deepEqual([runs.line, runs.name, runs.kind, runs.error], [4, 'runs', 'runs', null]);
    assert.deepEqual([part.line, levels.line, levels.name, levels.kind], [10, 11, null, 'levels']);
    const {
      runs: [run],
    } = part.value as { runs: Record<string, unknown>[] };
    assert.deepEqual(
      [run.label, run.file, run.channels, run.samples, run.start_s, run.duration_s],
      ['a', 'raw/a.csv', ['z'], 3200, 2, 16],
    );
  });

  it('runs one cell with what it needs', async () => {
    const { code, json } = await sandbox.runJson('good.washboard.md', '--cell', '2');
    assert.equal(code, 0);
    assert.deepEqual(
      statements(json).map(({ kind }) => kind),
      ['runs', 'runs', 'levels'],
    );
    const first = await sandbox.run('run', sandbox.path('good.washboard.md'), '--cell', '1');
    assert.doesNotMatch(first.printed, /kurtosis/i);
  });

  it('names every mistake with its place, runs the rest, and gives 1', async () => {
    const { code, json } = await sandbox.runJson('wrong.washboard.md');
    assert.equal(code, 1);
    assert.equal(json.ok, false);
    const found = statements(json);
    const message = (index: number): string => found[index].error?.message ?? '';
    assert.equal(found[0].error, null);
    assert.match(message(1), /levls.*levels/);
    assert.match(message(2), /a runs from 0 to 20 s/);
    assert.match(message(3), /There is no file "raw\/b\.csv": did you mean "raw\/a\.csv"\?/);
    assert.match(message(4), /outside the project folder/);
    assert.match(message(5), /stiffness|length/);
    assert.equal(found[6].error, null);
    assert.match(message(7), /missing/);
    assert.deepEqual([found[2].error?.line, found[2].error?.from, found[2].error?.to], [16, 11, 18]);
    assert.ok(
      found.every(({ error }) => error === null || !error.message.includes('\n')),
      'one sentence, one line',
    );
  });

  it('prints mistakes to standard error with file and line', async () => {
    const { code, errors } = await sandbox.run('run', sandbox.path('wrong.washboard.md'));
    assert.equal(code, 1);
    assert.match(errors, /wrong\.washboard\.md:10: .*levls/);
  });

  it('gives 2 for wrong usage and for an unreadable notebook, and says why', async () => {
    const cases: [string[], RegExp][] = [
      [['run'], /name a notebook/],
      [['run', 'a', 'b'], /one notebook/],
      [['run', sandbox.path('none.washboard.md')], /there is no notebook/],
      [['run', sandbox.folder], /is a folder/],
      [['run', sandbox.path('broken.washboard.md')], /line 1: /],
      [['run', sandbox.path('good.washboard.md'), '--cell', '9'], /has 2 cells/],
      [['run', sandbox.path('good.washboard.md'), '--cell', 'x'], /whole number/],
      [['run', sandbox.path('good.washboard.md'), '--sideways'], /sideways/],
      [['run', sandbox.path('good.washboard.md'), '--root', sandbox.path('raw')], /does not lie in the project folder/],
      [['ran'], /no command "ran"/],
    ];
    for (const [words, said] of cases) {
      const { code, errors, printed } = await sandbox.run(...words);
      assert.equal(code, 2, words.join(' '));
      assert.match(errors, said);
      assert.ok(errors.split('\n').length <= 3, `${words.join(' ')}: the sentence must not leave the screen`);
      assert.equal(printed, '');
    }
  });

  it('takes a notebook without cells, and one that never closes its last', async () => {
    assert.deepEqual((await sandbox.runJson('empty.washboard.md')).json.cells, []);
    const { json } = await sandbox.runJson('unclosed.washboard.md');
    assert.deepEqual(statements(json)[0].value, { value: 40, unit: 'N/mm' });
  });
});
