import type { Json } from './jsonNumbers.ts';
import type { Commit } from './ports.ts';

/** When a plan was committed, and the recordings that are held against it came to be; in s since 1970. */
export interface PlanAge {
  /** Undefined where the plan is not committed as it is written. */
  readonly plan: Commit | undefined;
  /** The first commit of any of the raw files; undefined where none is committed. */
  readonly files: Commit | undefined;
  /** The earliest date that the recordings or their run sheet have; undefined where they have none. */
  readonly recorded: number | undefined;
}

const day = 86_400;

/** Whether the plan was committed before the raw files; undefined where either is not. */
export const isBeforeFiles = ({ plan, files }: PlanAge): boolean | undefined =>
  plan === undefined || files === undefined ? undefined : plan.id !== files.id && plan.at < files.at;

/**
 * Whether the plan was committed before the recordings' own dates, which may be a day off for want of a time zone:
 * undefined where that leaves it open.
 */
export function isBeforeRecordings({ plan, recorded }: PlanAge): boolean | undefined {
  if (plan === undefined || recorded === undefined || Math.abs(recorded - plan.at) < day) return undefined;
  return plan.at < recorded;
}

const isoTime = (at: number): string => new Date(1000 * at).toISOString();

/** What JSON says of a commit; null without one. */
export const commitJson = (commit: Commit | null | undefined): Json =>
  commit == null ? null : { commit: commit.id, at: isoTime(commit.at) };

/** What JSON says of a plan's age; null where no history tells it. */
export const ageJson = (age: PlanAge | undefined): Json =>
  age === undefined
    ? null
    : {
        plan: commitJson(age.plan),
        raw_files: commitJson(age.files),
        recorded_from: age.recorded === undefined ? null : isoTime(age.recorded),
        before_raw_files: isBeforeFiles(age) ?? null,
        before_recordings: isBeforeRecordings(age) ?? null,
      };
