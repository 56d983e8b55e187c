import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { proseNumbers, withNumbers, withoutMarks } from '../../src/notebook/proseNumbers.ts';

/** What was found, as `number|unit|expression`. */
const found = (text: string): string[] =>
  proseNumbers(text).map((one) => [text.slice(one.from, one.to), one.unit, one.expression].join('|'));

describe('numbers in prose', () => {
  it('are what stands before the mark, with sign and unit', () => {
    assert.deepEqual(found('It fell by −21.5 %<!-- = C.change -->, or 0.07 g<!--=L.rms-->.'), [
      '−21.5|%|C.change',
      '0.07|g|L.rms',
    ]);
    assert.deepEqual(found('**-21.5 %**<!-- = C.change --> and +3<!-- = n --> and 1.2e-5 m/s²<!-- = a -->'), [
      '-21.5|%|C.change',
      '+3||n',
      '1.2e-5|m/s²|a',
    ]);
    assert.deepEqual(found('from 10-50 Hz<!-- = top -->, 45°<!-- = angle -->, 12.0\u00a0N/mm <!-- = k -->'), [
      '50|Hz|top',
      '45|°|angle',
      '12.0|N/mm|k',
    ]);
    assert.deepEqual(found('| 3 | 4.5 g<!-- = a -->|'), ['4.5|g|a']);
  });

  it('are looked for on the line of the mark alone, and are empty where none stands there', () => {
    assert.deepEqual(found('5\n<!-- = a -->'), ['||a']);
    assert.deepEqual(found('five<!-- = a -->'), ['||a']);
    assert.deepEqual(found('about 8 or so many<!-- = a -->'), ['||a']);
    assert.deepEqual(
      found('v1.5<!-- = a -->'),
      ['||a'].map(() => '1.5||a'),
    );
  });

  it('have an expression of several lines as one line', () => {
    assert.deepEqual(found('5<!-- =\n  a\n + b -->'), ['5||a + b']);
  });

  it('are none in code, nor in comments of another kind', () => {
    for (const text of [
      '`5<!-- = a -->`',
      '``a ` 5<!-- = a --> ` b``',
      '```\n5<!-- = a -->\n```',
      'x\n\n    5<!-- = a -->',
      '5<!-- a = 5 -->',
      '~~~md\n5<!-- = a -->',
    ])
      assert.deepEqual(found(text), [], text);
    assert.deepEqual(found('`a` 5<!-- = a --> `b`'), ['5||a']);
    assert.deepEqual(found('a lone ` here\n\n5<!-- = a --> and ` there'), ['5||a']);
  });

  it('give the text without marks, and with other numbers', () => {
    const text = 'a −1.5 %<!-- = x --> b\r\n2<!-- = y -->\n`3<!-- = z -->`';
    assert.equal(withoutMarks(text), 'a −1.5 % b\r\n2\n`3<!-- = z -->`');
    const [x, y] = proseNumbers(text);
    const written = [
      { of: y, text: '20' },
      { of: x, text: '0.1' },
    ];
    assert.equal(withNumbers(text, written), 'a 0.1 %<!-- = x --> b\r\n20<!-- = y -->\n`3<!-- = z -->`');
  });

  it('are found in any text, in its order, without a letter changed', () => {
    const piece = fc.constantFrom(
      '5',
      '−',
      '-',
      ' ',
      '%',
      '`',
      '``',
      '\n',
      '\n\n',
      '<!-- = a -->',
      '<!--=',
      '-->',
      '*',
      'g',
      '> ',
      '1.5',
    );
    fc.assert(
      fc.property(fc.array(piece, { maxLength: 40 }), (pieces) => {
        const text = pieces.join('');
        const all = proseNumbers(text);
        for (const { from, to, text: number, mark } of all) {
          assert.equal(text.slice(from, to), number);
          assert.ok(to <= mark.from && text.slice(mark.from, mark.to).startsWith('<!--'));
        }
        assert.equal(
          withNumbers(
            text,
            all.map((of) => ({ of, text: of.text })),
          ),
          text,
        );
      }),
    );
  });

  it('are found in time that grows with the text', () => {
    const long =
      '`'.repeat(3) + ' ` `` '.repeat(20_000) + '5<!-- = a -->' + '9'.repeat(100_000) + '<!-- ='.repeat(20_000);
    const began = Date.now();
    proseNumbers(long);
    assert.ok(Date.now() - began < 5000);
  });
});
