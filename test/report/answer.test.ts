import { strict as assert } from 'node:assert';
import { methodsOf } from '../../src/analysis/evidence/methods.ts';
import { answerPieces } from '../../src/report/answer.ts';

describe('the short form of a study', () => {
  it('says so where nothing was compared, and tells of no runs', () => {
    const methods = methodsOf([])
      .parts.map(({ text }) => text)
      .join(' ');
    const pieces = [{ kind: 'prose', text: '# Springs\n\nHow soft?' } as const];
    const text = answerPieces({ file: 'a.md', pieces, sources: [], tool: 'Washboard' }, methods)
      .flatMap((piece) =>
        piece.kind === 'prose'
          ? [piece.text]
          : piece.outputs.flatMap(({ parts }) => parts.flatMap((part) => (part.type === 'text' ? [part.text] : []))),
      )
      .join('\n');
    assert.match(text, /^# Springs\n\nHow soft\?\n## Answer\nNothing in this notebook compares runs or judges a claim/);
    assert.match(text, /## Methods\nComputed with Washboard/);
    assert.doesNotMatch(text, /0 runs|Limits|run sheet|recordings/);
  });
});
