import { strict as assert } from 'node:assert';
import { readFileSync, readdirSync } from 'node:fs';
import { loadPads, pads } from '../verbs/pads.ts';
import { Sandbox } from './sandbox.ts';

const name = 'a.washboard.md';
const cell = [
  'C = compare foam with gel over 10..30 Hz, 50..70 Hz margin 5 %',
  'C',
  'claim C reduction 5 % over 10..30 Hz',
  'claim C reduction about 13 % tolerance 10 % over 10..30 Hz',
  'claim C no-worse 5 % over 10..30 Hz',
  'plot C',
  'table C',
].join('\n');
const fields = ['low', 'high'].map((field) => `C[1].${field}`).join('\n');
const book = `\`\`\`washboard\n${loadPads}${cell}\n\`\`\`\n\n\`\`\`washboard\n${fields}\n\`\`\`\n`;

/** Keys of JSON that hold what is inferred: limits, chances, and what rests on them. */
const inferred = /^(low|high|p)(_|$)|^(ruled_out|excludes|smallest|supported)|interval|_low$|_high$/;

/** Every figure under a key of what is inferred. */
function figuresIn(json: unknown, under = ''): string[] {
  if (Array.isArray(json)) return json.flatMap((one, k) => figuresIn(one, `${under}/${k}`));
  if (typeof json !== 'object' || json === null) return [];
  return Object.entries(json).flatMap(([key, value]) =>
    typeof value === 'number' && inferred.test(key)
      ? [`${under}/${key}: ${value}`]
      : figuresIn(value, `${under}/${key}`),
  );
}

/** Columns of a CSV for what is inferred, filled or not. */
const inferredColumns = (text: string): string[] =>
  text
    .split('\n')[0]
    .split(',')
    .filter((title) => /^(low|high|p\b|ruled out)/.test(title));

const words = [
  /interval (?!is\b|\.)[-−+\d]/,
  /\d %? ?interval/,
  /\bp [<>=]? ?\d/,
  /p for all/,
  /rules? out a change|are ruled out|data rule out|Ruled out beyond/,
  /bins together/,
  / (low|high) \(%\)| p  /,
];

describe('a comparison of fewer than three runs a side', () => {
  for (const [runs, levels] of [
    ['one', { a: [0.3], b: [0.26] }],
    ['two', { a: [0.3, 0.31], b: [0.26, 0.255] }],
    ['one and three', { a: [0.3], b: [0.26, 0.255, 0.262] }],
  ] as const)
    it(`shows no limit, p or interval anywhere: ${runs}`, async () => {
      const sandbox = new Sandbox({ [name]: book, ...pads(levels) });
      try {
        const { json } = await sandbox.runJson(name);
        assert.deepEqual(figuresIn(json.cells), []);
        const [, { statements }] = json.cells;
        assert.deepEqual(
          statements.map(({ error }) => error?.code),
          ['field.absent', 'field.absent'],
        );
        const { printed } = await sandbox.run('run', sandbox.path(name));
        await sandbox.run('report', sandbox.path(name), '--out', sandbox.path('a.html'));
        const html = readFileSync(sandbox.path('a.html'), 'utf8').replace(/<style[\s\S]*?<\/style>/g, '');
        for (const text of [printed, html]) for (const word of words) assert.doesNotMatch(text, word);
        assert.match(printed, /is not shown: −1\d\.\d % was measured/);
        await sandbox.run('tables', sandbox.path(name), '--out', sandbox.path('tables'));
        const tables = readdirSync(sandbox.path('tables')).filter((file) => file.endsWith('.csv'));
        assert.ok(tables.includes('C.csv'), tables.join(', '));
        for (const file of tables)
          assert.deepEqual(inferredColumns(readFileSync(sandbox.path(`tables/${file}`), 'utf8')), [], file);
      } finally {
        sandbox.remove();
      }
    }).timeout(180_000);

  it('finds them where three runs a side allow them, by the same search', async () => {
    const sandbox = new Sandbox({ [name]: book, ...pads({ a: [0.3, 0.31, 0.305], b: [0.26, 0.255, 0.262] }) });
    try {
      const { json } = await sandbox.runJson(name);
      assert.ok(figuresIn(json.cells).some((one) => one.includes('/low')));
      const { printed } = await sandbox.run('run', sandbox.path(name));
      for (const word of words.slice(0, 5)) assert.match(printed, word);
      await sandbox.run('tables', sandbox.path(name), '--out', sandbox.path('tables'));
      assert.ok(inferredColumns(readFileSync(sandbox.path('tables/C.csv'), 'utf8')).length > 2);
    } finally {
      sandbox.remove();
    }
  }).timeout(180_000);
});
