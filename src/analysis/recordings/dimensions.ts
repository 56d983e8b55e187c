import type { Unit } from '../../units/unit.ts';

/** Whether a channel in this unit can be read as an acceleration. */
export function isAcceleration({ dimension }: Unit): boolean {
  return (
    dimension.length === 1 &&
    dimension.time === -2 &&
    dimension.mass === 0 &&
    dimension.count === 0 &&
    dimension.level === 0
  );
}
