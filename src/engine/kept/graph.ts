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
  /** An object that was met before, by its place in the order in which objects are met. */
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

/** A value as text in UTF-8, in pieces, with the buffers that its typed arrays lie in. */
export interface Flat {
  readonly text: readonly Uint8Array[];
  readonly buffers: readonly ArrayBufferLike[];
}

/** Puts a value down; undefined where some part of it is more than data, such as a function. */
export function flattened(value: unknown): Flat | undefined {
  const writer = new Writer();
  writer.put(value);
  return writer.isData ? { text: writer.pieces(), buffers: [...writer.buffers.keys()] } : undefined;
}

/**
 * Characters that become bytes together. A text that is added to is a tree of all that was added, which is too old when it is done to be
 * collected at little cost.
 */
const piece = 1 << 14;
const encoder = new TextEncoder();

/**
 * Writes the text of a value at once, in one go over it: a plain object for `JSON.stringify` would be made of each part first,
 * which takes longer than all the rest where a study keeps hundreds of recordings.
 */
class Writer {
  #text = '';
  readonly #pieces: Uint8Array[] = [];
  /** Whether all that was met is data. */
  isData = true;
  /** In the order in which they are met. */
  readonly buffers = new Map<ArrayBufferLike, number>();
  /** In the order in which they are met, as whoever reads the text meets them. */
  readonly #ids = new Map<object, number>();

  pieces(): readonly Uint8Array[] {
    this.#add('', 0);
    return this.#pieces;
  }

  put(part: unknown): void {
    if (typeof part === 'number') {
      if (Number.isFinite(part) && !Object.is(part, -0)) this.#add(String(part));
      else this.#mark({ $: 'number', text: Object.is(part, -0) ? '-0' : String(part) });
    } else if (typeof part === 'string') this.#add(JSON.stringify(part));
    else if (part === undefined) this.#mark({ $: 'undefined' });
    else if (typeof part === 'object' && part !== null) this.#object(part);
    else if (part === null || typeof part === 'boolean') this.#add(String(part));
    else this.isData = false;
  }

  #add(text: string, most = piece): void {
    this.#text += text;
    if (this.#text.length <= most) return;
    this.#pieces.push(encoder.encode(this.#text));
    this.#text = '';
  }

  /** Writes what has no further parts. */
  #mark(marked: Marked): void {
    this.#add(JSON.stringify(marked));
  }

  #object(part: object): void {
    const known = this.#ids.get(part);
    if (known !== undefined) return this.#mark({ $: 'same', id: known });
    this.#ids.set(part, this.#ids.size);
    this.#own(part);
  }

  #own(part: object): void {
    if (ArrayBuffer.isView(part)) return this.#typed(part as TypedArray);
    if (Array.isArray(part)) return this.#list(part);
    if (part instanceof Map) return this.#entries('map', part);
    if (part instanceof Set) {
      this.#add('{"$":"set","items":');
      this.#list(part);
      this.#add('}');
    } else if (Object.getPrototypeOf(part) !== Object.prototype) this.isData = false;
    else if ('$' in part || Object.hasOwn(part, '__proto__')) this.#entries('object', Object.entries(part));
    else this.#plain(part as Record<string, unknown>);
  }

  #typed({ buffer, byteOffset: from, length, constructor }: TypedArray): void {
    if (!(constructor.name in typedArrays)) this.isData = false;
    const index = this.buffers.get(buffer) ?? this.buffers.size;
    this.buffers.set(buffer, index);
    this.#mark({ $: 'typed', type: constructor.name, buffer: index, from, length });
  }

  #list(parts: Iterable<unknown>): void {
    let before = '[';
    for (const part of parts) {
      this.#add(before);
      before = ',';
      this.put(part);
    }
    this.#add(before === '[' ? '[]' : ']');
  }

  #entries(type: 'object' | 'map', entries: Iterable<readonly [unknown, unknown]>): void {
    this.#add(`{"$":"${type}","entries":[`);
    let before = '';
    for (const entry of entries) {
      this.#add(before);
      before = ',';
      this.#list(entry);
    }
    this.#add(']}');
  }

  #plain(part: Record<string, unknown>): void {
    let before = '{';
    for (const key of Object.keys(part)) {
      this.#add(before + quoted(key));
      before = ',';
      this.put(part[key]);
    }
    this.#add(before === '{' ? '{}' : '}');
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
export const unflattened = (text: string, bufferOf: (index: number) => ArrayBufferLike): unknown =>
  new Reader(bufferOf).take(JSON.parse(text));

/** Makes a value of what was parsed, which becomes a part of it where it is plain. */
class Reader {
  /** In the order in which they were met when the text was written. */
  readonly #objects: unknown[] = [];
  readonly #bufferOf: (index: number) => ArrayBufferLike;

  constructor(bufferOf: (index: number) => ArrayBufferLike) {
    this.#bufferOf = bufferOf;
  }

  readonly take = (part: unknown): unknown => {
    if (typeof part !== 'object' || part === null) return part;
    if (Array.isArray(part)) {
      this.#objects.push(part);
      for (let i = 0; i < part.length; i++) if (typeof part[i] === 'object') part[i] = this.take(part[i]);
      return part;
    }
    if ('$' in part) return this.#takeMarked(part as Marked);
    this.#objects.push(part);
    const object = part as Record<string, unknown>;
    // What was parsed has nothing but properties of its own.
    for (const key in object) if (typeof object[key] === 'object') object[key] = this.take(object[key]);
    return object;
  };

  #takeMarked(part: Marked): unknown {
    if (part.$ === 'undefined') return undefined;
    if (part.$ === 'number') return Number(part.text);
    if (part.$ === 'same') return this.#objects[part.id];
    const id = this.#objects.push(undefined) - 1;
    const made = this.#made(part);
    this.#objects[id] = made;
    return made;
  }

  #made(part: Exclude<Marked, { readonly $: 'undefined' | 'number' | 'same' }>): object {
    switch (part.$) {
      case 'object':
        return Object.fromEntries(part.entries.map(([key, value]) => [key, this.take(value)])) as object;
      case 'map':
        return new Map(part.entries.map(([key, value]) => [this.take(key), this.take(value)]));
      case 'set':
        return new Set(part.items.map(this.take));
      case 'typed': {
        const { type, buffer, from, length } = part;
        return new typedArrays[type as keyof typeof typedArrays](this.#bufferOf(buffer) as ArrayBuffer, from, length);
      }
    }
  }
}
