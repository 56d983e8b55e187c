import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { acosOf, asinOf, atan2Of } from '../../src/numbers/arcs.ts';
import { expm1Of, expOf } from '../../src/numbers/exponential.ts';
import { log10Of, log1pOf, log2Of, logOf } from '../../src/numbers/logarithm.ts';
import { cosOf, sinOf, tanOf } from '../../src/numbers/trigonometry.ts';

type Of = (x: number) => number;
const functions: Readonly<Record<string, readonly [ours: Of, engine: Of]>> = {
  exp: [expOf, Math.exp],
  expm1: [expm1Of, Math.expm1],
  log: [logOf, Math.log],
  log1p: [log1pOf, Math.log1p],
  log2: [log2Of, Math.log2],
  log10: [log10Of, Math.log10],
  sin: [sinOf, Math.sin],
  cos: [cosOf, Math.cos],
  tan: [tanOf, Math.tan],
  asin: [asinOf, Math.asin],
  acos: [acosOf, Math.acos],
};

/** Arguments of all sizes, and many near to where the algorithms change. */
const anyNumber = fc.oneof(
  fc.double(),
  fc.double({ min: -1, max: 1, noNaN: true }),
  fc.double({ min: -20, max: 20, noNaN: true }),
  fc.double({ min: -800, max: 800, noNaN: true }),
  fc.double({ min: 0.6, max: 1.6, noNaN: true }),
  fc.double({ min: -1e6, max: 1e6, noNaN: true }),
  fc.integer({ min: -1100, max: 1000 }).map((n) => 2 ** n),
  fc.integer({ min: -300, max: 300 }).map((n) => Number(`1e${n}`)),
  fc.integer({ min: -4000, max: 4000 }).map((n) => (n * Math.PI) / 4),
  fc.constantFrom(1, -1, 709.782712893384, -745.1332191019412, -708.4, 1.7976931348623157e308),
);

/** Units of the last digit between two numbers; 0 for the same, NaN with NaN included. */
function unitsBetween(a: number, b: number): number {
  if (Object.is(a, b)) return 0;
  if (Math.sign(a) !== Math.sign(b) || !Number.isFinite(a) || !Number.isFinite(b)) return Infinity;
  const [one, other] = new BigInt64Array(Float64Array.of(a, b).buffer);
  return Math.abs(Number(one - other));
}

/** Angles up to here are reduced as fdlibm reduces them. */
const medium = 823_549;

/** The engine of Node 20 to 24 takes all of these from fdlibm as well; later ones may not. */
const isSameSource = Number(process.versions.v8.split('.')[0]) < 14;

describe('elementary functions', () => {
  for (const [name, [ours, engine]] of Object.entries(functions))
    it(`give the ${name} of Node, to its last digit where Node has it from the same source`, () => {
      const isAngle = ours === sinOf || ours === cosOf || ours === tanOf;
      fc.assert(
        fc.property(anyNumber, (x) => {
          const units = unitsBetween(ours(x), engine(x));
          const most = isSameSource && !(isAngle && Math.abs(x) > medium) ? 0 : 2;
          assert.ok(units <= most, `${name} of ${x} is ${ours(x)} and ${engine(x)}`);
        }),
        { numRuns: 20_000 },
      );
    });

  it('give the angle of a point as Node does', () => {
    fc.assert(
      fc.property(anyNumber, anyNumber, (y, x) => {
        const units = unitsBetween(atan2Of(y, x), Math.atan2(y, x));
        assert.ok(units <= (isSameSource ? 0 : 2), `atan2 of ${y}, ${x} is ${atan2Of(y, x)} and ${Math.atan2(y, x)}`);
      }),
      { numRuns: 20_000 },
    );
    for (const y of [0, -0, 1, -1, Infinity, -Infinity, NaN])
      for (const x of [0, -0, 1, -1, Infinity, -Infinity, NaN])
        assert.ok(Object.is(atan2Of(y, x), Math.atan2(y, x)), `atan2 of ${y}, ${x}`);
  });

  it('treat zeros and what is not finite as the engine does', () => {
    for (const [name, [ours, engine]] of Object.entries(functions))
      for (const x of [0, -0, Infinity, -Infinity, NaN, -2, 1.5])
        assert.ok(unitsBetween(ours(x), engine(x)) <= 1, `${name} of ${x} is ${ours(x)}`);
  });

  it('give these bits in every engine', () => {
    const bits = (value: number): string => new BigUint64Array(Float64Array.of(value).buffer)[0].toString(16);
    assert.deepEqual(
      [
        ...Object.values(functions).map(([ours]) => ours(0.7310585786300049)),
        atan2Of(0.3, -0.7),
        sinOf(1e22),
        cosOf(1e300),
      ].map(bits),
      [
        '40009e44242ca509',
        '3ff13c8848594a12',
        'bfd40c7abfbec124',
        '3fe18f38c0b8b0c4',
        'bfdcec9a4ae3df68',
        'bfc16a03d9b1b4f6',
        '3fe55d747e062c92',
        '3fe7d2aea980dbbe',
        '3fecb2cbd3bde1f4',
        '3fea3c6472afaf88',
        '3fe8079235d8aaa8',
        '4005e4c36ca0118a',
        'bfeb453ab76bf397',
        'bfe2699022adc4c1',
      ],
    );
  });

  it('are right where angles are large: published values of sin(10^22) and cos(10^22)', () => {
    // K. C. Ng, "Argument reduction for huge arguments: good to the last bit", 1992.
    assert.equal(sinOf(1e22), -0.8522008497671888);
    assert.ok(unitsBetween(cosOf(1e22), 0.5232147853951389) <= 1);
  });

  it('give whole logarithms of whole powers', () => {
    for (let n = -300; n <= 300; n++) assert.equal(log10Of(Number(`1e${n}`)), n);
    for (let n = -1074; n <= 1023; n++) assert.equal(log2Of(2 ** n), n);
  });
});
