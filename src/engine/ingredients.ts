import type { Checked, CheckedArgument, CheckedArguments, CheckedStatement } from '../language/checked.ts';
import type { CellName } from '../language/cellName.ts';

/** One statement that a cell's content key was made of: of a step what stands in itself, without the steps before it. */
export interface Ingredient {
  /** The name that it binds; of a statement of the cell itself that binds none its place in the cell, as `#0`. */
  readonly statement: string;
  /** Index of its cell, and what a reader finds that by. */
  readonly cell: number;
  readonly name: CellName;
  readonly steps: readonly { readonly verb: string; readonly text: string }[];
  /** Raw files with their hashes. */
  readonly files: readonly (readonly [path: string, sha256: string])[];
  /** Where the project's history stands, if it is told. */
  readonly head?: string;
}

/** Something that has changed since a cell was run; `own` where it is in the cell itself. */
export type Change =
  | {
      readonly what: 'step';
      readonly verb: string;
      readonly cell: CellName;
      readonly own: boolean;
    }
  | { readonly what: 'text'; readonly cell: CellName; readonly own: boolean }
  | { readonly what: 'file' | 'new file' | 'lost file'; readonly path: string }
  | { readonly what: 'history' };

/** By the cell's index. */
export type CellChanges = ReadonlyMap<number, readonly Change[]>;

/** What is told of a call besides its text. */
export type Told = Pick<Ingredient, 'files' | 'head'>;

type Call = Extract<Checked, { type: 'call' }>;
interface Step {
  readonly call: Call;
  readonly text: string;
}

/** @param cellName of the statement's cell @param place of the statement among those of its cell */
export function ingredientOf(
  { name, cell, expression, problems }: CheckedStatement,
  cellName: CellName,
  place: number,
  toldOf: (call: Call) => Told | undefined,
): Ingredient {
  const steps: Step[] = [];
  const rest = expression === undefined ? problems.map(({ message }) => message) : shapeOf(expression, steps);
  const readings = steps.flatMap(({ call }) => toldOf(call) ?? []);
  const head = readings.find((one) => one.head !== undefined)?.head;
  return {
    statement: name?.text ?? `#${place}`,
    cell,
    name: cellName,
    steps: [
      ...steps.map((step) => ({ verb: step.call.verb, text: step.text })),
      { verb: '', text: JSON.stringify(rest) },
    ],
    files: readings.flatMap(({ files }) => files),
    ...(head !== undefined && { head }),
  };
}

/** An expression without places and spelling, and with a word in the place of each call, which is put to the steps. */
function shapeOf(node: CheckedArgument, steps: Step[]): unknown {
  if (node.type !== 'call')
    return Object.entries(node).flatMap(([entry, value]): unknown[] =>
      entry === 'place' ? [] : [Array.isArray(value) ? value.map((one) => inner(one, steps)) : inner(value, steps)],
    );
  const given = (all: CheckedArguments): unknown =>
    Object.keys(all)
      .sort()
      .map((slot) => [slot, all[slot].map((one) => shapeOf(one, steps))]);
  const text = JSON.stringify([given(node.operands), given(node.options)]);
  steps.push({ call: node, text });
  return node.verb;
}

const inner = (value: unknown, steps: Step[]): unknown =>
  typeof value === 'object' && value !== null && 'type' in value && 'place' in value
    ? shapeOf(value as CheckedArgument, steps)
    : value;

/** What differs between what a cell was made of and what it would be made of now; its own statements come first. */
export function changesBetween(before: readonly Ingredient[], now: readonly Ingredient[], cell: number): Change[] {
  const earlier = new Map(before.map((one) => [one.statement, one]));
  const found = now.flatMap((one) => {
    const then = earlier.get(one.statement);
    return then === undefined ? [] : changesOf(then, one, cell);
  });
  // What is used for the first time, or no more, follows from another change, where there is one.
  const names = (all: readonly Ingredient[]): Set<string> => new Set(all.map(({ statement }) => statement));
  const [had, has] = [names(before), names(now)];
  const come = [...now.filter((one) => !had.has(one.statement)), ...before.filter((one) => !has.has(one.statement))];
  const all = found.length > 0 ? found : come.map((one) => textOf(one, cell));
  const own = (change: Change): number => ('own' in change && change.own ? 0 : 1);
  return distinct(all).sort((a, b) => own(a) - own(b));
}

function changesOf(then: Ingredient, now: Ingredient, cell: number): Change[] {
  const found: Change[] = [];
  const alike =
    then.steps.length === now.steps.length && then.steps.every(({ verb }, at) => verb === now.steps[at].verb);
  const changed = alike ? now.steps.filter(({ text }, at) => text !== then.steps[at].text) : [];
  if (!alike || changed.some(({ verb }) => verb === '')) found.push(textOf(now, cell));
  else for (const { verb } of changed) found.push({ what: 'step', verb, cell: now.name, own: now.cell === cell });
  const hashes = new Map(then.files);
  const paths = new Set(now.files.map(([path]) => path));
  for (const [path, sha256] of now.files)
    if (!hashes.has(path)) found.push({ what: 'new file', path });
    else if (hashes.get(path) !== sha256) found.push({ what: 'file', path });
  for (const [path] of then.files) if (!paths.has(path)) found.push({ what: 'lost file', path });
  if (then.head !== now.head) found.push({ what: 'history' });
  return found;
}

const textOf = ({ cell: at, name }: Ingredient, cell: number): Change => ({
  what: 'text',
  cell: name,
  own: at === cell,
});

/** Each once; cells may have been counted otherwise before. */
function distinct(changes: readonly Change[]): Change[] {
  const keyOf = (change: Change): string =>
    JSON.stringify('own' in change && change.own ? { ...change, cell: 'own' } : change);
  return [...new Map([...changes].reverse().map((change) => [keyOf(change), change])).values()].reverse();
}

/** What content keys were made of, of so many at most. */
export class Origins {
  readonly #known = new Map<string, readonly Ingredient[]>();
  readonly #most: number;

  constructor(most = 1000) {
    this.#most = most;
  }

  of(key: string): readonly Ingredient[] | undefined {
    return this.#known.get(key);
  }

  /** @param made says what a key is made of, if that is not known */
  note(key: string, made: () => readonly Ingredient[] | undefined): void {
    const known = this.#known.get(key) ?? made();
    if (known === undefined) return;
    // The ones that were seen last are kept.
    this.#known.delete(key);
    this.#known.set(key, known);
    if (this.#known.size > this.#most) this.#known.delete(this.#known.keys().next().value!);
  }
}
