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
  const writer = new Writer(times);
  writer.put(value);
  return { text: writer.text, buffers: [...writer.buffers.keys()] };
}

/** Counts how often each object is met; false where one is no data. */
function countIn(value: unknown, times: Map<object, number>): boolean {
  if (typeof value === 'function' || typeof value === 'symbol' || typeof value === 'bigint') return false;
  if (typeof value !== 'object' || value === null) return true;
  const before = times.get(value) ?? 0;
  times.set(value, before + 1);
  if (before > 0) return true;
  if (ArrayBuffer.isView(value)) return value.constructor.name in typedArrays;
  if (Array.isArray(value) || value instanceof Set) return countInAll(value, times);
  if (value instanceof Map) return countInAll(value.keys(), times) && countInAll(value.values(), times);
  if (Object.getPrototypeOf(value) !== Object.prototype) return false;
  for (const key of Object.keys(value)) if (!countIn((value as Record<string, unknown>)[key], times)) return false;
  return true;
}

function countInAll(parts: Iterable<unknown>, times: Map<object, number>): boolean {
  for (const part of parts) if (!countIn(part, times)) return false;
  return true;
}

/**
 * Writes the text of a value at once: a plain object for `JSON.stringify` would be made of each part first, which takes longer than
 * all the rest where a study keeps hundreds of recordings.
 */
class Writer {
  text = '';
  /** In the order in which they are met. */
  readonly buffers = new Map<ArrayBufferLike, number>();
  readonly #times: ReadonlyMap<object, number>;
  readonly #ids = new Map<object, number>();

  /** @param times how often each object is met */
  constructor(times: ReadonlyMap<object, number>) {
    this.#times = times;
  }

  put(part: unknown): void {
    if (typeof part === 'number') {
      if (Number.isFinite(part) && !Object.is(part, -0)) this.text += part;
      else this.#mark({ $: 'number', text: Object.is(part, -0) ? '-0' : String(part) });
    } else if (typeof part === 'string') this.text += JSON.stringify(part);
    else if (part === undefined) this.#mark({ $: 'undefined' });
    else if (typeof part === 'object' && part !== null) this.#object(part);
    else this.text += JSON.stringify(part);
  }

  /** Writes what has no further parts. */
  #mark(marked: Marked): void {
    this.text += JSON.stringify(marked);
  }

  #object(part: object): void {
    const known = this.#ids.get(part);
    if (known !== undefined) return this.#mark({ $: 'same', id: known });
    if (this.#times.get(part) === 1) return this.#own(part);
    const id = this.#ids.size;
    this.#ids.set(part, id);
    this.text += `{"$":"shared","id":${id},"value":`;
    this.#own(part);
    this.text += '}';
  }

  #own(part: object): void {
    if (ArrayBuffer.isView(part)) return this.#typed(part as TypedArray);
    if (Array.isArray(part)) return this.#list(part);
    if (part instanceof Map) return this.#entries('map', part);
    if (part instanceof Set) {
      this.text += '{"$":"set","items":';
      this.#list(part);
      this.text += '}';
    } else if ('$' in part || Object.hasOwn(part, '__proto__')) this.#entries('object', Object.entries(part));
    else this.#plain(part as Record<string, unknown>);
  }

  #typed({ buffer, byteOffset: from, length, constructor }: TypedArray): void {
    const index = this.buffers.get(buffer) ?? this.buffers.size;
    this.buffers.set(buffer, index);
    this.#mark({ $: 'typed', type: constructor.name, buffer: index, from, length });
  }

  #list(parts: Iterable<unknown>): void {
    let before = '[';
    for (const part of parts) {
      this.text += before;
      before = ',';
      this.put(part);
    }
    this.text += before === '[' ? '[]' : ']';
  }

  #entries(type: 'object' | 'map', entries: Iterable<readonly [unknown, unknown]>): void {
    this.text += `{"$":"${type}","entries":[`;
    let before = '';
    for (const entry of entries) {
      this.text += before;
      before = ',';
      this.#list(entry);
    }
    this.text += ']}';
  }

  #plain(part: Record<string, unknown>): void {
    let before = '{';
    for (const key of Object.keys(part)) {
      this.text += before + quoted(key);
      before = ',';
      this.put(part[key]);
    }
    this.text += before === '{' ? '{}' : '}';
  }
}

/** Names of properties as they stand before their values; there are few, and each is met in every part. */
const names = new Map<string, string>();

function quoted(key: string): string {
  const known = names.get(key);
  if (known !== undefined) return known;
  const made = `${JSON.stringify(key)}:`;
  // Of maps that are objects, any number may come.
  if (names.size < 1000) names.set(key, made);
  return made;
}

/** The value that was put down. @param bufferOf the buffer of a number in `Flat.buffers` */
export function unflattened(text: string, bufferOf: (index: number) => ArrayBufferLike): unknown {
  const shared = new Map<number, unknown>();
  const take = (part: unknown): unknown => {
    if (typeof part !== 'object' || part === null) return part;
    if (Array.isArray(part)) {
      for (let i = 0; i < part.length; i++) if (typeof part[i] === 'object') part[i] = take(part[i]);
      return part;
    }
    if ('$' in part) return takeMarked(part as Marked, take, shared, bufferOf);
    const object = part as Record<string, unknown>;
    // What was parsed has nothing but properties of its own.
    for (const key in object) if (typeof object[key] === 'object') object[key] = take(object[key]);
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
