import { roundedSI } from '../../units/arithmetic.ts';
import type { Quantity } from '../../units/unit.ts';
import type { CellHandle } from './bandHandles.ts';
import { edges, endOf } from './ends.ts';
import { givenUnder, type Site, type Sites } from './sites.ts';

/** The stretch of the axis that a plot shows, and its marks. */
export function plotHandles(sites: Sites, site: Site): CellHandle[] {
  return [...shownRange(sites, site), ...marks(sites, site)];
}

export function shownRange(sites: Sites, site: Site): CellHandle[] {
  const over = givenUnder(site, 'over').at(0);
  const parts = sites.numbers(site, 'over').at(0);
  if (over?.type !== 'range' || parts === undefined) return [];
  const axis = axisOf(over.to);
  const ends = edges(parts, { from: roundedSI(over.from), to: roundedSI(over.to) }, ['start', 'end']);
  return ends === undefined ? [] : [{ cell: site.statement.cell, handle: { name: 'shown range', axis, ends } }];
}

function marks(sites: Sites, site: Site): CellHandle[] {
  const given = givenUnder(site, 'mark');
  return sites.numbers(site, 'mark').flatMap(([numeral], index) => {
    if (numeral === undefined) return [];
    const group = given[index];
    const label = group.type === 'group' ? group.parts.find((part) => part.type === 'text') : undefined;
    const name = label === undefined ? 'mark' : `mark “${label.text}”`;
    return [{ cell: numeral.cell, handle: { name, axis: axisOf(numeral.quantity), ends: [endOf('', numeral)] } }];
  });
}

const axisOf = ({ unit }: Quantity): 'time' | 'frequency' => (unit.dimension.time === 1 ? 'time' : 'frequency');
