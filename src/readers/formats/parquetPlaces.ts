import type { Element } from './parquetColumns.ts';

/** A group of rows as the file's end describes it: a chunk of each column that has no others in it. */
interface RowGroup {
  readonly columns: readonly { readonly meta_data?: { readonly path_in_schema: string[] } }[];
}

/** A column as it is told, and the name by which the library is asked for it. */
export interface Named {
  readonly element: Element;
  readonly name: string;
}

/** The columns that hold one value a row, and the first of each nested one so that it can be named. */
export function flatOf(elements: readonly Element[]): Element[] {
  const flat: Element[] = [];
  for (let i = 0; i < elements.length; i++) {
    flat.push(elements[i]);
    i = endOf(elements, i) - 1;
  }
  return flat;
}

/** Index behind the last element that lies in the one at an index. */
function endOf(elements: readonly Element[], at: number): number {
  let end = at + 1;
  for (let inside = elements[at].num_children ?? 0; inside > 0 && end < elements.length; end++)
    inside += (elements[end].num_children ?? 0) - 1;
  return end;
}

/**
 * Names columns by their place where several have one name, in the schema and in all groups, for the library asks for columns by
 * name and would give the first of them for each. Throws where the chunks of a group are not those of the schema.
 * @param groups as the file states them, which are changed
 * @param elements of the schema without its root, which are changed
 */
export function namedByPlace(groups: readonly RowGroup[], elements: Element[]): Named[] {
  const flat = flatOf(elements);
  if (new Set(flat.map(({ name }) => name)).size === flat.length)
    return flat.map((element) => ({ element, name: element.name }));
  const owners = elements.flatMap((element, at) => (isLeaf(element) ? [ownerOf(elements, at)] : []));
  for (const { columns } of groups) {
    if (columns.length !== owners.length) throw new Error('a group of rows has not the columns of the schema');
    for (const [k, { meta_data: chunk }] of columns.entries()) {
      if (chunk?.path_in_schema[0] !== elements[owners[k]].name) throw new Error('columns are not in their order');
      chunk.path_in_schema[0] = String(owners[k]);
    }
  }
  return flat.map((element) => {
    const name = String(elements.indexOf(element));
    const named = { element: { ...element }, name };
    (element as { name: string }).name = name;
    return named;
  });
}

const isLeaf = (element: Element): boolean => (element.num_children ?? 0) === 0;

/** Index of the column of the first level that an element lies in, or is. */
function ownerOf(elements: readonly Element[], at: number): number {
  let owner = 0;
  for (let next = endOf(elements, 0); next <= at; next = endOf(elements, next)) owner = next;
  return owner;
}

/** Spans of rows that were taken, in any order. */
export class Spans {
  readonly #spans: [from: number, length: number][] = [];

  add(from: number, length: number): void {
    this.#spans.push([from, length]);
  }

  /** Whether they are all of so many rows, each of them once. */
  fill(rows: number): boolean {
    let next = 0;
    for (const [from, length] of this.#spans.sort(([one], [other]) => one - other)) {
      if (from !== next) return false;
      next += length;
    }
    return next === rows;
  }
}
