import type { DimensionName } from './form.ts';

/** The unit that people of this trade would write for a dimension, for advice and completion; the first is the usual. */
export const usualUnits: Readonly<Record<DimensionName, readonly string[]>> = {
  time: ['s', 'ms', 'min'],
  frequency: ['Hz', 'kHz', 'rpm'],
  acceleration: ['g', 'm/s^2', 'mg', 'mm/s^2'],
  length: ['mm', 'm', 'km', 'in', 'mi'],
  mass: ['kg', 'lb', 'gram'],
  force: ['N', 'kgf', 'lbf'],
  stiffness: ['N/mm', 'N/m', 'kgf/mm', 'lbf/in'],
  pressure: ['kPa', 'Pa', 'bar', 'psi'],
  speed: ['km/h', 'm/s', 'mph', 'mm/s'],
  ratio: ['%'],
  level: ['dB'],
  angle: ['rad'],
  'angular velocity': ['rad/s'],
  any: [],
};

/** Empty where anything goes. */
export const usualUnit = (dimension: DimensionName): string => usualUnits[dimension][0] ?? '';
