import { strict as assert } from 'node:assert';
import { askedUnits } from '../../src/language/askedUnit.ts';
import { parseCell } from '../../src/language/parser.ts';
import type { Step } from '../../src/language/tree.ts';
import { vocabularyOf } from '../../src/language/vocabulary.ts';
import { untyped, type Typed } from '../../src/language/work.ts';
import { unit } from '../../src/units/parse.ts';
import { catalogue } from './catalogue.ts';

const rate: Typed = { ...untyped, kind: 'quantity', dimension: unit('Hz').dimension };
const names: Readonly<Record<string, Typed>> = {
  r: { ...untyped, kind: 'runs' },
  f: rate,
  unknown: { ...untyped, kind: 'quantity' },
};

/** The items of a step without the units, and the units. */
function parted(text: string): readonly [items: string, units: string] {
  const [{ pipeline }] = parseCell(text, vocabularyOf(catalogue)).statements;
  const { items, units } = askedUnits(pipeline.steps[0] as Step, {
    bound: (name) => Object.hasOwn(names, name),
    use: (name) => names[name],
  });
  const slice = ({ from, to }: { from: number; to: number }): string => text.slice(from, to);
  return [items.map(({ node }) => slice(node.place)).join(' '), units.map(({ place }) => slice(place)).join(' ')];
}

describe('askedUnits', () => {
  it('takes a unit behind runs, texts, words and steps in brackets as asked of the result', () => {
    assert.deepEqual(parted('levels r in mm/s'), ['r', 'mm/s']);
    assert.deepEqual(parted('load "a" in g'), ['"a"', 'g']);
    assert.deepEqual(parted('compare r with q paired in mm/s over 5..9 Hz'), ['r with q paired over 5..9 Hz', 'mm/s']);
    assert.deepEqual(parted('plot (spectrum r) in g'), ['(spectrum r)', 'g']);
    assert.deepEqual(parted('levels toString in g'), ['toString', 'g']);
    assert.deepEqual(parted('levels r[2] in g in mg'), ['r[2]', 'g mg']);
  });

  it('leaves it with a quantity that can be told in it, or whose dimension is not known yet', () => {
    assert.deepEqual(parted('plot r mark 90 rpm in Hz'), ['r mark 90 rpm in Hz', '']);
    assert.deepEqual(parted('plot r mark f in Hz'), ['r mark f in Hz', '']);
    assert.deepEqual(parted('plot r mark unknown in Hz'), ['r mark unknown in Hz', '']);
    assert.deepEqual(parted('plot r mark (f + f) in Hz'), ['r mark (f + f) in Hz', '']);
    assert.deepEqual(parted('plot r mark f in g'), ['r mark f', 'g']);
  });

  it('parts it from a range that measures something else, and leaves the range whole', () => {
    assert.deepEqual(parted('compare r with q over 5..9 Hz, 9..30 Hz in g'), ['r with q over 5..9 Hz 9..30 Hz', 'g']);
  });
});
