import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { SaxesParser } from 'saxes';
import { visible, visibleLine } from '../../src/result/visible.ts';

describe('text from outside', () => {
  it('shows what would steer a terminal or turn the writing around', () => {
    assert.equal(visible('a\u001b[31mb\u009b2J\u0007'), String.raw`a\u001b[31mb\u009b2J\u0007`);
    assert.equal(visible('\u202egpj.exe\u2066'), String.raw`\u202egpj.exe\u2066`);
    assert.equal(visible('a\r\nb'), 'a\\u000d\nb');
    assert.equal(visible('\ud800 \uffff'), String.raw`\ud800 \uffff`);
  });

  it('stays as it is where it is only text', () => {
    const text = 'µm/s², „Straße“, שלום, 路面, 👩‍🔧, a\tb\nc';
    assert.equal(visible(text), text);
  });

  it('stays on its line where it must', () => {
    assert.equal(visibleLine('a\tb\nwashboard: all is well'), String.raw`a\u0009b\u000awashboard: all is well`);
  });

  it('is what XML allows, whatever it was', () => {
    const law = fc.property(fc.string({ unit: 'binary' }), fc.nat(0xffff), (text, unit) => {
      const shown = visible(text + String.fromCharCode(unit));
      const parser = new SaxesParser();
      parser.on('error', (error) => {
        throw error;
      });
      parser.write(`<a>${shown.replace(/[&<>]/g, '')}</a>`).close();
    });
    fc.assert(law, { numRuns: 2000 });
  });
});
