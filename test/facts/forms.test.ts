import { strict as assert } from 'node:assert';
import { catalogue } from '../../src/verbs/catalogue.ts';

describe('the catalogue', () => {
  it('is plain data, so that the extension host can have it without what computes', () => {
    assert.deepEqual(JSON.parse(JSON.stringify(catalogue)), catalogue);
  });
});
