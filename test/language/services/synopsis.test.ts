import { strict as assert } from 'node:assert';
import type { Form } from '../../../src/language/form.ts';
import { synopsisOf } from '../../../src/language/services/synopsis.ts';

const form: Form = {
  verb: 'show',
  summary: '',
  help: '',
  operands: [
    { name: 'what', doc: '', accepts: [{ type: 'value', kinds: ['runs', 'spectrum', 'bands', 'levels'] }], many: true },
    { name: 'beside', doc: '', accepts: [{ type: 'value', kinds: ['runs', 'bands'] }], optional: true },
  ],
  options: [
    { keyword: 'over', doc: '', accepts: [{ type: 'range', dimension: 'frequency' }], many: true },
    { keyword: 'order', doc: '', accepts: [{ type: 'integer' }] },
    { keyword: 'log', doc: '', accepts: [] },
    { keyword: 'as', doc: '', accepts: [{ type: 'value', kinds: ['runs', 'spectrum', 'bands', 'levels'] }] },
    { keyword: 'by', doc: '', accepts: [{ type: 'value', kinds: ['runs', 'spectrum'] }] },
  ],
  gives: 'chart',
  examples: [],
};

describe('the synopsis of a verb', () => {
  it('marks what may stand several times, and what may be left out', () => {
    const { text } = synopsisOf(form);
    assert.match(text, /^show WHAT, … \[BESIDE\] /);
    assert.match(text, /\[over N\.\.N Hz, …\]/);
    assert.match(text, /\[order N\]/);
    assert.match(text, /\[log\]/);
  });

  it('names up to three kinds of value, and more of them as a value', () => {
    const { text } = synopsisOf(form);
    assert.match(text, /\[as VALUE\]/);
    assert.match(text, /\[by RUNS \| SPECTRUM\]/);
  });
});
