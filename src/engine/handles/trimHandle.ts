import type { Handle, HandleEnd } from '../../charts/handle.ts';
import { extent } from '../../values/run.ts';
import type { RunsValue } from '../../values/runs.ts';
import { roundedSI } from '../../units/arithmetic.ts';
import { endOf } from './ends.ts';
import { givenUnder, type Site, type Sites } from './sites.ts';

/** The outermost trim of runs that are drawn over time, counted on their recordings' axis; undefined where none can be moved. */
export function trimHandle(sites: Sites, drawn: Site | undefined, value: RunsValue): Omit<Handle, 'where'> | undefined {
  const site = nextTrim(sites, drawn);
  const whole = value.runs.map((run) => run.untrimmed ?? run);
  if (site === undefined || whole.length === 0) return undefined;
  const before = nextTrim(sites, sites.under(site, 'runs'));
  const shift = before === undefined ? 0 : startOf(sites, before);
  if (shift === undefined) return undefined;
  const origin = whole[0].stretches[0].start + shift;
  // What is trimmed twice may go as far as the first trim left it; of that the run says no more than its recording.
  const most = origin - shift + Math.min(...whole.map(extent));
  const ends = endsOf(sites, site, origin, most);
  if (ends?.some(({ literal }) => literal !== undefined) !== true) return undefined;
  return { name: 'trim', axis: 'time', ends };
}

/** Whether runs were trimmed at all. */
export const hasTrim = (sites: Sites, drawn: Site | undefined): boolean => nextTrim(sites, drawn) !== undefined;

/** The first trim on the way down to the recordings. */
function nextTrim(sites: Sites, site: Site | undefined): Site | undefined {
  const seen = new Set<unknown>();
  for (let at = site; at !== undefined && !seen.has(at.call); at = sites.under(at, 'runs')) {
    if (at.call.verb === 'trim') return at;
    seen.add(at.call);
  }
  return undefined;
}

/** s from the recordings' first samples at which a trim begins, the trims before it counted in. */
function startOf(sites: Sites, site: Site): number | undefined {
  const before = nextTrim(sites, sites.under(site, 'runs'));
  const shift = before === undefined ? 0 : startOf(sites, before);
  const range = givenUnder(site, 'stretch').at(0);
  const [from, to, length] = ['from', 'to', 'length'].map((slot) => sites.number(site, slot)?.si);
  if (shift === undefined) return undefined;
  if (range?.type === 'range') return shift + roundedSI(range.from);
  if (from !== undefined) return shift + from;
  if ('from' in site.call.options) return undefined;
  if (!('length' in site.call.options) || !('to' in site.call.options)) return shift;
  return to === undefined || length === undefined ? undefined : shift + to - length;
}

function endsOf(sites: Sites, site: Site, origin: number, most: number): readonly HandleEnd[] | undefined {
  const limits = { least: origin, most };
  const counting = { origin, sign: 1 } as const;
  const range = givenUnder(site, 'stretch').at(0);
  if (range?.type === 'range') {
    const [start, end] = sites.numbers(site, 'stretch')[0];
    return [
      start === undefined
        ? { word: 'start', at: origin + roundedSI(range.from) }
        : endOf('start', start, counting, limits),
      end === undefined ? { word: 'end', at: origin + roundedSI(range.to) } : endOf('end', end, counting, limits),
    ];
  }
  const { options } = site.call;
  const [from, to, length] = ['from', 'to', 'length'].map((slot) => sites.number(site, slot));
  const known = [from, to, length].filter((one) => one !== undefined).length;
  if (known !== ['from', 'to', 'length'].filter((slot) => slot in options).length) return undefined;
  const carries = length !== undefined && { carries: true };
  if (to === undefined) {
    const begin = from?.si ?? 0;
    return [
      from === undefined
        ? { word: 'start', at: origin }
        : endOf('start', from.numeral, counting, { ...limits, ...carries }),
      length === undefined
        ? { word: 'end', at: most }
        : endOf('end', length.numeral, { origin: origin + begin, sign: 1 }, limits),
    ];
  }
  const last = endOf('end', to.numeral, counting, { ...limits, ...carries });
  if (length !== undefined) return [endOf('start', length.numeral, { origin: last.at, sign: -1 }, limits), last];
  return [from === undefined ? { word: 'start', at: origin } : endOf('start', from.numeral, counting, limits), last];
}
