import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { lackedLetters, printWidth } from '../../src/charts/advances.ts';
import { facesFrom, familyIn, ownFaces } from '../../src/files/fonts.ts';

describe('the font of figures in print', () => {
  const { regular } = ownFaces();

  it('is Arimo, and has the letters, powers and signs that charts use', () => {
    assert.equal(familyIn(regular), 'Arimo');
    assert.deepEqual(lackedLetters('Änderung der Beschleunigung (m/s²), −14.2 % ± 3 · 10⁻⁵ × µ Ω ≤ ≥ …–’ Ž Σ Ж'), []);
    assert.deepEqual(lackedLetters('★ a ★'), ['★']);
  });

  it('has widths as its table says: 1139 of 2048 for a figure, 569 for a blank', () => {
    assert.equal(printWidth('0 ', 2048), 1139 + 569);
    assert.ok(printWidth('band', 10, true) > printWidth('band', 10));
  });

  it('is taken for no font where it is none, or cut off', () => {
    assert.ok(!facesFrom('package.json', 'package.json', undefined).ok);
    assert.ok(!facesFrom('nowhere.ttf', 'nowhere.ttf', undefined).ok);
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 4000 }), (length) => {
        const family = familyIn(regular.subarray(0, length));
        assert.ok(family === undefined || family === 'Arimo');
      }),
    );
  });
});
