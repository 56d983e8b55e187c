import { strict as assert } from 'node:assert';
import { standardUncertainty } from '../../../src/units/uncertainty.ts';
import { fieldOf } from '../../../src/values/fields.ts';
import { errorOf, near, valueOf } from '../notebook.ts';
import { loadPads, pads, worked } from '../pads.ts';

const study = pads(worked);
const compared = `${loadPads}C = compare foam with gel over 10..30 Hz\n`;

describe('a field of a comparison', () => {
  it('brings its standard error and degrees of freedom', async () => {
    // Welch's t of the worked example: se .0200437 of ln, 3.549 degrees of freedom, ratio .8581.
    const change = await valueOf('quantity', `${compared}C.change`, study);
    const [part] = change.parts!;
    near(part.size, 100 * 0.8581 * 0.0200437, 1e-3);
    near(part.df, 3.5487, 1e-3);
    const ratio = await valueOf('quantity', `${compared}C.ratio`, study);
    near(standardUncertainty(ratio.parts!), 0.8581 * 0.0200437, 1e-3);
    const decibels = await valueOf('quantity', `${compared}C.change_db`, study);
    near(standardUncertainty(decibels.parts!), (20 / Math.LN10) * 0.0200437, 1e-3);
  });

  it('is one input, whatever is read off its row and whatever the comparison is called', async () => {
    const none = await valueOf('quantity', `${compared}C.change - 100 * (C.ratio - 1) in %`, study);
    assert.equal(none.parts?.length, 1);
    const twice = await valueOf(
      'quantity',
      `${compared}D = compare foam with gel over 10..30 Hz\nC.change - D.change`,
      study,
    );
    near(twice.quantity.value + 1, 1, 1e-12);
    assert.equal(standardUncertainty(twice.parts!), 0);
    const verdict = await valueOf('quantity', `${compared}V = claim C reduction 5 %\nV.reduction + C.change`, study);
    assert.ok(standardUncertainty(verdict.parts!) < 1e-12);
  });
});

describe('agrees', () => {
  it('holds a prediction against a measured change, with its degree of equivalence', async () => {
    const found = await valueOf('agreement', `${compared}predicted = -12 ± 2 %\nagrees predicted with C.change`, study);
    assert.equal(found.agrees, true);
    near(found.difference, 2.19, 0.01);
    near(found.uncertainty, Math.hypot(2, 100 * 0.8581 * 0.0200437), 1e-3);
    const degree = fieldOf(found, 'degree');
    assert.ok(degree.ok && degree.value.kind === 'quantity');
    near(degree.value.quantity.value, Math.abs(found.difference) / (found.factor * found.uncertainty), 1e-12);
    assert.match(
      found.sentence,
      /^predicted, −12\.0 ± 2\.0 %, and C\.change, −14\.2 ± 1\.7 %, agree: .* holds 0; .*\|d\|\/U is 0\.\d+\. Differences of less than/,
    );
    const far = await valueOf('agreement', `${compared}agrees -40 ± 1 % with C.change`, study);
    assert.equal(far.agrees, false);
    assert.match(far.sentence, /^the predicted value, .*do not agree: .*leaves 0 out/i);
  });

  it('takes what both share out of the difference', async () => {
    const found = await valueOf('agreement', 'k = 160 ± 5 N/mm\na = k + 1 ± 1 N/mm\nagrees a with k', {});
    near(found.uncertainty, 1, 1e-12);
    const unlike = await valueOf('agreement', 'a = 160 ± 5 N/mm\nb = 161 ± 1 N/mm\nagrees a with b', {});
    near(unlike.uncertainty, Math.hypot(5, 1), 1e-12);
  });

  it('converts the second to the unit of the first, and refuses unlike ones', async () => {
    const found = await valueOf('agreement', 'agrees 10 ± 1 mm with 1 ± 0.1 cm', {});
    assert.equal(found.difference, 0);
    near(found.uncertainty, Math.SQRT2, 1e-12);
    assert.equal((await errorOf('agrees 10 ± 1 mm with 1 ± 0.1 kg')).code, 'unit.dimension');
  });

  it('is wider with a higher coverage, and refuses what nobody knows', async () => {
    const at = async (coverage: string): Promise<number> =>
      (await valueOf('agreement', `${compared}agrees -12 ± 2 % with C.change coverage ${coverage}`, study)).factor;
    assert.ok((await at('99 %')) > (await at('95 %')));
    assert.equal((await errorOf('agrees 3 mm with 4 mm')).code, 'agrees.exact');
    const single = `${loadPads}C = compare foam[1] with gel[1] over 10..30 Hz\nagrees -12 ± 2 % with C.change`;
    assert.equal((await errorOf(single, study)).code, 'agrees.unknown');
    const inTurn = pads({ ...worked, order: [1, 2, 3, 4, 5, 6] });
    assert.equal((await errorOf(`${compared}agrees -12 ± 2 % with C.change`, inTurn)).code, 'agrees.unknown');
  });
});
