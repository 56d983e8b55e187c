import { combine, dimensionOf } from './dimension.ts';
import type { Dimension } from './unit.ts';
import { standardGravity } from './unit.ts';

/** One unit without operators. */
export interface Atom {
  readonly symbol: string;
  readonly dimension: Dimension;
  /** Size in SI units. */
  readonly factor: number;
}

const time = dimensionOf('time');
const length = dimensionOf('length');
const mass = dimensionOf('mass');
const frequency = dimensionOf('frequency');
const acceleration = dimensionOf('acceleration');
const force = dimensionOf('force');
const pressure = dimensionOf('pressure');
const count: Dimension = { length: 0, mass: 0, time: 0, count: 1, level: 0, angle: 0 };

const poundForce = 4.4482216152605;
const inch = 0.0254;

/**
 * Symbol, dimension, size in SI units, further spellings. `g` is standard gravity, as everywhere in this trade; a
 * gram has to be written out. Sizes are exact: ISO 80000-3 and -4, and the international yard and pound (1959).
 */
const table: readonly (readonly [string, Dimension, number, ...string[]])[] = [
  ['s', time, 1, 'sec', 'second', 'seconds'],
  ['ms', time, 1e-3],
  ['µs', time, 1e-6, 'us'],
  ['ns', time, 1e-9],
  ['min', time, 60, 'minute', 'minutes'],
  ['h', time, 3600, 'hour', 'hours'],
  ['Hz', frequency, 1],
  ['kHz', frequency, 1e3],
  ['MHz', frequency, 1e6],
  ['mHz', frequency, 1e-3],
  ['rpm', frequency, 1 / 60],
  ['rad', dimensionOf('angle'), 1, 'radian', 'radians'],
  ['g', acceleration, standardGravity, 'gn', 'g0', 'g_n'],
  ['mg', acceleration, standardGravity * 1e-3, 'milli-g'],
  ['µg', acceleration, standardGravity * 1e-6, 'ug'],
  ['Gal', acceleration, 1e-2],
  ['m', length, 1],
  ['mm', length, 1e-3],
  ['µm', length, 1e-6, 'um'],
  ['cm', length, 1e-2],
  ['km', length, 1e3],
  ['in', length, inch, 'inch', 'inches'],
  ['ft', length, 0.3048],
  ['mi', length, 1609.344, 'mile', 'miles'],
  ['kg', mass, 1],
  ['gram', mass, 1e-3, 'grams'],
  ['lb', mass, 0.45359237, 'lbs'],
  ['N', force, 1],
  ['kN', force, 1e3],
  ['mN', force, 1e-3],
  ['kgf', force, standardGravity],
  ['lbf', force, poundForce],
  ['Pa', pressure, 1],
  ['hPa', pressure, 1e2],
  ['kPa', pressure, 1e3],
  ['MPa', pressure, 1e6],
  ['mbar', pressure, 1e2],
  ['bar', pressure, 1e5],
  ['psi', pressure, poundForce / inch ** 2],
  ['mph', combine(length, time, -1), 0.44704],
  ['%', dimensionOf('ratio'), 0.01, 'percent'],
  ['dB', dimensionOf('level'), 1],
  ['counts', count, 1, 'count', 'LSB'],
  // Doublings of a frequency, counted: a slope in dB an octave is no level.
  ['octave', count, 1, 'oct', 'octaves'],
];

export const atoms: ReadonlyMap<string, Atom> = new Map(
  table.flatMap(([symbol, dimension, factor, ...others]) =>
    [symbol, ...others].map((spelling) => [spelling, { symbol, dimension, factor }] as const),
  ),
);

/** Every unit's own symbol, without its further spellings. */
export const atomSymbols: readonly string[] = table.map(([symbol]) => symbol);

/** Compounds that people use, for completion and for advice. */
export const usualCompounds: readonly string[] = [
  'm/s^2',
  'mm/s^2',
  'm/s',
  'mm/s',
  'km/h',
  'rad/s',
  'N/mm',
  'N/m',
  'kgf/mm',
  'lbf/in',
  'g^2/Hz',
];
