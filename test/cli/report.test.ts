import { strict as assert } from 'node:assert';
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { recording } from '../engine/memoryFiles.ts';
import { loadPads, pads, worked } from '../verbs/pads.ts';
import { Sandbox } from './sandbox.ts';

const notebook = `# A <study> & its page

See [elsewhere](javascript:alert(1)), ![a picture](pixel.png), ![none](https://example.org/x.png) and <script>alert(1)</script>.

\`\`\`washboard
runs = load "raw/*.csv" | channel z | trim 2..18 s
plot (spectrum runs)
levels runs
\`\`\`

\`\`\`washboard
levls runs
\`\`\`
`;
// One transparent pixel.
const pixel = Buffer.from(
  'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg==',
  'base64',
);

describe('washboard report and figures', () => {
  let sandbox: Sandbox;
  before(() => {
    sandbox = new Sandbox({ 'raw/a.csv': recording({ seed: 3 }), 'ride.washboard.md': notebook, 'pixel.png': pixel });
  });
  after(() => sandbox.remove());

  it('write one page that fetches nothing, runs nothing, and holds all', async () => {
    const { code, printed } = await sandbox.run('report', sandbox.path('ride.washboard.md'));
    assert.equal(code, 1, 'a statement failed, and the page says so');
    assert.match(printed, /ride\.html/);
    const page = readFileSync(sandbox.path('ride.html'), 'utf8');
    assert.match(page, /<title>A &lt;study&gt; &amp; its page<\/title>/);
    assert.match(page, /default-src 'none'/);
    assert.match(page, /@font-face .* font-weight: 700; src: url\(data:font\/ttf;base64,AAE/);
    assert.doesNotMatch(page, /<script|href="javascript|src="http/);
    assert.match(page, /src="data:image\/png;base64,/);
    assert.match(page, /<svg[^>]*>/);
    assert.match(page, /Frequency \(Hz\)/);
    assert.match(page, /<th scope="col"[^>]*>Kurtosis/);
    assert.match(page, /levls.*levels/);
    assert.match(page, /raw\/a\.csv<\/td>.*<code>[0-9a-f]{64}<\/code>/);
  });

  it('give the short form: question, answer, methods and limits, without the cells', async () => {
    const files = pads({ ...worked, order: [1, 4, 5, 2, 3, 6] });
    const cell = `${loadPads}plan "Is gel quieter?" channel z primary 10..30 Hz\ncompare foam with gel over 10..30 Hz`;
    const pad = new Sandbox({
      ...files,
      'p.washboard.md': `---\nfigures: width 85 mm\n---\n\n# Pads\n\n\`\`\`washboard\n${cell}\n\`\`\`\n`,
    });
    try {
      const { code, printed } = await pad.run('report', pad.path('p.washboard.md'), '--answer');
      assert.equal(code, 0);
      assert.match(printed, /p\.answer\.html/);
      const page = readFileSync(pad.path('p.answer.html'), 'utf8');
      for (const wanted of [
        '<h1>Pads</h1>',
        'Is gel quieter\\?',
        '<h2>Answer</h2>',
        'lower with gel than with foam',
        '<h2>Methods</h2>',
        'in the order A B B A A B',
        '<h2>Limits</h2>',
      ])
        assert.match(page, new RegExp(wanted));
      assert.equal(page.split('<figure>').length, 2);
      assert.ok(!page.includes('class="source"') && !page.includes('width 85 mm'));
    } finally {
      pad.remove();
    }
  });

  it('write every chart as a file', async () => {
    const { printed } = await sandbox.run(
      'figures',
      sandbox.path('ride.washboard.md'),
      '--out',
      sandbox.path('figures'),
    );
    assert.deepEqual(readdirSync(sandbox.path('figures')), ['plot-runs-spectrum.svg', 'washboard-files.json']);
    assert.match(printed, /plot-runs-spectrum.svg: Acceleration spectral density.*, cell 1/);
    assert.match(readFileSync(sandbox.path('figures/plot-runs-spectrum.svg'), 'utf8'), /^<svg/);
  });

  it('write every table as a file, and say what an earlier run left', async () => {
    const ride = sandbox.path('ride.washboard.md');
    const write = (): ReturnType<Sandbox['run']> => sandbox.run('tables', ride, '--out', sandbox.path('tables'));
    const { printed, code } = await write();
    assert.equal(code, 1, 'one statement failed');
    assert.deepEqual(readdirSync(sandbox.path('tables')), [
      'levels-runs.csv',
      'plot-runs-spectrum.csv',
      'runs.csv',
      'washboard-files.json',
    ]);
    assert.match(printed, /levels-runs\.csv: Levels, cell 1/);
    writeFileSync(ride, notebook.replace('levels runs', 'peak = levels runs'));
    assert.match((await write()).errors, /levels-runs\.csv is from an earlier run and is no longer made/);
    writeFileSync(ride, notebook);
    assert.equal((await sandbox.run('tables', ride)).code, 2);
    assert.equal((await sandbox.run('tables', ride, '--out', 'x', '--format', 'xls')).code, 2);
  });

  it('give 2 for wrong usage', async () => {
    assert.equal((await sandbox.run('report')).code, 2);
    assert.equal((await sandbox.run('figures', sandbox.path('ride.washboard.md'))).code, 2);
    assert.equal(
      (await sandbox.run('figures', sandbox.path('ride.washboard.md'), '--out', 'x', '--format', 'gif')).code,
      2,
    );
  });
});
