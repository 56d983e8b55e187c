import type { Choice } from '../../charts/making.ts';
import type { CheckedArgument, CheckedStatement } from '../../language/checked.ts';
import { extent } from '../../values/run.ts';
import type { RunsValue } from '../../values/runs.ts';
import type { Value } from '../../values/value.ts';
import { stepOf } from '../../charts/rounding.ts';
import { inserted, movedEnds, rangeText } from './change.ts';
import type { Sites } from './sites.ts';
import { hasTrim, trimHandle } from './trimHandle.ts';
import { edited, type Way } from './way.ts';

interface Subject {
  readonly argument: CheckedArgument;
  readonly value: Value;
}

/** How the sets of a chart over time are trimmed: by the numbers of their trim, or by a new one where they come from. */
export function trimWays(sites: Sites, statement: CheckedStatement, subjects: readonly Subject[]): Way[] {
  const drawn = subjects.flatMap(({ argument, value }) => (value.kind === 'runs' ? [{ argument, value }] : []));
  return drawn.flatMap(({ argument, value }, set) => {
    const way = trimWay(sites, statement, argument, value);
    return way === undefined ? [] : [drawn.length > 1 ? { ...way, sets: [set] } : way];
  });
}

function trimWay(
  sites: Sites,
  statement: CheckedStatement,
  argument: CheckedArgument,
  value: RunsValue,
): Way | undefined {
  const way = { what: 'trim', axis: 'time' } as const;
  const site = sites.of(argument, statement);
  const handle = trimHandle(sites, site, value);
  const { cell } = handle?.ends.find(({ literal }) => literal !== undefined)?.literal ?? {};
  if (handle !== undefined && cell !== undefined) {
    const { ends } = handle;
    if (ends.some(({ literal }) => literal === undefined))
      return { ...way, cell, locked: 'one end of the trim is no number in the text', write: () => undefined };
    const [{ least = -Infinity }, { most = Infinity }] = ends;
    return {
      ...way,
      cell,
      write(choice) {
        const found = within(choice, least, most);
        return found && edited(movedEnds(ends, found, choice.grain));
      },
    };
  }
  if (hasTrim(sites, site))
    return { ...way, cell: statement.cell, locked: 'the trim is computed', write: () => undefined };
  return addedTrim(sites, statement, argument, value);
}

/** A new step at the end of the statement that binds the runs, or of what stands in brackets. */
function addedTrim(
  sites: Sites,
  statement: CheckedStatement,
  argument: CheckedArgument,
  { runs }: RunsValue,
): Way | undefined {
  const place = sites.end(argument, statement);
  const first = runs.at(0);
  if (place === undefined || first === undefined) return undefined;
  const { start } = first.stretches.at(0) ?? first;
  const most = start + Math.min(...runs.map(extent));
  return {
    what: 'trim',
    axis: 'time',
    cell: place.cell,
    write(choice) {
      const found = within(choice, start, most);
      if (found === undefined) return undefined;
      const step = stepOf(choice.grain);
      // Rounding must not lead past the last sample.
      const to = Math.min(found[1] - start, Math.floor((most - start) / step) * step);
      return inserted(place.cell, place.at, ` | trim ${rangeText(found[0] - start, to, choice.grain, 's')}`);
    },
  };
}

/** The part of a choice that lies between two places; undefined where nothing is left that the chart can tell. */
function within({ from, to, grain }: Choice, least: number, most: number): readonly [number, number] | undefined {
  const [lower, upper] = [Math.max(least, from), Math.min(most, to)];
  return upper - lower >= grain ? [lower, upper] : undefined;
}
