/**
 * Values as text and bytes, and back: plain objects, arrays, maps, sets and typed arrays. What two places share they
 * share again afterwards, and every number comes back as it was.
 */

/** A part that plain JSON has no form for, under the key `$`. */
type Marked =
  | { readonly $: 'undefined' }
  | { readonly $: 'number'; readonly text: string }
  | { readonly $: 'object' | 'map'; readonly entries: readonly (readonly [unknown, unknown])[] }
  | { readonly $: 'set'; readonly items: readonly unknown[] }
  | {
      readonly $: 'typed';
      readonly type: string;
      readonly buffer: number;
      readonly from: number;
      readonly length: number;
    }
  | { readonly $: 'shared'; readonly id: number; readonly value: unknown }
  | { readonly $: 'same'; readonly id: number };

const typedArrays = {
  Float64Array,
  Float32Array,
  Int32Array,
  Uint32Array,
  Int16Array,
  Uint16Array,
  Int8Array,
  Uint8Array,
};
type TypedArray = InstanceType<(typeof typedArrays)[keyof typeof typedArrays]>;

/** A value as text, with the buffers that its typed arrays lie in. */
export interface Flat {
  readonly text: string;
  readonly buffers: readonly ArrayBufferLike[];
}

/** Puts a value down; undefined where some part of it is more than data, such as a function. */
export function flattened(value: unknown): Flat | undefined {
  const times = new Map<object, number>();
  if (!countIn(value, times)) return undefined;
  const ids = new Map<object, number>();
  const buffers = new Map<ArrayBufferLike, number>();
  const put = (part: unknown): unknown => {
    if (typeof part === 'number') return Number.isFinite(part) && !Object.is(part, -0) ? part : numberOf(part);
    if (part === undefined) return { $: 'undefined' } satisfies Marked;
    if (typeof part !== 'object' || part === null) return part;
    const known = ids.get(part);
    if (known !== undefined) return { $: 'same', id: known } satisfies Marked;
    if (times.get(part) === 1) return putObject(part, put, buffers);
    const id = ids.size;
    ids.set(part, id);
    return { $: 'shared', id, value: putObject(part, put, buffers) } satisfies Marked;
  };
  const text = JSON.stringify(put(value));
  return { text, buffers: [...buffers.keys()] };
}

const numberOf = (part: number): Marked => ({ $: 'number', text: Object.is(part, -0) ? '-0' : String(part) });

/** Counts how often each object is met; false where one is no data. */
function countIn(value: unknown, times: Map<object, number>): boolean {
  if (typeof value === 'function' || typeof value === 'symbol' || typeof value === 'bigint') return false;
  if (typeof value !== 'object' || value === null) return true;
  const before = times.get(value) ?? 0;
  times.set(value, before + 1);
  if (before > 0) return true;
  if (ArrayBuffer.isView(value)) return value.constructor.name in typedArrays;
  if (Array.isArray(value)) return value.every((part) => countIn(part, times));
  if (value instanceof Map) return [...value].every((entry) => entry.every((part) => countIn(part, times)));
  if (value instanceof Set) return [...value].every((part) => countIn(part, times));
  return (
    Object.getPrototypeOf(value) === Object.prototype && Object.values(value).every((part) => countIn(part, times))
  );
}

function putObject(
  part: object,
  put: (part: unknown) => unknown,
  buffers: Map<ArrayBufferLike, number>,
): Marked | unknown[] | Record<string, unknown> {
  if (ArrayBuffer.isView(part)) {
    const { buffer, byteOffset: from, length, constructor } = part as TypedArray;
    const index = buffers.get(buffer) ?? buffers.size;
    buffers.set(buffer, index);
    return { $: 'typed', type: constructor.name, buffer: index, from, length };
  }
  if (Array.isArray(part)) return part.map(put);
  if (part instanceof Map) return { $: 'map', entries: [...part].map(([key, value]) => [put(key), put(value)]) };
  if (part instanceof Set) return { $: 'set', items: [...part].map(put) };
  const entries = Object.entries(part).map(([key, value]) => [key, put(value)] as const);
  const isPlain = !('$' in part) && !Object.hasOwn(part, '__proto__');
  return isPlain ? Object.fromEntries(entries) : { $: 'object', entries };
}

/** The value that was put down. @param bufferOf the buffer of a number in `Flat.buffers` */
export function unflattened(text: string, bufferOf: (index: number) => ArrayBufferLike): unknown {
  const shared = new Map<number, unknown>();
  const take = (part: unknown): unknown => {
    if (typeof part !== 'object' || part === null) return part;
    if (Array.isArray(part)) {
      for (let i = 0; i < part.length; i++) part[i] = take(part[i]);
      return part;
    }
    if ('$' in part) return takeMarked(part as Marked, take, shared, bufferOf);
    const object = part as Record<string, unknown>;
    for (const key of Object.keys(object)) object[key] = take(object[key]);
    return object;
  };
  return take(JSON.parse(text));
}

function takeMarked(
  part: Marked,
  take: (part: unknown) => unknown,
  shared: Map<number, unknown>,
  bufferOf: (index: number) => ArrayBufferLike,
): unknown {
  switch (part.$) {
    case 'undefined':
      return undefined;
    case 'number':
      return Number(part.text);
    case 'object':
      return Object.fromEntries(part.entries.map(([key, value]) => [key, take(value)]));
    case 'map':
      return new Map(part.entries.map(([key, value]) => [take(key), take(value)]));
    case 'set':
      return new Set(part.items.map(take));
    case 'typed':
      return new typedArrays[part.type as keyof typeof typedArrays](
        bufferOf(part.buffer) as ArrayBuffer,
        part.from,
        part.length,
      );
    case 'shared': {
      const value = take(part.value);
      shared.set(part.id, value);
      return value;
    }
    case 'same':
      return shared.get(part.id);
  }
}
