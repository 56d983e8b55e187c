import type { Handle, HandleEnd } from '../../charts/handle.ts';
import type { CheckedArgument } from '../../language/checked.ts';
import { roundedSI } from '../../units/arithmetic.ts';
import { edges, endOf } from './ends.ts';
import type { Numeral } from './numerals.ts';
import { givenUnder, type Site, type Sites } from './sites.ts';

/** A handle, and the cell that it writes. */
export interface CellHandle {
  readonly cell: number;
  readonly handle: Omit<Handle, 'where'>;
}

/** Ranges under an operand or option, as bands of a frequency axis. */
export function bandsUnder(sites: Sites, site: Site, slot: string, name: string): CellHandle[] {
  const given = givenUnder(site, slot);
  // An edge of a band of an octave is not the number that stands in the text.
  if ('fraction' in site.call.operands || given.some(({ type }) => type === 'word')) return [];
  return sites.numbers(site, slot).flatMap((parts, entry) => bandOf(given[entry], parts, name, site));
}

function bandOf(
  argument: CheckedArgument,
  parts: readonly (Numeral | undefined)[],
  name: string,
  site: Site,
): CellHandle[] {
  if (argument.type !== 'range') return [];
  const range = { from: roundedSI(argument.from), to: roundedSI(argument.to) };
  const ends = edges(parts, range, ['lower edge', 'upper edge']);
  return ends === undefined ? [] : [{ cell: site.statement.cell, handle: { name, axis: 'frequency', ends } }];
}

/** The bands of a comparison: its own, and those that it takes from its plan; what the plan settles is locked. */
export function comparedBands(sites: Sites, site: Site): CellHandle[] {
  const plan = sites.under(site, 'plan');
  const argument = givenUnder(site, 'plan').at(0);
  const called = argument?.type === 'name' ? argument.name : 'its plan';
  return (['primary', 'over'] as const).flatMap((slot) => {
    const name = slot === 'primary' ? 'primary band' : 'band';
    const settled =
      plan === undefined ? [] : bandsUnder(sites, plan, slot, name).map((found) => lockedBy(found, called));
    if (!(slot in site.call.options)) return settled;
    const own = bandsUnder(sites, site, slot, name);
    return own.map((found) => (settled.some((other) => sameEnds(found, other)) ? lockedBy(found, called) : found));
  });
}

const lockedBy = ({ cell, handle }: CellHandle, plan: string): CellHandle => ({
  cell,
  handle: { ...handle, locked: `settled by the plan ${plan}` },
});

const sameEnds = (one: CellHandle, other: CellHandle): boolean =>
  one.handle.ends.every(({ at }, index) => Math.abs(at - other.handle.ends[index].at) <= 1e-9 * Math.abs(at));

/** The corners of the filters on the way down to the recordings. */
export function cornersBelow(sites: Sites, site: Site | undefined): CellHandle[] {
  const found: CellHandle[] = [];
  const seen = new Set<unknown>();
  for (
    let at = site;
    at !== undefined && !seen.has(at.call);
    at = sites.under(at, 'runs') ?? sites.under(at, 'spectrum')
  ) {
    seen.add(at.call);
    const { verb } = at.call;
    if (verb === 'highpass' || verb === 'lowpass') found.push(...cornerOf(sites, at));
    else if (verb === 'bandpass') found.push(...bandsUnder(sites, at, 'band', 'pass band'));
  }
  return found;
}

function cornerOf(sites: Sites, site: Site): CellHandle[] {
  const corner = sites.number(site, 'corner');
  if (corner === undefined) return [];
  const ends: readonly HandleEnd[] = [endOf('', corner.numeral)];
  return [{ cell: corner.numeral.cell, handle: { name: `corner of ${site.call.verb}`, axis: 'frequency', ends } }];
}

/** The frequencies of a profile's breakpoints. */
export function breakpointsOf(sites: Sites, site: Site): CellHandle[] {
  return sites.numbers(site, 'points').flatMap((parts, index) => {
    const numeral = parts.at(0);
    if (numeral === undefined || index % 2 === 1) return [];
    const handle = { name: `breakpoint ${index / 2 + 1}`, axis: 'frequency', ends: [endOf('', numeral)] } as const;
    return [{ cell: numeral.cell, handle }];
  });
}
