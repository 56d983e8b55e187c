import { strict as assert } from 'node:assert';
import { readFileSync } from 'node:fs';
import { fisherFSurvival } from '../../src/statistics/distributions/fisherF.ts';
import { interactionOf } from '../../src/statistics/interaction.ts';
import { close } from './vectors.ts';

interface Study {
  readonly name: string;
  readonly condition: string[];
  readonly stratum: string[];
  readonly nuisance: number[][];
  readonly y: number[];
  readonly f: number;
  readonly df: [number, number];
  readonly p: number;
}

// Least squares of numpy 1.24.2 and F of scipy 1.10.1 (scripts/reference/makeInteractionVectors.py).
const { studies, survivals } = JSON.parse(
  readFileSync(new URL('vectors/interaction.json', import.meta.url), 'utf8'),
) as { readonly studies: Study[]; readonly survivals: [number, number, number, number][] };

describe('interactions agree with the least squares of numpy and the F of scipy', () => {
  for (const { name, condition, stratum, nuisance, y, f, df, p } of studies) {
    it(name, () => {
      const runs = condition.map((one, k) => ({ condition: one, stratum: stratum[k] }));
      const found = interactionOf({ runs, change: { from: 'a', to: 'b' }, nuisance }, y) ?? assert.fail();
      assert.deepEqual(found.df, df);
      close(found.f, f, 1e-9, 'F');
      close(found.p, p, 1e-9, 'p');
    });
  }

  it('what lies above an F', () => {
    for (const [f, numerator, denominator, want] of survivals)
      close(fisherFSurvival(f, numerator, denominator), want, 1e-10, `F ${f} with ${numerator} and ${denominator}`);
  });
});
