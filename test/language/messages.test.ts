import { strict as assert } from 'node:assert';
import { tell } from '../../src/language/messages.ts';

describe('the sentences of the language', () => {
  it('name what is near to an unknown file, or say from where paths are meant', () => {
    const said = (nearest: readonly string[]): string => tell('file.missing', { pattern: '`a.csv`', nearest }).message;
    assert.match(said(['b.csv']), /^No file is called `a\.csv`; did you mean `b\.csv`\?$/);
    assert.match(said([]), /; paths are relative to the folder of this notebook\.$/);
  });

  it('name a missing operand by its keyword, or in capitals where it has none', () => {
    const said = (keyword?: string, example?: string): string =>
      tell('operand.missing', { verb: 'running', operand: 'over', keyword, wanted: ['a time'], example }).message;
    assert.equal(said('over'), '`running` needs `over` and a time.');
    assert.equal(said(), '`running` needs a time (OVER).');
    assert.equal(said(undefined, 'running r over 1 s'), '`running` needs a time (OVER), as in `running r over 1 s`.');
  });
});
