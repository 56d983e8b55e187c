import type { Refused, Sides } from './sides.ts';
import { excludedWarnings } from '../excludedRuns.ts';
import type { ExcludedRun } from '../../values/excluded.ts';
import { refuse, type Warning } from '../../result/result.ts';
import type { Arguments } from '../verb.ts';

const excludedOf = ({ a, b }: Sides): ExcludedRun[] => {
  const all = [...a.excluded, ...b.excluded];
  return all.filter(({ path }, index) => all.findIndex((other) => other.path === path) === index);
};

/** What kept a run from the steps, with its name. */
function obstacleOf({ label, obstacle: hindered = 'it is not there' }: ExcludedRun): string {
  return hindered.startsWith(label) ? hindered : `${label}: ${hindered}`;
}

/** Why excluded runs can't be taken in, where that was asked. */
export function whyNoneExcluded(given: Arguments, sides: Sides): Refused | undefined {
  if (given.options.including === undefined) return undefined;
  const excluded = excludedOf(sides);
  if (excluded.length === 0)
    return refuse(
      'compare.including',
      'No run sheet excludes a run of either side, so there is none to take in.',
      'including',
    );
  if (excluded.some(({ run }) => run !== undefined)) return undefined;
  const why = excluded.map(obstacleOf).join('; ');
  return refuse('compare.including', `None of the excluded runs can be taken in: ${why}.`, 'including');
}

/** What a reader is told of the runs left out, or taken in all the same. */
export function takenIn(
  given: Arguments,
  sides: Sides,
): { readonly includes: boolean; readonly warnings: readonly Warning[] } {
  const excluded = excludedOf(sides);
  const able = excluded.filter(({ run }) => run !== undefined);
  const unable = excluded.filter(({ run }) => run === undefined);
  if (given.options.including === undefined) {
    // What can't be taken in is listed with the result; a hint is owed only where there is a choice.
    const [told] = able.length > 0 ? excludedWarnings(excluded) : [];
    if (told === undefined) return { includes: false, warnings: [] };
    const hint = ' "including excluded" gives the result with them.';
    return { includes: false, warnings: [{ ...told, message: told.message + hint }] };
  }
  const list = able.map(({ label, why }) => `${label} (${why})`).join(', ');
  const message = `Taken in although the run sheet excludes ${able.length === 1 ? 'it' : 'them'}: ${list}.`;
  const left = unable.map((one) => ({
    code: 'runs.excluded',
    message: `Still left out: ${obstacleOf(one)}.`,
  }));
  return { includes: true, warnings: [{ code: 'runs.included', message }, ...left] };
}
