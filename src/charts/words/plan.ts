import { dayOf } from '../../result/words.ts';
import type { ComparisonValue } from '../../values/comparison.ts';
import type { ExcludedRun } from '../../values/excluded.ts';
import type { PlanValue } from '../../values/plan.ts';
import { isBeforeFiles, isBeforeRecordings, type PlanAge } from '../../values/planAge.ts';
import { sentence } from './names.ts';

// What is said of plans, of how a result follows its plan, and of runs left out.

/** The mark by which a later change of a plan is noticed, and since when git holds it. */
export function planMark({ hash, committed }: PlanValue): string {
  const mark = `SHA-256 of the plan: ${hash}`;
  if (committed === undefined) return mark;
  if (committed === null) return `${mark}\nAs it is written here it is not committed in git.`;
  return `${mark}\nAs it is written here it was committed in git on ${dayOf(committed.at)} (${committed.id.slice(0, 12)}).`;
}

/** How a comparison stands to the plan it was asked to follow, and what forbids a verdict by it; a sentence a line. */
export function followedLines({ plan, guards = [], includesExcluded }: ComparisonValue): string[] {
  const lines: string[] = [];
  if (plan !== undefined) {
    lines.push(`Plan ${plan.name} (SHA-256 ${plan.hash.slice(0, 12)}…): ${plan.question}`);
    if (plan.deviations.length === 0) lines.push('As written here, it was followed in every point that it settles.');
    else lines.push('Not as planned:', ...plan.deviations.map(({ message }) => `– ${sentence(message)}`));
  }
  if (plan?.age !== undefined) lines.push(ageText(plan.age));
  if (includesExcluded === true) lines.push('Runs that the run sheet leaves out are taken in here all the same.');
  const reasons = guards.map(({ message }) => message);
  if (reasons.length > 0) lines.push(`No verdict may rest on this, because ${reasons.join('; ')}.`);
  return lines;
}

/** How old the plan is beside the recordings, by the commits in git and the recordings' own dates. */
function ageText(age: PlanAge): string {
  const { plan, files, recorded } = age;
  if (plan === undefined)
    return 'The plan as it is written here is not committed in git, so nothing there shows when it was made.';
  const beside = [
    files === undefined
      ? 'the raw files are not committed'
      : `${isBeforeFiles(age) === true ? 'before' : 'not before'} the raw files’ first commit (${dayOf(files.at)})`,
    ...(recorded === undefined ? [] : [`${recordedWord(age)} the recordings’ own dates (from ${dayOf(recorded)})`]),
  ];
  return `In git, the plan as it is written here was committed on ${dayOf(plan.at)}: ${beside.join(', and ')}.`;
}

function recordedWord(age: PlanAge): string {
  const isBefore = isBeforeRecordings(age);
  if (isBefore === undefined) return 'within a day of';
  return isBefore ? 'before' : 'after';
}

/** Runs that the run sheet leaves out, and why. */
export function excludedWords(runs: readonly ExcludedRun[]): string {
  const named = runs.map(({ label, why }) => `${label} (${why === '' ? 'no reason given' : why})`);
  const obstacles = runs.flatMap(({ obstacle = [] }) => obstacle);
  const whose = obstacles.length === 1 ? 'It' : 'Some of these';
  const kept = obstacles.length === 0 ? '' : ` ${whose} could not be taken in: ${obstacles.join(' ')}`;
  return `Left out by the run sheet: ${named.join(', ')}.${kept}`;
}
