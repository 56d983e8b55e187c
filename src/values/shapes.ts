import type { Json } from './jsonNumbers.ts';

/** A JSON Schema, draft 2020-12. */
export type Schema = { readonly [key: string]: Json };

/** What stands in one place of JSON; each may be null where there is nothing. */
export type Shape = 'text' | 'number' | 'flag' | 'scalar' | 'texts' | 'numbers' | 'flags' | 'rows' | 'any' | 'parts';

const one = { text: 'string', number: 'number', flag: 'boolean' } as const;
const orNull = (type: string): Schema => ({ type: [type, 'null'] });
const listOf = (items: Schema): Schema => ({ type: ['array', 'null'], items });

const schemas: { readonly [S in Shape]: Schema } = {
  text: orNull(one.text),
  number: orNull(one.number),
  flag: orNull(one.flag),
  scalar: { type: ['number', 'string', 'boolean', 'null'] },
  texts: listOf(orNull(one.text)),
  numbers: listOf(orNull(one.number)),
  flags: listOf(orNull(one.flag)),
  rows: listOf({ type: 'object' }),
  parts: orNull('object'),
  any: {},
};

export const shaped = (shape: Shape): Schema => schemas[shape];

/** An object with exactly these keys, of which all are there unless said. */
export const exactly = (properties: Readonly<Record<string, Schema>>, optional: readonly string[] = []): Schema => ({
  type: 'object',
  properties,
  required: Object.keys(properties).filter((key) => !optional.includes(key)),
  additionalProperties: false,
});
