import type { Refused, Warning } from '../../result/result.ts';
import type { ExcludedRun } from '../../values/excluded.ts';
import { refuse, tell } from '../messages/evidence.ts';
import { tell as tellOfRuns } from '../messages/recordings.ts';
import { measuredIn, type Sides } from './sides.ts';

// Runs that a run sheet leaves out of any side of a comparison.

/** Those of all sides, each once. */
function excludedOf(sides: Sides): ExcludedRun[] {
  const all = measuredIn(sides).flatMap(({ excluded }) => excluded);
  return all.filter(({ path }, index) => all.findIndex((other) => other.path === path) === index);
}

const obstacleOf = ({ label, obstacle = 'It is not there.' }: ExcludedRun): { label: string; obstacle: string } => ({
  label,
  obstacle,
});

/** Why excluded runs can't be taken in: there are none, or none that went through every step. Undefined if they can. */
export function whyNoneIncluded(sides: Sides): Refused | undefined {
  const excluded = excludedOf(sides);
  if (excluded.some(({ run }) => run !== undefined)) return undefined;
  return refuse('compare.including', { excluded: excluded.map(obstacleOf) }, 'including');
}

/** What a reader is told of the runs left out, or taken in all the same. */
export function excludedWarnings(sides: Sides, includesExcluded: boolean): Warning[] {
  const excluded = excludedOf(sides);
  const able = excluded.filter(({ run }) => run !== undefined);
  if (!includesExcluded) {
    // What can't be taken in is listed with the result; a hint is owed only where there is a choice.
    return able.length === 0 ? [] : [tellOfRuns('runs.excluded', { runs: excluded.map(reasonOf), canInclude: true })];
  }
  const unable = excluded.filter(({ run }) => run === undefined);
  return [
    tell('runs.included', { runs: able.map(reasonOf) }),
    ...unable.map((one) => tellOfRuns('runs.excluded', { stillOut: one.label, obstacle: obstacleOf(one).obstacle })),
  ];
}

const reasonOf = ({ label, why }: ExcludedRun): { label: string; why: string } => ({ label, why });
