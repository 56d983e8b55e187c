import type { FunctionForm } from '../language/checked.ts';
import { inParallel, inSeries, massOnSpring, overMovingBase, rotationRate } from '../analysis/mechanics.ts';
import { convert, inSI, quantity, root } from '../units/arithmetic.ts';
import { correlatedWith, correlationOf, evaluatedWith } from '../analysis/uncertainty.ts';
import { isNumber, sameDimension, type NamedDimension } from '../units/dimension.ts';
import type { Quantity } from '../units/unit.ts';
import type { QuantityValue } from '../values/quantity.ts';
import { success, type Refused, type Result } from '../result/result.ts';
import { refuse } from './messages.ts';
import { log10Of } from '../numbers/logarithm.ts';
import { cosOf, sinOf } from '../numbers/trigonometry.ts';

type Evaluated = Result<QuantityValue>;

/** A function of the language's expressions; its arguments have been held against its form. */
export interface NamedFunction {
  readonly form: FunctionForm;
  readonly evaluate: (given: readonly Quantity[]) => Evaluated;
  /** Of a function of the uncertainties themselves. @param input what an input of its own is called */
  readonly ofUncertain?: (given: readonly QuantityValue[], input: string) => Evaluated;
}

/** What a function gives, with the uncertainty that its arguments give it. @param input what an input of its own is called */
export const evaluateFunction = (
  { evaluate, ofUncertain }: NamedFunction,
  given: readonly QuantityValue[],
  input: string,
): Evaluated => ofUncertain?.(given, input) ?? evaluatedWith(evaluate, given);

const value = (found: Quantity): Evaluated =>
  Number.isFinite(found.value) ? success({ kind: 'quantity', quantity: found }) : refuse('arithmetic.finite', {});

interface Shape {
  readonly name: string;
  readonly summary: string;
  readonly parameters: readonly (readonly [name: string, doc: string, dimension?: NamedDimension])[];
  readonly variadic?: boolean;
  readonly gives?: FunctionForm['gives'];
  readonly example: string;
  readonly compute: NamedFunction['evaluate'];
  readonly ofUncertain?: NamedFunction['ofUncertain'];
}

function define({
  name,
  summary,
  parameters,
  variadic = false,
  gives,
  example,
  compute,
  ofUncertain,
}: Shape): NamedFunction {
  const form: FunctionForm = {
    name,
    summary,
    ...(gives === undefined ? {} : { gives }),
    parameters: parameters.map(([parameter, doc, dimension]) => ({
      name: parameter,
      doc,
      ...(dimension === undefined ? {} : { dimension }),
    })),
    variadic,
    example,
  };
  return { form, evaluate: compute, ...(ofUncertain === undefined ? {} : { ofUncertain }) };
}

/** Why quantities can't be compared with each other. */
function whyUnlike(name: string, given: readonly Quantity[]): Refused | undefined {
  const [one, ...rest] = given.map(({ unit: { dimension } }) => dimension);
  const other = rest.find((dimension) => !sameDimension(dimension, one));
  return other === undefined ? undefined : refuse('unit.dimension', { function: name, one, other });
}

const whyNotPositive = (name: string, given: readonly Quantity[]): Refused | undefined =>
  given.every((one) => one.value > 0) ? undefined : refuse('function.range', { function: name, zero: false });

const least = (a: Quantity, b: Quantity): Quantity => (inSI(b) < inSI(a) ? (convert(b, a.unit) ?? b) : a);
const most = (a: Quantity, b: Quantity): Quantity => (inSI(b) > inSI(a) ? (convert(b, a.unit) ?? b) : a);

function correlatedQuantity([of, ...rest]: readonly QuantityValue[], input: string): Evaluated {
  const why = (reason: 'pairs' | 'exact' | 'freedom' | 'impossible'): Refused =>
    refuse('correlated.words', { why: reason });
  const others = rest.flatMap((one, k) =>
    k % 2 === 0 ? [] : [{ value: one, coefficient: inSI(rest[k - 1].quantity) }],
  );
  const isPair = ({ value: { parts = [] }, coefficient }: (typeof others)[number]): boolean =>
    Math.abs(coefficient) <= 1 && parts.length > 0;
  const coefficients = rest.filter((_, k) => k % 2 === 0);
  if (rest.length % 2 === 1 || coefficients.some(({ quantity: { unit } }) => !isNumber(unit.dimension)))
    return why('pairs');
  if (others.some(({ coefficient }) => Math.abs(coefficient) > 1)) return why('pairs');
  if (of.parts === undefined || !others.every(isPair)) return why('exact');
  const all = [of, ...others.map((other) => other.value)].flatMap(({ parts = [] }) => parts);
  if (all.some(({ df }) => Number.isFinite(df))) return why('freedom');
  const found = correlatedWith(of, others, input);
  return found === undefined ? why('impossible') : success(found);
}

export const functions: readonly NamedFunction[] = [
  define({
    name: 'sqrt',
    gives: 'root',
    summary: 'The square root, units and all.',
    parameters: [['value', 'At least 0.']],
    example: 'sqrt(2)',
    compute: ([one]) => (one.value < 0 ? refuse('function.range', { function: 'sqrt', zero: true }) : value(root(one))),
  }),
  define({
    name: 'abs',
    gives: 'same',
    summary: 'The size without its sign.',
    parameters: [['value', 'Any quantity.']],
    example: 'abs(-3 mm)',
    compute: ([one]) => value({ ...one, value: Math.abs(one.value) }),
  }),
  define({
    name: 'min',
    gives: 'same',
    summary: 'The smallest of like quantities.',
    parameters: [['values', 'Quantities of one dimension.']],
    variadic: true,
    example: 'min(3 mm, 1 cm)',
    compute: (given) => whyUnlike('min', given) ?? value(given.reduce(least)),
  }),
  define({
    name: 'max',
    gives: 'same',
    summary: 'The largest of like quantities.',
    parameters: [['values', 'Quantities of one dimension.']],
    variadic: true,
    example: 'max(3 mm, 1 cm)',
    compute: (given) => whyUnlike('max', given) ?? value(given.reduce(most)),
  }),
  define({
    name: 'log10',
    gives: 'ratio',
    summary: 'The decimal logarithm of a plain number above 0.',
    parameters: [['value', 'A plain number.', 'ratio']],
    example: 'log10(0.85)',
    compute: ([one]) => whyNotPositive('log10', [one]) ?? value(quantity(log10Of(inSI(one)), '')),
  }),
  define({
    name: 'series',
    gives: 'stiffness',
    summary: 'The stiffness of springs one after the other: 1/k = 1/k1 + 1/k2 + …',
    parameters: [['stiffnesses', 'Stiffnesses of the springs.', 'stiffness']],
    variadic: true,
    example: 'series(400 N/mm, 100 N/mm)',
    compute: (given) => whyNotPositive('series', given) ?? value(inSeries(given)),
  }),
  define({
    name: 'parallel',
    gives: 'stiffness',
    summary: 'The stiffness of springs side by side: k = k1 + k2 + …',
    parameters: [['stiffnesses', 'Stiffnesses of the springs.', 'stiffness']],
    variadic: true,
    example: 'parallel(10 N/mm, 10 N/mm)',
    compute: (given) => whyNotPositive('parallel', given) ?? value(inParallel(given)),
  }),
  define({
    name: 'natural_frequency',
    gives: 'frequency',
    summary: 'The undamped natural frequency sqrt(k/m) / 2π of a mass on a spring, in Hz.',
    parameters: [
      ['k', 'Stiffness of the spring.', 'stiffness'],
      ['m', 'Mass on it.', 'mass'],
    ],
    example: 'natural_frequency(100 N/mm, 70 kg)',
    compute: ([k, m]) => whyNotPositive('natural_frequency', [k, m]) ?? value(massOnSpring(k, m)),
  }),
  define({
    name: 'rotation_rate',
    gives: 'frequency',
    summary: 'Turns a second of a wheel that rolls: speed / circumference, in Hz.',
    parameters: [
      ['speed', 'Speed over ground.', 'speed'],
      ['circumference', 'Rolling circumference.', 'length'],
    ],
    example: 'rotation_rate(5 km/h, 1.9 m)',
    compute: ([speed, circumference]) =>
      whyNotPositive('rotation_rate', [circumference]) ?? value(rotationRate(speed, circumference)),
  }),
  define({
    name: 'decibels',
    gives: 'level',
    summary: 'The level in dB of a ratio of amplitudes, 20 log10(ratio).',
    parameters: [['ratio', 'A ratio of amplitudes above 0.', 'ratio']],
    example: 'decibels(0.85)',
    compute: ([one]) => whyNotPositive('decibels', [one]) ?? value(quantity(20 * log10Of(inSI(one)), 'dB')),
  }),
  define({
    name: 'transmissibility',
    gives: 'ratio',
    summary:
      'Of a mass on a damped spring over a moving base, sqrt((1+(2ζr)²) / ((1−r²)²+(2ζr)²)) with r = frequency / natural frequency.',
    parameters: [
      ['frequency', 'Frequency of the base’s motion.', 'frequency'],
      ['natural', 'Natural frequency of the mass on its spring.', 'frequency'],
      ['damping', 'Damping ratio, at least 0.', 'ratio'],
    ],
    example: 'transmissibility(20 Hz, 6 Hz, 10 %)',
    compute: ([frequency, natural, damping]) =>
      whyNotPositive('transmissibility', [natural]) ?? value(overMovingBase(frequency, natural, damping)),
  }),
  define({
    name: 'cos',
    gives: 'ratio',
    summary: 'The cosine of an angle.',
    parameters: [['angle', 'In rad.', 'ratio']],
    example: 'cos(pi / 3)',
    compute: ([one]) => value(quantity(cosOf(inSI(one)), '')),
  }),
  define({
    name: 'sin',
    gives: 'ratio',
    summary: 'The sine of an angle.',
    parameters: [['angle', 'In rad.', 'ratio']],
    example: 'sin(pi / 6)',
    compute: ([one]) => value(quantity(sinOf(inSI(one)), '')),
  }),
  define({
    name: 'correlated',
    gives: 'same',
    summary:
      'A quantity whose uncertainty is correlated with others, by a coefficient with each (JCGM 100:2008, 5.2.2). What is made of one name more than once is correlated without it.',
    parameters: [
      ['quantity', 'What is correlated.'],
      ['coefficient', 'From -1 to 1.', 'ratio'],
      ['with', 'With what; further pairs may follow.'],
    ],
    variadic: true,
    example: 'correlated(5 ± 0.1 mm, 0.8, 7 ± 0.2 mm)',
    compute: ([one]) => value(one),
    ofUncertain: correlatedQuantity,
  }),
  define({
    name: 'correlation',
    gives: 'ratio',
    summary: 'The coefficient of correlation of two quantities, from the inputs that they share.',
    parameters: [
      ['a', 'A quantity with its uncertainty.'],
      ['b', 'Another.'],
    ],
    example: 'correlation(5 ± 0.1 mm, 7 ± 0.2 mm)',
    compute: () => refuse('correlation.exact', {}),
    ofUncertain: ([a, b]) => {
      const found = correlationOf(a, b);
      return Number.isFinite(found) ? value(quantity(found, '')) : refuse('correlation.exact', {});
    },
  }),
];

const byName = new Map(functions.map((one) => [one.form.name, one]));

export const functionNamed = (name: string): NamedFunction | undefined => byName.get(name);
