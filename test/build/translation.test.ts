import { strict as assert } from 'node:assert';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('../../', import.meta.url));
const textOf = (file: string): string => readFileSync(join(root, file), 'utf8');
const translated = (file: string): string[] => Object.keys(JSON.parse(textOf(file)) as object).sort();

describe('the translation into German', () => {
  it('has every text of the manifest, and so has English', () => {
    const used = [...textOf('package.json').matchAll(/"%([\w.]+)%"/g)].map((match) => match[1]);
    assert.ok(used.length > 20);
    for (const file of ['package.nls.json', 'package.nls.de.json'])
      assert.deepEqual(translated(file), [...new Set(used)].sort(), file);
  });

  /** What a pattern finds in the sources of a room, or of a file of it. */
  const found = (room: string, pattern: RegExp, only = ''): string[] =>
    readdirSync(join(root, room), { recursive: true, encoding: 'utf8' })
      .filter((file) => file.endsWith('.ts') && !file.endsWith('.d.ts') && file.endsWith(only))
      .flatMap((file) => [...textOf(join(room, file)).matchAll(pattern)].map((match) => match[1]));

  it('has every text that the editor’s own parts show, and those of menus and buttons on the page', () => {
    const texts = [
      found('src/editor', /l10n\.t\(\s*'([^']+)'/g),
      found('src/renderer', /(?:said|inWords)\(\s*'([^']+)'/g),
      found('src/renderer', /\[\s*'([^']+)',\s*\{ what/g, 'takes.ts'),
      found('src/renderer', /(?:partMenu\(|caption === '' \? )'([^']+)'/g, 'takes.ts'),
      found('src/renderer', /^ {2}\w+: '([A-Z][^']+)',$/gm, 'choices.ts'),
      found('src/renderer', /where === '' \? '([^']+)'/g, 'choices.ts'),
      found('src/renderer', /label: '([^']+)'/g, 'ground.ts'),
    ].flatMap((some) => {
      assert.ok(some.length > 0);
      return some;
    });
    assert.ok(texts.length > 10);
    assert.deepEqual(translated('l10n/bundle.l10n.de.json'), [...new Set(texts)].sort());
  });

  it('leaves the places of what is put in as they are', () => {
    for (const [text, german] of Object.entries(
      JSON.parse(textOf('l10n/bundle.l10n.de.json')) as Record<string, string>,
    ))
      assert.deepEqual(german.match(/\{\d\}/g), text.match(/\{\d\}/g), text);
  });
});
