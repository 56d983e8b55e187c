import { orderLetters, planOf } from '../../analysis/planning/plan.ts';
import { success, type Result } from '../../result/result.ts';
import type { Claim, Settled } from '../../values/plan.ts';
import {
  hasFlag,
  operand,
  option,
  rangesIn,
  siOf,
  textOf,
  textsIn,
  wordOf,
  type Argument,
  type Arguments,
  type Verb,
  confidenceAccepted,
  marginAccepted,
  refuse,
} from '../verb.ts';
import { boundWords, directionWords, ofWords } from '../../analysis/evidence/claims.ts';
import { claimFrom, sizeAccepts } from '../evidence/claim.ts';
import { adjustmentsIn, adjustOption, methodIn, metricIn, metricOption } from '../evidence/compareRequest.ts';

export const plan: Verb = {
  form: {
    verb: 'plan',
    summary: 'States what is to be found out and how, before the data are seen.',
    help: 'A plan names the question, what is measured (`metric`, `channel`), the one band that counts (`primary`) and others (`over`), the claim, the margin within which both count as the same, the number and order of the runs, the baseline and the conditions held against it, the strata (`within`), the covariates that are taken out (`adjust`), the method, and rules for leaving runs out. It is marked by the SHA-256 of what it states, so a later change of it shows. A comparison that is given the plan takes from it whatever it does not state itself, and every result says where it departs from it. What is left out was not settled. A plan is worth most when it is committed before the first recording: where the notebook lies in git, a comparison by the plan tells whether it was.',
    operands: [{ name: 'question', doc: 'The question, in a sentence.', accepts: [{ type: 'text', role: 'label' }] }],
    options: [
      metricOption,
      { keyword: 'channel', doc: 'The channel.', accepts: [{ type: 'channel' }] },
      {
        keyword: 'primary',
        doc: 'The band that the question is about.',
        accepts: [{ type: 'range', dimension: 'frequency' }],
      },
      {
        keyword: 'over',
        mistaken: ['band', 'bands'],
        doc: 'Other bands to look at.',
        accepts: [{ type: 'range', dimension: 'frequency' }],
        many: true,
      },
      {
        keyword: 'claim',
        doc: 'The claim to be judged, as `claim` takes it.',
        accepts: [],
        parts: [
          { accepts: [{ type: 'word', words: directionWords }], doc: 'Which way.' },
          { accepts: [{ type: 'word', words: boundWords }], optional: true, doc: 'How the figure is meant.' },
          { accepts: sizeAccepts, optional: true, doc: 'By how much.' },
          { accepts: [{ type: 'word', words: ofWords }], optional: true, doc: 'What the percentage is of.' },
        ],
      },
      {
        keyword: 'tolerance',
        doc: 'Points either way, for a claim with about.',
        accepts: [{ type: 'quantity', dimension: 'ratio', least: 0 }],
      },
      {
        keyword: 'margin',
        doc: 'Smaller changes count as none.',
        accepts: [marginAccepted],
      },
      {
        keyword: 'confidence',
        doc: 'Of the intervals.',
        accepts: [confidenceAccepted],
      },
      {
        keyword: 'repeats',
        doc: 'Runs of each condition; within strata, in every one.',
        accepts: [{ type: 'integer', least: 1, most: 1000 }],
      },
      {
        keyword: 'order',
        doc: 'The order of the runs, within strata that of each: from `order`, or as letters.',
        accepts: [{ type: 'value', kinds: ['order'] }, { type: 'text' }],
      },
      { keyword: 'baseline', doc: 'What the others are held against.', accepts: [{ type: 'channel', role: 'label' }] },
      {
        keyword: 'conditions',
        doc: 'What is held against the baseline: `conditions rubber, cork`.',
        accepts: [{ type: 'channel', role: 'label' }],
        many: true,
      },
      { keyword: 'all-pairs', doc: 'Compare every two conditions, and not only each with the baseline.', accepts: [] },
      {
        keyword: 'within',
        doc: 'Columns of the run sheet within whose words runs are compared.',
        accepts: [{ type: 'channel', role: 'label' }],
        many: true,
      },
      adjustOption,
      { keyword: 'pooled', doc: 'Let one scatter stand for all runs (Dunnett, Tukey).', accepts: [] },
      { keyword: 'paired', doc: 'Compare within pairs of neighbouring runs.', accepts: [] },
      { keyword: 'trend', doc: 'Take a steady drift over the order of the runs out.', accepts: [] },
      { keyword: 'rules', doc: 'When a run is left out, one sentence each.', accepts: [{ type: 'text' }], many: true },
      { keyword: 'source', doc: 'Where the claim stands.', accepts: [{ type: 'text', role: 'label' }] },
    ],
    elsewhere: [{ words: directionWords, after: 'claim', isStep: false }],
    gives: 'plan',
    examples: [
      'plan "Which mount lowers vibration?" channel z baseline rigid conditions rubber, cork within surface primary 10..50 Hz,\n  repeats 4 order (order 4 conditions rigid, rubber, cork) adjust speed exponent 1.5',
      'plan "Does the gel pad lower vertical vibration on bricks by 30 %?" channel z,\n  primary 10..50 Hz over 4..10 Hz, 50..100 Hz,\n  claim reduction 30 % repeats 4 order "ABBA BAAB",\n  rules "the whole path without a stop"',
    ],
  },
  readsHistory: true,
  async evaluate(given, { digest, history }) {
    const settled = settledIn(given);
    if (!settled.ok) return settled;
    const rules = (given.options.rules ?? []).flatMap((argument) => textOf(argument) ?? []);
    const found = planOf(settled.value, rules, digest);
    if (!found.ok || history?.source === undefined) return found;
    const committed = await history.of.textSince(history.source);
    return committed === undefined ? found : { ...found, value: { ...found.value, committed } };
  },
};

/** What the words settle; what they leave out is not there. */
function settledIn(given: Arguments): Result<Settled> {
  const claim = claimIn(given);
  if (!claim.ok) return claim;
  const order = orderIn(option(given, 'order'));
  if (!order.ok) return order;
  const method = methodIn(given);
  if (!method.ok) return method;
  const adjust = adjustmentsIn(given);
  if (!adjust.ok) return adjust;
  const metric = metricIn(given);
  if (!metric.ok) return metric;
  const bands = rangesIn(given.options.over ?? []);
  const entries: { [Item in keyof Settled]-?: Settled[Item] | undefined } = {
    question: textOf(operand(given, 'question')) ?? '',
    metric: metric.value,
    channel: textOf(option(given, 'channel')),
    primary: rangesIn(given.options.primary ?? [])[0],
    bands: bands.length === 0 ? undefined : bands,
    claim: claim.value,
    source: textOf(option(given, 'source')),
    margin: siOf(given, 'margin'),
    confidence: siOf(given, 'confidence'),
    method: method.value,
    runs: siOf(given, 'repeats'),
    order: order.value,
    baseline: textOf(option(given, 'baseline')),
    conditions: someOf(textsIn(given.options.conditions)),
    isAllPairs: hasFlag(given, 'all-pairs') ? true : undefined,
    within: someOf(textsIn(given.options.within)),
    adjust: someOf(adjust.value),
    isPooled: hasFlag(given, 'pooled') ? true : undefined,
  };
  return success(
    Object.fromEntries(Object.entries(entries).filter(([, value]) => value !== undefined)) as unknown as Settled,
  );
}

const someOf = <T>(list: readonly T[]): readonly T[] | undefined => (list.length === 0 ? undefined : list);

function claimIn(given: Arguments): Result<Claim | undefined> {
  const group = option(given, 'claim');
  const tolerance = option(given, 'tolerance');
  if (group === undefined)
    return tolerance === undefined
      ? success(undefined)
      : refuse('claim.words', { fault: 'tolerance-alone' }, 'tolerance');
  const parts = group.type === 'group' ? group.parts : [group];
  const words = parts.flatMap((part) => wordOf(part) ?? []);
  const among = (list: readonly string[]): string | undefined => words.find((word) => list.includes(word));
  return claimFrom(
    {
      direction: among(directionWords) ?? '',
      bound: among(boundWords),
      size: parts.find(({ type }) => type === 'quantity'),
      of: among(ofWords),
      tolerance,
    },
    'claim',
  );
}

function orderIn(argument: Argument | undefined): Result<string | undefined> {
  if (argument?.type === 'value' && argument.value.kind === 'order') return success(argument.value.sequence.join(''));
  const text = textOf(argument);
  return text === undefined ? success(undefined) : orderLetters(text);
}
