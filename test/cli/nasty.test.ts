import { strict as assert } from 'node:assert';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { SaxesParser } from 'saxes';
import { Sandbox } from './sandbox.ts';

/** What a terminal obeys, what turns writing around and what XML forbids; all of it may stand in a file's name, too. */
const nasty = '\u001b[31m\u001b]0;owned\u0007\u009b2J\u202e\u2066\u0001\u007f\ufffe<&>"\'\u2028';

const rows = (level: number): string =>
  Array.from({ length: 1200 }, (_, i) => {
    const noise = Math.sin(i * 12.9898 + level) * 43758.5453;
    return `${(i / 400).toFixed(4)},${(level * (noise - Math.floor(noise) - 0.5)).toFixed(5)},0.01,${i % 7}`;
  }).join('\n');
const recording = (level: number): string =>
  `# made with ${nasty}\n# sensor: ${nasty}\nt,x${nasty} (g),y (g${nasty}),"note\n${nasty}"\n${rows(level)}\n`;

const notebook = `# A study ${nasty}

Prose of ${nasty} and a [link](https://example.org/${encodeURIComponent(nasty)} "${nasty}").

\`\`\`washboard
a = load "raw/a*.csv" unit g # ${nasty}
b = load "raw/b*.csv" unit g
a
table a
check a
\`\`\`

\`\`\`washboard
plot a
levels a
spectrum a | plot
plot (spectrum a), (spectrum b)
compare (channel a z) with (channel b z) over 20..100 Hz
load "${nasty.replaceAll('"', '')}.csv"
nothing ${nasty}
\`\`\`
`;

/** Signs that no output may hold. */
const unseen = /[\0-\x08\v-\x1f\x7f-\x9f\u2028-\u202e\u2066-\u2069\ufffe]/u;

function holdToXml(text: string, about: string): void {
  const parser = new SaxesParser();
  parser.on('error', (error) => assert.fail(`${about}: ${error.message}`));
  parser.write(text).close();
}

describe('text from files that would be more than text', () => {
  let sandbox: Sandbox;
  before(() => {
    sandbox = new Sandbox({
      'ride.washboard.md': notebook,
      [`raw/a-1${nasty.replaceAll('/', '')}.csv`]: recording(1),
      'raw/a-2.csv': recording(1.1),
      [`raw/b-1\n${nasty.slice(0, 20)}.csv`]: recording(0.5),
      'raw/b-2.csv': recording(0.4),
      'broken.csv': `${nasty}\n${nasty},${nasty}\n1,2\n`,
    });
  });
  after(() => sandbox.remove());

  const printed = async (...words: readonly string[]): Promise<string> => {
    const { printed: said, errors } = await sandbox.run(...words);
    const found = unseen.exec(said + errors);
    assert.equal(found, null, `${words[0]} prints ${JSON.stringify(found)} in ${JSON.stringify(said + errors)}`);
    return said + errors;
  };

  it('is shown, and not obeyed, whatever the command', async () => {
    const path = sandbox.path('ride.washboard.md');
    const all = readdirSync(sandbox.path('raw')).map((name) => join(sandbox.path('raw'), name));
    const seen = [
      await printed('run', path),
      await printed('run', path, '--json'),
      await printed('look', ...all, sandbox.path('broken.csv')),
      await printed('record', path),
      await printed('figures', path, '--out', sandbox.path(`figures ${nasty}`)),
      await printed('sheet', sandbox.path('raw')),
    ];
    for (const text of seen) assert.match(text, /\\u001b/);
    for (const command of ['run', 'look', 'record', 'verify', 'report', 'figures', 'sheet', nasty])
      assert.match(await printed(command, `nothing ${nasty}`, '--out', '.'), /\\u001b|Unknown option/);
    assert.match(await printed('look', `--${nasty}`), /\\u001b/);
    assert.match(await printed('look', '--rate', nasty, 'a.csv'), /\\u001b/);
    const { printed: json } = await sandbox.run('run', path, '--json');
    assert.ok(json.includes('\\u009b'), 'JSON has no escapes');
    assert.ok(JSON.stringify(JSON.parse(json)).includes('\u009b'), 'JSON lost the texts themselves');
  });

  it('stands whole in tables, which are data', async () => {
    const folder = sandbox.path('tables');
    assert.match(await printed('tables', sandbox.path('ride.washboard.md'), '--out', folder), /\.csv: /);
    const made = readdirSync(folder).filter((name) => name.endsWith('.csv'));
    const texts = made.map((name) => readFileSync(join(folder, name), 'utf8'));
    assert.ok(
      texts.some((text) => text.includes('\u009b')),
      'the texts themselves are lost',
    );
    assert.ok(!texts.some((text) => text.includes('\\u009b')), 'a text has become its escapes');
  });

  it('leaves pages and pictures well-formed', async () => {
    const path = sandbox.path('ride.washboard.md');
    const page = sandbox.path('ride.html');
    await printed('report', path, '--out', page);
    const html = readFileSync(page, 'utf8');
    assert.ok(html.includes('<svg') && html.includes('\\u001b[31m'));
    holdToXml(html, 'report');
    await printed('figures', path, '--out', sandbox.path('figures'));
    const figures = readdirSync(sandbox.path('figures')).filter((name) => name.endsWith('.svg'));
    assert.ok(figures.length >= 3, `${figures.length} figures`);
    for (const name of figures) holdToXml(readFileSync(join(sandbox.path('figures'), name), 'utf8'), name);
    assert.ok(figures.some((name) => readFileSync(join(sandbox.path('figures'), name), 'utf8').includes('\\u001b')));
  });
});
