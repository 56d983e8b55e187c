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

const powersOfTime: Readonly<Record<number, string>> = { [-2]: 'acceleration', [-1]: 'velocity', 0: 'displacement' };

/** What is measured in this unit, in one word: acceleration, velocity or displacement; nothing of any other. */
export function quantityOf({ dimension }: Unit): readonly [string] | readonly [] {
  const { length, mass, count, level, time } = dimension;
  const name = length === 1 && mass === 0 && count === 0 && level === 0 ? powersOfTime[time] : undefined;
  return name === undefined ? [] : [name];
}
