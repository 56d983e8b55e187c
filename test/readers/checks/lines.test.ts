import { strict as assert } from 'node:assert';
import { linesOf } from '../../../src/readers/checks/lines.ts';
import { noise } from '../../verbs/notebook.ts';
import { runOf } from './made.ts';

const rate = 200;
/** Hz between bins of the longest segments, of 8 s. */
const step = 1 / 8;

/** Frequencies told as lines of tones, each with its share of a mean square of 1, beside a little noise. */
function told(tones: readonly (readonly [frequency: number, power: number])[]): number[] {
  const random = noise(5);
  const z = Float64Array.from(
    { length: 60 * rate },
    (_, i) =>
      0.01 * random() +
      tones.reduce((sum, [f, power], k) => sum + Math.sqrt(2 * power) * Math.sin((2 * Math.PI * f * i) / rate + k), 0),
  );
  return linesOf(runOf({ z }, { rate }), {}).flatMap(({ lines }) => lines.map(({ centre }) => centre));
}

const near = (found: readonly number[], wanted: readonly number[]): void => {
  assert.equal(found.length, wanted.length, found.join());
  for (const [k, frequency] of wanted.entries())
    assert.ok(Math.abs(found[k] - frequency) < step / 10, `${found[k]} Hz`);
};

describe('the lines of a recording', () => {
  it('stand six times above what lies beside them, on the nearest bins that their window leaves free as well', () => {
    const beside = [-3, 3].map((bins) => [50 + bins * step, 0.01] as const);
    near(told([[50, 0.01]]), [50]);
    near(told([...beside, [50, 0.07]]), [50]);
    near(told([...beside, [50, 0.05]]), []);
  });

  it('are told one by one where they are nine bins apart', () => {
    near(told([20, 50, 50 + 9 * step].map((f) => [f, 0.01] as const)), [20, 50, 50 + 9 * step]);
  });
});
