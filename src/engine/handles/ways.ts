import type { Choice } from '../../charts/making.ts';
import type { CheckedNotebook } from '../../language/check.ts';
import type { CheckedArgument, CheckedStatement } from '../../language/checked.ts';
import type { Value } from '../../values/value.ts';
import { bandWays } from './bandWays.ts';
import { inserted, movedEnds, rangeText } from './change.ts';
import { shownRange } from './plotHandles.ts';
import { givenUnder, Sites, type Site } from './sites.ts';
import { trimWays } from './trimWays.ts';
import { calledAs, edited, type Way } from './way.ts';

/** Kinds whose pictures show marks, and no more of their axis than is asked for. */
const ranged: readonly Value['kind'][] = ['runs', 'spectrum', 'peaks', 'comparison', 'transfer', 'shock'];

/** What can be made of stretches of the charts that a statement's value is shown by. */
export function waysOf(notebook: CheckedNotebook, statement: CheckedStatement, value: Value): readonly Way[] {
  const { expression } = statement;
  const sites = new Sites(notebook);
  const own = expression && sites.of(expression, statement);
  if (expression === undefined || own === undefined) return [];
  if (value.kind !== 'chart' || own.call.verb !== 'plot')
    return [...bandWays(sites, expression, statement, value), ...newPlots(notebook, statement, value)];
  if (!value.subjects.some((subject) => ranged.includes(subject.value.kind))) return [];
  const subjects = givenUnder(own, 'subjects').map((argument, index) => ({ argument, ...value.subjects[index] }));
  const axis = subjects.some((subject) => subject.value.kind === 'runs') ? 'time' : 'frequency';
  return [
    ...(axis === 'time' ? trimWays(sites, own.statement, subjects) : plotBand(sites, own, subjects)),
    rangeOf(sites, own, axis),
    {
      what: 'mark',
      axis,
      cell: own.statement.cell,
      write: ({ to, grain }) => inserted(own.statement.cell, own.call.place.to, ` mark ${placeText(to, grain, axis)}`),
    },
  ];
}

const unitOf = (axis: 'time' | 'frequency'): 's' | 'Hz' => (axis === 'time' ? 's' : 'Hz');

/** A place as the language has it. */
const placeText = (at: number, grain: number, axis: 'time' | 'frequency'): string =>
  rangeText(at, at, grain, unitOf(axis)).replace(/^.*\.\./, '');

/** The stretch that a plot shows: its own numbers, or new ones at its end. */
function rangeOf(sites: Sites, own: Site, axis: 'time' | 'frequency'): Way {
  const way = { what: 'range', axis, cell: own.statement.cell } as const;
  const shown = shownRange(sites, own).at(0);
  if ('over' in own.call.options) {
    if (shown === undefined || shown.handle.ends.some(({ literal }) => literal === undefined))
      return { ...way, locked: 'what the plot is over is computed', write: () => undefined };
    const { cell, handle } = shown;
    return { ...way, cell, write: ({ from, to, grain }) => edited(movedEnds(handle.ends, [from, to], grain)) };
  }
  return {
    ...way,
    write: ({ from, to, grain }) =>
      inserted(own.statement.cell, own.call.place.to, ` over ${rangeText(from, to, grain, unitOf(axis))}`),
  };
}

/** What is shown without a `plot` is drawn by one in a new cell. */
function newPlots(notebook: CheckedNotebook, statement: CheckedStatement, value: Value): Way[] {
  if (!ranged.includes(value.kind) || value.kind === 'runs') return [];
  const subject = calledAs(notebook, statement);
  const way = (what: 'range' | 'mark', option: (choice: Choice) => string): Way => ({
    what,
    axis: 'frequency',
    cell: undefined,
    write: (choice) => ({ edits: [], below: { cell: statement.cell, text: `plot ${subject} ${option(choice)}` } }),
  });
  return [
    way('range', ({ from, to, grain }) => `over ${rangeText(from, to, grain, 'Hz')}`),
    way('mark', ({ to, grain }) => `mark ${placeText(to, grain, 'frequency')}`),
  ];
}

/** The bands of a plot, or the band of the first of its spectra. */
function plotBand(
  sites: Sites,
  own: Site,
  subjects: readonly { readonly argument: CheckedArgument; readonly value: Value }[],
): Way[] {
  const known = subjects.flatMap(({ argument, value }) =>
    value.kind === 'spectrum' ? [] : bandWays(sites, argument, own.statement, value),
  );
  if (known.length > 0) return known.slice(0, 1);
  const { text } = sites.notebook.cells[own.statement.cell];
  const last = subjects.at(-1)?.argument;
  const spectrum = subjects.find(({ argument, value }) => value.kind === 'spectrum' && isWhole(argument));
  if (spectrum === undefined || last === undefined) return [];
  const slice = text.slice(spectrum.argument.place.from, spectrum.argument.place.to);
  const of = spectrum.argument.type === 'call' ? `(${slice})` : slice;
  const end = last.place.to + (/^(?:\s*\))?/.exec(text.slice(last.place.to))?.[0].length ?? 0);
  return [
    {
      what: 'band',
      axis: 'frequency',
      cell: own.statement.cell,
      write: ({ from, to, grain }) =>
        inserted(own.statement.cell, end, `, (band ${of} ${rangeText(from, to, grain, 'Hz')})`),
    },
  ];
}

/** Whether an argument's place holds all of its text: of a pipeline it is the last step alone. */
const isWhole = (argument: CheckedArgument): boolean =>
  argument.type === 'name' ||
  argument.type === 'pick' ||
  (argument.type === 'call' &&
    Object.values(argument.operands)
      .flat()
      .every(({ place }) => place.from >= argument.place.from && place.to <= argument.place.to));
