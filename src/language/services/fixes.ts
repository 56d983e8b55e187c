import { convert } from '../../units/arithmetic.ts';
import { isDimensionless, nameOfDimension } from '../../units/dimension.ts';
import { formatNumber } from '../../units/format.ts';
import { parseUnit, unit as unitNamed } from '../../units/parse.ts';
import type { CheckedNotebook } from '../check.ts';
import { sampleOf } from '../describe.ts';
import type { Place, Diagnostic } from '../diagnostic.ts';
import { titles } from '../messages.ts';
import { childrenOf, type Amount, type Node, type Pipeline } from '../tree.ts';
import { usualUnits } from '../usual.ts';
import type { CellEdit } from './rename.ts';
import { takesFiles } from './source.ts';

export interface Action {
  readonly title: string;
  readonly kind: 'quickfix' | 'refactor';
  readonly edits: readonly CellEdit[];
  /** What it puts right. */
  readonly problem?: Diagnostic;
  /** The likeliest of several. */
  readonly preferred?: boolean;
}

const touches = (a: Place, b: Place): boolean => a.from <= b.to && b.from <= a.to;

/** What could be done to the text at a place: the fixes of its problems, and conversions of its quantities. */
export function actionsAt(notebook: CheckedNotebook, cell: number, place: Place): readonly Action[] {
  // A missing bracket is told at its partner, and mended at the end.
  const near = (problem: Diagnostic): boolean =>
    [problem, ...(problem.fixes ?? [])].some((one) => touches(one.place, place));
  const problems = notebook.problems[cell].filter(near);
  return [...problems.flatMap((problem) => fixesOf(notebook, cell, problem)), ...conversions(notebook, cell, place)];
}

/** The quick fixes of one problem: those that it brings, and for an unknown name its binding. */
export function fixesOf(notebook: CheckedNotebook, cell: number, problem: Diagnostic): readonly Action[] {
  const own = (problem.fixes ?? []).map(({ title, place, text }, i): Action => ({
    title,
    kind: 'quickfix',
    edits: [{ cell, place, text }],
    problem,
    preferred: i === 0,
  }));
  if (problem.code === 'name.unknown') return [...own, createBinding(notebook, cell, problem)];
  if (problem.code === 'name.unused') return [...own, ...removeBinding(notebook, cell, problem)];
  return own;
}

/** A statement above that binds the name, to be filled in. */
function createBinding(notebook: CheckedNotebook, cell: number, problem: Diagnostic): Action {
  const { text, statements } = notebook.cells[cell];
  const name = text.slice(problem.place.from, problem.place.to);
  const at =
    statements.find(({ place }) => place.from <= problem.place.from && problem.place.to <= place.to)?.place.from ?? 0;
  const reader = notebook.catalogue.verbs.find(({ operands }) => operands.some(takesFiles));
  const arithmetic =
    /[-+*/^(]\s*$/.test(text.slice(at, problem.place.from)) || /^\s*[-+*/^]/.test(text.slice(problem.place.to));
  const value = arithmetic || !reader ? '1' : `${reader.verb} ""`;
  return {
    title: titles.bind(name),
    kind: 'quickfix',
    edits: [{ cell, place: { from: at, to: at }, text: `${name} = ${value}\n` }],
    problem,
  };
}

/** Shows the value instead of binding it. */
function removeBinding(notebook: CheckedNotebook, cell: number, problem: Diagnostic): readonly Action[] {
  const statement = notebook.cells[cell].statements.find(({ name }) => name?.place.from === problem.place.from);
  if (!statement?.name) return [];
  const place = { from: statement.name.place.from, to: statement.pipeline.place.from };
  return [
    {
      title: titles.unbind(statement.name.text),
      kind: 'quickfix',
      edits: [{ cell, place, text: '' }],
      problem,
    },
  ];
}

/** The quantity at a place in the other usual units of its dimension. */
function conversions(notebook: CheckedNotebook, cell: number, place: Place): readonly Action[] {
  const amounts = notebook.cells[cell].statements
    .filter((one) => touches(one.place, place))
    .flatMap(({ pipeline }) => amountsIn(pipeline, place));
  return amounts.flatMap((amount) => {
    const parsed = parseUnit(amount.unit.text);
    if (!parsed.ok || isDimensionless(parsed.unit.dimension)) return [];
    const name = nameOfDimension(parsed.unit.dimension);
    return (name ? usualUnits[name] : [])
      .filter((symbol) => symbol !== parsed.unit.symbol)
      .map((symbol): Action => {
        const converted = convert({ value: amount.value, unit: parsed.unit }, unitNamed(symbol))!;
        const text = `${formatNumber(converted.value, 6)} ${symbol}`;
        return { title: titles.convert(text), kind: 'refactor', edits: [{ cell, place: amount.place, text }] };
      });
  });
}

function amountsIn(
  node: Node | Pipeline,
  place: Place,
): readonly (Amount & { readonly unit: NonNullable<Amount['unit']> })[] {
  if (!touches(node.place, place)) return [];
  // The unit of a range's end holds for both ends, so a part of a range is not converted alone.
  if ('type' in node && node.type === 'range') return [];
  if ('type' in node && node.type === 'number') return node.unit ? [{ ...node, unit: node.unit }] : [];
  return childrenOf(node).flatMap((child) => amountsIn(child, place));
}

/** The options that would settle a failure of a run, each added with a value to start from. */
export const addOptions = (notebook: CheckedNotebook, cell: number, problem: Diagnostic): readonly Action[] =>
  (problem.settledBy ?? []).flatMap((keyword) => {
    const action = addOption(notebook, cell, problem.place, keyword);
    return action === undefined ? [] : [{ ...action, problem }];
  });

/** Adds an option to the call at a place, if it has such a one and it is not given yet. */
function addOption(notebook: CheckedNotebook, cell: number, place: Place, keyword: string): Action | undefined {
  const step = notebook.steps.find(
    (one) =>
      one.cell === cell &&
      touches(one.place, place) &&
      one.arrangement.form.options.some((option) => option.keyword === keyword),
  );
  const option = step?.arrangement.form.options.find((one) => one.keyword === keyword);
  if (!step || !option || step.arrangement.options.has(keyword)) return undefined;
  const accepts = option.parts?.[0]?.accepts ?? option.accepts;
  const value = accepts.length === 0 ? '' : ` ${sampleOf(accepts) ?? ''}`;
  const at = step.arrangement.to;
  return {
    title: titles.addOption(keyword),
    kind: 'quickfix',
    edits: [{ cell, place: { from: at, to: at }, text: ` ${keyword}${value}` }],
  };
}
