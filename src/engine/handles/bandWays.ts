import type { CheckedArgument, CheckedStatement } from '../../language/checked.ts';
import { isOfSignal } from '../../values/comparison.ts';
import type { Value } from '../../values/value.ts';
import { inserted, rangeText } from './change.ts';
import { givenUnder, type Site, type Sites } from './sites.ts';
import { calledAs, type Way } from './way.ts';

/** How a band is added to what an argument's value shows: to the bands of a `band` or `compare`, or below a spectrum. */
export function bandWays(
  sites: Sites,
  argument: CheckedArgument,
  statement: CheckedStatement,
  value: Value,
): readonly Way[] {
  const site = sites.of(argument, statement);
  if (site === undefined) return [];
  const { verb, operands } = site.call;
  if (value.kind === 'bands') return verb === 'band' && !('fraction' in operands) ? [addedTo(site, 'bands')] : [];
  if (value.kind === 'comparison')
    return verb === 'compare' && !isOfSignal(value.metricCode) ? [comparedWay(site)] : [];
  return value.kind === 'spectrum' && value.axis === undefined ? [below(sites, statement)] : [];
}

function comparedWay(site: Site): Way {
  const plan = givenUnder(site, 'plan').at(0);
  if (plan === undefined) return addedTo(site, 'over');
  const called = plan.type === 'name' ? plan.name : 'its plan';
  return { ...addedTo(site, 'over'), locked: `the bands are settled by the plan ${called}` };
}

/** One more range at the end of a list, or an option that begins one. */
function addedTo({ call, statement: { cell } }: Site, slot: string): Way {
  const last = [...(call.operands[slot] ?? []), ...(call.options[slot] ?? [])].at(-1);
  return {
    what: 'band',
    axis: 'frequency',
    cell,
    write({ from, to, grain }) {
      const range = rangeText(from, to, grain, 'Hz');
      return last === undefined
        ? inserted(cell, call.place.to, ` ${slot} ${range}`)
        : inserted(cell, last.place.to, `, ${range}`);
    },
  };
}

const below = ({ notebook }: Sites, statement: CheckedStatement): Way => ({
  what: 'band',
  axis: 'frequency',
  cell: undefined,
  write: ({ from, to, grain }) => ({
    edits: [],
    below: {
      cell: statement.cell,
      text: `band ${calledAs(notebook, statement)} ${rangeText(from, to, grain, 'Hz')}`,
    },
  }),
});
