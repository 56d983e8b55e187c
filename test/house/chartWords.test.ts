import { strict as assert } from 'node:assert';
import ts from 'typescript';
import { filesOf, sourceOf } from './sources.ts';

const home = 'src/charts/words/';

/** Three words after one another. */
const phrase = /\p{L}[\p{L}’']*[,;:.]? \p{Ll}[\p{L}’']*[,;:.]? \p{Ll}[\p{L}’']*/u;

const isText = (node: ts.Node): node is ts.LiteralLikeNode =>
  ts.isStringLiteralLike(node) || ts.isTemplateHead(node) || ts.isTemplateMiddleOrTemplateTail(node);

/** What an exception says is for those who mend the program. */
const isException = (node: ts.Node): boolean => ts.isNewExpression(node) && node.expression.getText().endsWith('Error');

function phrasesIn(node: ts.Node): string[] {
  if (isException(node)) return [];
  const found = isText(node) && phrase.test(node.text) ? [node.text] : [];
  ts.forEachChild(node, (child) => {
    found.push(...phrasesIn(child));
  });
  return found;
}

describe('the words of charts', () => {
  it(`stand in ${home}`, () => {
    const strays = filesOf('src/charts')
      .filter((file) => !file.startsWith(home))
      .flatMap((file) => phrasesIn(sourceOf(file)).map((text) => `${file}: ${text}`));
    assert.deepEqual(strays, []);
  });

  it('are found where they are looked for', () => {
    assert.ok(filesOf(home.slice(0, -1)).flatMap((file) => phrasesIn(sourceOf(file))).length > 50);
  });
});
