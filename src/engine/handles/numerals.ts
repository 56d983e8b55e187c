import { callsIn } from '../../language/services/calls.ts';
import type { LiteralSlot } from '../../charts/handle.ts';
import type { CheckedNotebook } from '../../language/check.ts';
import type { Checked, CheckedArgument, CheckedArguments, CheckedStatement } from '../../language/checked.ts';
import type { Place } from '../../language/diagnostic.ts';
import { childrenOf, type Amount, type Node, type Pipeline, type Range } from '../../language/tree.ts';
import type { Quantity, Unit } from '../../units/unit.ts';

/** A number that stands in a cell as such, and what it is to the text. */
export interface Numeral {
  readonly cell: number;
  /** Of the number alone. */
  readonly place: Place;
  readonly text: string;
  readonly quantity: Quantity;
  readonly unit: Unit;
  readonly slot: LiteralSlot;
}

/** Every number that stands in a cell as an argument by itself, or is bound to a name. */
export function numeralsIn(notebook: CheckedNotebook, cell: number): Numeral[] {
  return notebook.statements
    .filter((statement) => statement.cell === cell)
    .flatMap((statement) => numeralsOf(notebook, statement));
}

function numeralsOf(notebook: CheckedNotebook, statement: CheckedStatement): Numeral[] {
  const { expression } = statement;
  if (expression === undefined) return [];
  const bound = boundNumeral(notebook, statement);
  return [
    ...(bound === undefined ? [] : [bound]),
    ...callsIn(expression).flatMap((call) => inCall(notebook, statement, call)),
  ];
}

/** The number that a statement binds to its name, where it binds nothing else. */
export function boundNumeral(notebook: CheckedNotebook, statement: CheckedStatement): Numeral | undefined {
  const { expression, name } = statement;
  if (expression?.type !== 'quantity' || name === undefined) return undefined;
  return numeralAt(notebook, statement, expression, { verb: '', slot: '', entry: 0, part: 0 });
}

export type Call = Extract<Checked, { type: 'call' }>;

/** The numbers that stand under one name of a call, by entry and part; undefined for an entry's part that is no number. */
export function numeralsUnder(
  notebook: CheckedNotebook,
  statement: CheckedStatement,
  { verb }: Call,
  slot: string,
  given: readonly CheckedArgument[],
): (readonly (Numeral | undefined)[])[] {
  return given.map((argument, entry) =>
    partsOf(argument).map((part, index) => numeralAt(notebook, statement, part, { verb, slot, entry, part: index })),
  );
}

function inCall(notebook: CheckedNotebook, statement: CheckedStatement, call: Call): Numeral[] {
  const under = (given: CheckedArguments): Numeral[] =>
    Object.entries(given).flatMap(([slot, list]) =>
      numeralsUnder(notebook, statement, call, slot, list)
        .flat()
        .filter((numeral) => numeral !== undefined),
    );
  return [...under(call.operands), ...under(call.options)];
}

/** Something that may be one number: a quantity, an end of a range. */
type Part =
  | { readonly type: 'quantity'; readonly quantity: Quantity; readonly place: Place; readonly end?: 'from' | 'to' }
  | undefined;

function partsOf(argument: CheckedArgument): Part[] {
  switch (argument.type) {
    case 'quantity':
      return [argument];
    case 'range': {
      const end = (which: 'from' | 'to'): Part => ({
        type: 'quantity',
        quantity: argument[which],
        place: argument.place,
        end: which,
      });
      return [end('from'), end('to')];
    }
    case 'group':
      return argument.parts.map((part) => (part.type === 'quantity' ? part : undefined));
    case 'binary':
    case 'call':
    case 'convert':
    case 'coverage':
    case 'uncertain':
    case 'field':
    case 'function':
    case 'name':
    case 'negative':
    case 'pick':
    case 'text':
    case 'unit':
    case 'word':
      return [];
  }
}

function numeralAt(
  { cells }: CheckedNotebook,
  { cell, name }: CheckedStatement,
  part: Part,
  slot: Omit<LiteralSlot, 'name'>,
): Numeral | undefined {
  if (part === undefined) return undefined;
  const { text, statements } = cells[cell];
  const amount = statements.flatMap(({ pipeline }) => amountAt(pipeline, part) ?? []).at(0);
  if (amount === undefined) return undefined;
  const { number } = amount;
  return {
    cell,
    place: number,
    text: text.slice(number.from, number.to),
    quantity: part.quantity,
    unit: part.quantity.unit,
    slot: { ...slot, name: name?.text ?? '' },
  };
}

/** The amount that stands at a place, or as one end of the range there. */
function amountAt(node: Node | Pipeline, part: NonNullable<Part>): Amount | undefined {
  const { place } = part;
  if (node.place.to < place.from || node.place.from > place.to) return undefined;
  if ('type' in node && node.place.from === place.from && node.place.to === place.to) {
    const found = node.type === 'range' && part.end !== undefined ? node[part.end] : node;
    if (found.type === 'number') return found;
    if (node.type === 'range') return undefined;
  }
  for (const child of childrenOf(node)) {
    const found = amountAt(child, part);
    if (found !== undefined) return found;
  }
  return undefined;
}

/** The names that stand as the ends of the range at a place of a statement's cell. */
export function namesOfEnds(
  { cells }: CheckedNotebook,
  { cell }: CheckedStatement,
  place: Place,
): readonly (string | undefined)[] {
  const range = cells[cell].statements.flatMap(({ pipeline }) => rangeAt(pipeline, place) ?? []).at(0);
  return [range?.from, range?.to].map((end) => (end?.type === 'word' ? end.text : undefined));
}

function rangeAt(node: Node | Pipeline, place: Place): Range | undefined {
  if (node.place.to < place.from || node.place.from > place.to) return undefined;
  if ('type' in node && node.type === 'range' && node.place.from === place.from && node.place.to === place.to)
    return node;
  for (const child of childrenOf(node)) {
    const found = rangeAt(child, place);
    if (found !== undefined) return found;
  }
  return undefined;
}
