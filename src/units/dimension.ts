import type { Dimension } from './unit.ts';

const bases = ['length', 'mass', 'time', 'count', 'level', 'angle'] as const;

const dimension = (length = 0, mass = 0, time = 0, count = 0, level = 0, angle = 0): Dimension => ({
  length,
  mass,
  time,
  count,
  level,
  angle,
});

/** Of a plain number. */
export const dimensionless: Dimension = dimension();

/** The dimensions that have a name in the forms of verbs, with the unit that a result of that kind is shown in. */
const named = {
  time: { dimension: dimension(0, 0, 1), unit: 's' },
  frequency: { dimension: dimension(0, 0, -1), unit: 'Hz' },
  acceleration: { dimension: dimension(1, 0, -2), unit: 'm/s^2' },
  length: { dimension: dimension(1), unit: 'm' },
  mass: { dimension: dimension(0, 1), unit: 'kg' },
  force: { dimension: dimension(1, 1, -2), unit: 'N' },
  stiffness: { dimension: dimension(0, 1, -2), unit: 'N/m' },
  pressure: { dimension: dimension(-1, 1, -2), unit: 'Pa' },
  speed: { dimension: dimension(1, 0, -1), unit: 'm/s' },
  ratio: { dimension: dimensionless, unit: '' },
  level: { dimension: dimension(0, 0, 0, 0, 1), unit: 'dB' },
  angle: { dimension: dimension(0, 0, 0, 0, 0, 1), unit: 'rad' },
  'angular velocity': { dimension: dimension(0, 0, -1, 0, 0, 1), unit: 'rad/s' },
} as const;

export type NamedDimension = keyof typeof named;

export const namedDimensions = Object.keys(named) as readonly NamedDimension[];

export const dimensionOf = (name: NamedDimension): Dimension => named[name].dimension;

/** The symbol of the unit that a result of this dimension is shown in: `N/m` for a stiffness. */
export const preferredSymbol = (name: NamedDimension): string => named[name].unit;

export const sameDimension = (a: Dimension, b: Dimension): boolean =>
  bases.every((base) => Math.abs(a[base] - b[base]) < 1e-9);

export const isDimensionless = (a: Dimension): boolean => sameDimension(a, dimensionless);

/** Whether of a plain number or of an angle, which is a plain number wherever nothing turns. */
export const isNumber = (a: Dimension): boolean => isDimensionless(withoutAngle(a));

export const withoutAngle = (a: Dimension): Dimension => ({ ...a, angle: 0 });

/** Whether of time and angle alone, as rad/s: there the radian tells an angular velocity from a frequency. */
export const isTurning = ({ length, mass, count, level }: Dimension): boolean =>
  [length, mass, count, level].every((exponent) => Math.abs(exponent) < 1e-9);

/** Of Hz^2, and of k/m: its square root may be a frequency or an angular velocity. */
export const isSquaredRate = (a: Dimension): boolean => sameDimension(a, dimension(0, 0, -2));

/** What a product of such a dimension measures: beside a length or a mass the radian has done its work, and v = ω x is a speed. */
export const settled = (a: Dimension): Dimension => (isTurning(a) ? a : withoutAngle(a));

/** a times b to the given power. */
export function combine(a: Dimension, b: Dimension, exponent: number): Dimension {
  const [length, mass, time, count, level, angle] = bases.map((base) => a[base] + exponent * b[base]);
  return dimension(length, mass, time, count, level, angle);
}

export const raise = (a: Dimension, exponent: number): Dimension => combine(dimensionless, a, exponent);

/** The exponent r with a = b to the power r, or undefined where there is none. */
export function exponentOver(a: Dimension, b: Dimension): number | undefined {
  const base = bases.find((name) => b[name] !== 0);
  if (!base) return undefined;
  const ratio = a[base] / b[base];
  return ratio !== 0 && sameDimension(a, raise(b, ratio)) ? ratio : undefined;
}

export const nameOfDimension = (a: Dimension): NamedDimension | undefined =>
  namedDimensions.find((name) => sameDimension(a, named[name].dimension));

/** Each dimension in words, with its article. */
export const withArticle: Readonly<Record<NamedDimension, string>> = {
  time: 'a time',
  frequency: 'a frequency',
  acceleration: 'an acceleration',
  length: 'a length',
  mass: 'a mass',
  force: 'a force',
  stiffness: 'a stiffness',
  pressure: 'a pressure',
  speed: 'a speed',
  ratio: 'a plain number or percentage',
  level: 'a level in dB',
  angle: 'an angle',
  'angular velocity': 'an angular velocity',
};

/** In words, with its article: `a stiffness`; for a dimension without a name, in base units. */
export function describeDimension(a: Dimension): string {
  const name = nameOfDimension(a);
  if (name) return withArticle[name];
  const symbols = { length: 'm', mass: 'kg', time: 's', count: 'counts', level: 'dB', angle: 'rad' };
  const terms = bases
    .filter((base) => a[base] !== 0)
    .map((base) => (a[base] === 1 ? symbols[base] : `${symbols[base]}^${Number(a[base].toFixed(4))}`));
  return `a quantity in ${terms.join('*')}`;
}
