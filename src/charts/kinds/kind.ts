import type { Part } from '../output.ts';
import type { Value, ValueOf } from '../../values/value.ts';

/** How one kind of value is shown. `name` is what it was bound to, if anything; `digits` are those of figures that do not set their own. */
export type Presenter<K extends Value['kind']> = (
  value: ValueOf<K>,
  name: string | undefined,
  digits: number | undefined,
) => readonly Part[];

/** The parts that there are. */
export const some = (...parts: readonly (Part | undefined)[]): Part[] => parts.filter((part) => part !== undefined);

export type Column = readonly [name: string, unit: string, align?: 'left' | 'right'];

/** A table's columns; figures stand to the right unless said. */
export const columns = (...list: readonly Column[]): { name: string; unit: string; align: 'left' | 'right' }[] =>
  list.map(([name, unit, align]) => ({ name, unit, align: align ?? 'right' }));
