import { bandText } from '../evidence/compareSentence.ts';
import { percentText } from '../percents.ts';
import type { Band } from '../../values/band.ts';
import type { PlanFollowed, PlanValue, Settled } from '../../values/plan.ts';
import type { Warning } from '../../result/result.ts';

/** What was done, in the terms in which a plan settles it. */
export interface Done {
  readonly metric: string;
  readonly channel: string;
  readonly primary: Band | undefined;
  readonly bands: readonly Band[];
  readonly margin: number | undefined;
  readonly confidence: number;
  readonly method: string;
  readonly runsA: number;
  readonly runsB: number;
  /** As letters, where it is known: `ABBABAAB`. */
  readonly order: string | undefined;
  readonly includesExcluded: boolean;
}

export const sameBand = (one: Band, other: Band): boolean =>
  Math.abs(one.from - other.from) <= 1e-9 * other.to && Math.abs(one.to - other.to) <= 1e-9 * other.to;

/** How what was done stands to the plan. */
export function planFollowed(name: string, { hash, settled }: PlanValue, done: Done): PlanFollowed {
  const question = settled?.question ?? '';
  return {
    name,
    hash,
    question,
    ...(settled?.claim === undefined ? {} : { claim: settled.claim }),
    ...(settled?.source === undefined ? {} : { source: settled.source }),
    bands: settled === undefined ? [] : plannedBands(settled),
    unplanned: settled === undefined ? [] : deviationsOfLevel(settled, done),
    deviations: settled === undefined ? [] : [...deviationsOfLevel(settled, done), ...deviationsFrom(settled, done)],
  };
}

const plannedBands = ({ primary, bands = [] }: Settled): Band[] => [
  ...(primary === undefined ? [] : [primary]),
  ...bands,
];

function differs<T>(
  planned: T | undefined,
  is: T | undefined,
  words: string,
  tell: (value: T | undefined) => string,
): string[] {
  if (planned === undefined || planned === is) return [];
  return [`${words} was planned as ${tell(planned)} and is ${tell(is)}`];
}

const text = (value: string | undefined): string => value ?? 'none';
const share = (value: number | undefined): string => (value === undefined ? 'none' : percentText(100 * value));

/** Another level than was planned: no verdict can be given by it. */
function deviationsOfLevel(plan: Settled, done: Done): string[] {
  return [
    ...differs(plan.metric, done.metric, 'the metric', text),
    ...differs(plan.channel, done.channel, 'the channel', text),
  ];
}

/** One clause for each other thing that was settled and is otherwise; the planned figure first. */
function deviationsFrom(plan: Settled, done: Done): string[] {
  const found = [
    ...differs(plan.confidence, done.confidence, 'the confidence', share),
    ...differs(plan.margin, done.margin, 'the margin', share),
    ...differs<string>(plan.method, done.method, 'the method', text),
  ];
  const planned = plannedBands(plan);
  if (planned.length > 0) {
    if (plan.primary !== undefined && (done.primary === undefined || !sameBand(done.primary, plan.primary))) {
      const is = done.primary === undefined ? 'none is named' : `it is ${bandText(done.primary)}`;
      found.push(`the primary band was planned as ${bandText(plan.primary)} and ${is}`);
    }
    const all = [...(done.primary === undefined ? [] : [done.primary]), ...done.bands];
    const added = all.filter((band) => !planned.some((one) => sameBand(band, one)));
    const missing = planned.filter((band) => !all.some((one) => sameBand(band, one)));
    if (added.length > 0) found.push(`${added.map(bandText).join(', ')} was not among the bands planned`);
    if (missing.length > 0) found.push(`${missing.map(bandText).join(', ')} was planned and is not compared`);
  }
  if (plan.runs !== undefined && (done.runsA !== plan.runs || done.runsB !== plan.runs))
    found.push(`${plan.runs} runs of each were planned and there are ${done.runsA} + ${done.runsB}`);
  if (plan.order !== undefined && done.order !== plan.order)
    found.push(
      `the order was planned as ${plan.order} and ${done.order === undefined ? 'is not known: give it in the run sheet' : `was ${done.order}`}`,
    );
  if (done.includesExcluded) found.push('runs that the sheet excludes were taken in');
  return found;
}

/** What a reader is told of it: that the plan was followed, or where it was not; or how to state a plan. */
export function planWarnings(plan: PlanFollowed | undefined, bands: number): Warning[] {
  if (plan === undefined) {
    const what = bands === 1 ? 'that this band was' : 'that these bands were';
    return [
      {
        code: 'compare.unplanned',
        message: `Nothing here shows ${what} chosen before the data were seen: state it beforehand in a plan cell, as in p = plan "…" primary 10..50 Hz, and give the comparison "plan p".`,
      },
    ];
  }
  return plan.deviations.map((deviation) => ({
    code: 'plan.deviates',
    message: `This is not as planned in ${plan.name}: ${deviation}.`,
  }));
}
