import { strict as assert } from 'node:assert';
import { checkNotebook } from '../../src/language/check.ts';
import { catalogue } from '../../src/verbs/catalogue.ts';
import { read } from './tokenise.ts';

interface Snippet {
  readonly prefix: string;
  readonly description: string;
  readonly body: readonly string[];
}

const snippets = Object.entries(read('snippets/washboard.json') as Record<string, Snippet>);

/** The text that stands there when nothing is typed over: defaults, and the first of each choice. */
const expanded = (body: readonly string[]): string =>
  body
    .join('\n')
    .replace(/\$\{\d+\|([^,|]*)[^}]*\}/g, '$1')
    .replace(/\$\{\d+:([^}]*)\}/g, '$1');

describe('the snippets', () => {
  it('are 8 to 24, each with its own prefix and a description', () => {
    assert.ok(snippets.length >= 8 && snippets.length <= 24);
    assert.equal(new Set(snippets.map(([, { prefix }]) => prefix)).size, snippets.length);
    for (const [, { description }] of snippets) assert.ok(description.length > 20);
  });

  for (const [name, { body }] of snippets) {
    it(`"${name}" begins with a comment, has tab stops counted from 1, and is right as it stands but for names`, () => {
      assert.match(body[0], /^# /);
      const stops = [...new Set([...body.join('').matchAll(/\$\{?(\d+)/g)].map((match) => Number(match[1])))].sort(
        (a, b) => a - b,
      );
      assert.deepEqual(
        stops,
        stops.map((_, k) => k + 1),
      );
      const problems = checkNotebook([expanded(body)], catalogue).problems.flat();
      // What a snippet works on is bound in another cell.
      const wrong = problems.filter(({ code, severity }) => severity === 'error' && code !== 'name.unknown');
      assert.deepEqual(wrong, []);
    });
  }
});

describe('the language configuration', () => {
  const { wordPattern, comments } = read('language-configuration.json') as {
    wordPattern: { pattern: string; flags: string };
    comments: { lineComment: string };
  };
  const words = (text: string): string[] => text.match(new RegExp(wordPattern.pattern, `g${wordPattern.flags}`)) ?? [];

  it('takes names, numbers, compound units and hyphenated words whole', () => {
    assert.deepEqual(words('w = window blackman-harris 2.5 s'), ['w', 'window', 'blackman-harris', '2.5', 's']);
    assert.deepEqual(words('band s third-octave 1..160 Hz'), ['band', 's', 'third-octave', '1', '160', 'Hz']);
    assert.deepEqual(words('9.8 m/s^2, 3 N/mm, 15 %'), ['9.8', 'm/s^2', '3', 'N/mm', '15', '%']);
    assert.deepEqual(words('(after-before_2)/näher'), ['after', 'before_2', 'näher']);
  });

  it('toggles the comment of the language', () => assert.equal(comments.lineComment, '#'));
});
