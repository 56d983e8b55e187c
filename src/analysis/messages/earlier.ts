import { messages } from '../../result/messages.ts';
import { allOf, capitalised, fewNames, listed } from '../../result/words.ts';
import type { Outcome } from '../../statistics/outcome.ts';
import type { Band } from '../../values/band.ts';
import { nearest } from '../../units/nearest.ts';
import { percent } from '../../values/number.ts';
import { bandText } from '../bandWords.ts';
import { intervalText, percentText, signedPercentText, sizesText } from '../percents.ts';

export interface EarlierFacts {
  'earlier.record': { readonly path: string; readonly why: 'json' | 'object' | 'incomplete' | 'large' };
  'earlier.version': { readonly path: string; readonly version: unknown };
  'earlier.row': { readonly path: string; readonly row: string };
  'earlier.absent': { readonly path: string; readonly name: string; readonly known: readonly string[] };
  'earlier.empty': { readonly path: string };
  'earlier.label': { readonly label: string; readonly records: number };
  'pool.few': { readonly studies: readonly string[] };
  'pool.figures': { readonly study: string };
  'pool.metric': { readonly studies: readonly string[]; readonly metrics: readonly string[] };
  'pool.none': { readonly studies: readonly string[]; readonly changes: readonly (readonly string[])[] };
  'pool.inference': { readonly study: string; readonly change: string };
  'pool.shared': { readonly studies: readonly string[]; readonly file: string };
  'pool.twice': { readonly study: string };
  'pool.left': { readonly study: string; readonly changes: readonly string[] };
  'pool.names': { readonly conditions: readonly string[] };
  'result.pooled': PooledFacts;
  'result.pooled-guard': { readonly study: string; readonly why: string };
}

/** What a pooled change is told from. */
export interface PooledFacts {
  readonly metric: string;
  readonly channel: string;
  /** Undefined of the whole signal. */
  readonly band: Band | undefined;
  readonly baseline: string;
  readonly condition: string;
  readonly outcome: Outcome;
  readonly changePercent: number;
  readonly lowPercent: number;
  readonly highPercent: number;
  readonly confidence: number;
  /** How many rows the interval holds for together. */
  readonly family: number;
  readonly studies: readonly {
    readonly name: string;
    readonly changePercent: number;
    /** Of the baseline and of the condition, where they are known. */
    readonly runs: readonly [number, number] | undefined;
  }[];
  /** Why no verdict rests on it. */
  readonly guards: readonly string[];
}

const reasons: Readonly<Record<EarlierFacts['earlier.record']['why'], string>> = {
  json: 'it is no JSON, cut short or with the marks of a merge in it',
  object: 'it holds no object',
  incomplete: 'its notebook, its raw files or its results are missing',
  large: 'it is larger than 50 MB',
};

/** In the words of a comparison's own results, with the change and the runs of each study. */
function pooledText(facts: PooledFacts): string {
  const { metric, channel, band, baseline, condition, outcome, confidence, family, guards } = facts;
  const { changePercent, lowPercent, highPercent } = facts;
  const where = band === undefined ? channel : `${channel}, ${bandText(band)}`;
  const studies = `${listed(facts.studies.map(({ name }) => name))} pooled with equal weights`;
  const together = family === 1 ? '' : ` for ${allOf(family, 'changes')} together`;
  const each = facts.studies.map(({ name, changePercent: own, runs }) => {
    const of = runs === undefined ? '' : ` in ${runs.join(' + ')} runs`;
    return `${name} by itself ${signedPercentText(own)}${of}`;
  });
  const within = (ends: string): string => `(${percent(confidence)} interval ${ends}${together}; ${each.join(', ')})`;
  const signed = `${signedPercentText(changePercent)} ${within(intervalText(lowPercent, highPercent))}`;
  const difference = `A difference in ${metric} (${where}) between ${condition} and ${baseline} is not shown`;
  const limit = 'It holds of these studies, not of others.';
  if (guards.length > 0) return `${difference}: ${signed} was found, ${studies}, but ${guards.join('; ')}.`;
  if (outcome !== 'lower' && outcome !== 'higher') return `${difference}, ${studies}: ${signed}. ${limit}`;
  const ends = outcome === 'lower' ? sizesText(-highPercent, -lowPercent) : sizesText(lowPercent, highPercent);
  return `${capitalised(metric)} (${where}) was ${percentText(changePercent)} ${outcome} with ${condition} than with ${baseline}, ${studies} ${within(ends)}. ${limit}`;
}

const quoted = (name: string): string => `"${name}"`;

/** What is said of the records of other studies. */
export const { tell, refuse } = messages<EarlierFacts>({
  'earlier.record': ({ path, why }) =>
    `${path} can't be read as a record: ${reasons[why]}. A record is what "washboard record NOTEBOOK" writes; have it written anew, or name another file.`,
  'earlier.version': ({ path, version }) =>
    `${path} says that it is a record of version ${version === undefined ? 'none' : JSON.stringify(version)}, and only version 1 is known here: have it written anew by this version of Washboard.`,
  'earlier.row': ({ path, row }) =>
    `${path} is damaged at ${row}: the change, its interval and its outcome are not all there, or do not fit one another. Have the record written anew.`,
  'earlier.absent': ({ path, name, known }) => {
    const near = nearest(name, known).at(0);
    const there =
      near === undefined ? `it has ${listed(known, 'and', fewNames, quoted)}.` : `did you mean ${quoted(near)}?`;
    return `There is no ${quoted(name)} in ${path}: ${known.length === 0 ? 'it holds no results.' : there}`;
  },
  'earlier.empty': ({ path }) =>
    `${path} holds no results: its notebook gave none when the record was written. Run the notebook there and write the record anew.`,
  'earlier.label': ({ label, records }) =>
    `The label ${quoted(label)} can stand for one study, and ${records} records are named: read each by an earlier of its own.`,
  'pool.few': ({ studies }) =>
    `Pooling takes changes of two studies or more, and here is ${studies.length === 0 ? 'none' : `that of ${studies[0]} alone`}: name another comparison or an earlier study.`,
  'pool.figures': ({ study }) =>
    `What was read of ${study} are single figures, and only changes can be pooled: take a comparison of it (\`of NAME\`).`,
  'pool.metric': ({ studies, metrics }) =>
    `${studies[0]} compared the ${metrics[0]} and ${studies[1]} the ${metrics[1]}: changes of different measures can't be pooled.`,
  'pool.none': ({ studies, changes }) =>
    `No change is the same in ${listed(studies)}, so there is nothing to pool: ${studies.map((study, k) => `${study} has ${listed(changes[k], 'and', 6)}`).join('; ')}. A change is the same in bands, axis and conditions; where each study has but one condition, its name may differ.`,
  'pool.inference': ({ study, change }) =>
    `The change in ${change} of ${study} has no standard error, since its runs allow no inference: it can't be pooled.`,
  'pool.shared': ({ studies, file }) =>
    `${studies[0]} and ${studies[1]} rest on the same recording (${file}), so they are no two studies and can't be pooled.`,
  'pool.twice': ({ study }) =>
    `Two of the studies are called ${study}: give one of them another name (\`label\`), so that the result can name them.`,
  'pool.left': ({ study, changes }) =>
    `Not pooled, since not every study has it: ${listed(changes, 'and', 6)} of ${study}.`,
  'pool.names': ({ conditions }) =>
    `The studies call what they compare by different names (${listed(conditions)}), and it is pooled as one and the same: make sure that it is.`,
  'result.pooled': pooledText,
  'result.pooled-guard': ({ study, why }) => `in ${study}, ${why}`,
});
