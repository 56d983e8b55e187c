import type { Claim } from '../../statistics/claimForm.ts';
import { boundWords, claimFrom, directionWords, ofWords, sizeAccepts } from '../evidence/claimWords.ts';
import type { Refused } from '../evidence/sides.ts';
import { bandText } from '../../analysis/evidence/compareSentence.ts';
import { hasFlag, option, operand, si, siOf, textOf, wordOf } from '../arguments.ts';
import { metricWords, metrics, isWeighting } from '../evidence/metrics.ts';
import { claimText } from '../../analysis/evidence/methodWords.ts';
import { percentText } from '../../analysis/percents.ts';
import type { Band } from '../../values/band.ts';
import type { PlanValue, Settled } from '../../values/plan.ts';
import { answer, type Argument, type Arguments, type Verb } from '../verb.ts';
import { refuse, type Warning } from '../../result/result.ts';

export const plan: Verb = {
  form: {
    verb: 'plan',
    summary: 'States what is to be found out and how, before the data are seen.',
    help: 'A plan names the question, what is measured (`metric`, `channel`), the one band that counts (`primary`) and others (`over`), the claim, the margin within which both count as the same, the number and order of the runs, the method, and rules for leaving runs out. It is marked by the SHA-256 of what it states, so a later change of it shows. A comparison that is given the plan takes from it whatever it does not state itself, and every result says where it departs from it. What is left out was not settled. A plan is worth most when it is committed before the first recording.',
    operands: [{ name: 'question', doc: 'The question, in a sentence.', accepts: [{ type: 'text', role: 'label' }] }],
    options: [
      { keyword: 'metric', doc: 'The level that is compared.', accepts: [{ type: 'word', words: metricWords }] },
      { keyword: 'channel', doc: 'The channel.', accepts: [{ type: 'channel' }] },
      {
        keyword: 'primary',
        doc: 'The band that the question is about.',
        accepts: [{ type: 'range', dimension: 'frequency' }],
      },
      {
        keyword: 'over',
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
        accepts: [{ type: 'quantity', dimension: 'ratio', above: 0, most: 1 }],
      },
      {
        keyword: 'confidence',
        doc: 'Of the intervals.',
        accepts: [{ type: 'quantity', dimension: 'ratio', least: 0.5, most: 0.9999 }],
      },
      { keyword: 'repeats', doc: 'Runs of each condition.', accepts: [{ type: 'integer', least: 1, most: 1000 }] },
      {
        keyword: 'order',
        doc: 'The order of the runs: from `order`, or as letters.',
        accepts: [{ type: 'value', kinds: ['order'] }, { type: 'text' }],
      },
      { keyword: 'paired', doc: 'Compare within pairs of neighbouring runs.', accepts: [] },
      { keyword: 'trend', doc: 'Take a steady drift over the order of the runs out.', accepts: [] },
      { keyword: 'rules', doc: 'When a run is left out, one sentence each.', accepts: [{ type: 'text' }], many: true },
      { keyword: 'source', doc: 'Where the claim stands.', accepts: [{ type: 'text', role: 'label' }] },
    ],
    gives: 'plan',
    examples: [
      'plan "Does the gel pad lower vertical vibration on bricks by 30 %?" channel z,\n  primary 10..50 Hz over 4..10 Hz, 50..100 Hz,\n  claim reduction 30 % repeats 4 order "ABBA BAAB",\n  rules "the whole path without a stop"',
    ],
  },
  evaluate(given, { digest }) {
    const settled = settledIn(given);
    if ('failure' in settled) return settled;
    const entries = entriesOf(settled, given);
    const hash = digest(entries.map(({ word, text }) => `${word}: ${text}\n`).join(''));
    const value: PlanValue = { kind: 'plan', entries, hash, settled };
    return answer(value, missing(settled));
  },
};

function settledIn(given: Arguments): Settled | Refused {
  const question = textOf(operand(given, 'question')) ?? '';
  if (question.trim() === '') return refuse('plan.question', 'A plan begins with its question, in quotes.', 'question');
  const claim = claimIn(given);
  if (claim !== undefined && 'failure' in claim) return claim;
  const order = orderIn(option(given, 'order'));
  if (order !== undefined && typeof order !== 'string') return order;
  if (hasFlag(given, 'paired') && hasFlag(given, 'trend'))
    return refuse(
      'compare.methods',
      'Choose one of paired and trend: each takes another kind of wandering out.',
      'trend',
    );
  const bands = (given.options.over ?? []).flatMap(bandIn);
  const primary = (given.options.primary ?? []).flatMap(bandIn)[0];
  const backward = [...bands, ...(primary === undefined ? [] : [primary])].find(({ from, to }) => !(to > from));
  if (backward !== undefined)
    return refuse('range.backward', `The band ${bandText(backward)} has no width: give the lower edge first.`, 'over');
  const runs = siOf(given, 'repeats');
  const letters = order === undefined ? undefined : [...order].filter((letter) => letter === 'A').length;
  if (order !== undefined && runs !== undefined && (letters !== runs || order.length !== 2 * runs))
    return refuse(
      'plan.order',
      `The order holds ${letters ?? 0} runs of A and ${order.length - (letters ?? 0)} of B, and repeats says ${runs} of each.`,
      'order',
    );
  const method = hasFlag(given, 'paired') ? 'paired' : hasFlag(given, 'trend') ? 'trend' : undefined;
  const entries = {
    question,
    metric: wordOf(option(given, 'metric')),
    channel: textOf(option(given, 'channel')),
    primary,
    bands: bands.length === 0 ? undefined : bands,
    claim,
    source: textOf(option(given, 'source')),
    margin: siOf(given, 'margin'),
    confidence: siOf(given, 'confidence'),
    method,
    runs,
    order,
  };
  return Object.fromEntries(Object.entries(entries).filter(([, value]) => value !== undefined)) as unknown as Settled;
}

const bandIn = (argument: Argument): Band[] =>
  argument.type === 'range' ? [{ from: si(argument.from), to: si(argument.to) }] : [];

function claimIn(given: Arguments): Claim | Refused | undefined {
  const group = option(given, 'claim');
  if (group === undefined) {
    return given.options.tolerance === undefined
      ? undefined
      : refuse(
          'claim.words',
          'A tolerance goes with a claim, as in "claim reduction about 15 % tolerance 5 %".',
          'tolerance',
        );
  }
  const parts = group.type === 'group' ? group.parts : [group];
  const words = parts.flatMap((part) => wordOf(part) ?? []);
  const among = (list: readonly string[]): string | undefined => words.find((word) => list.includes(word));
  return claimFrom(
    {
      direction: among(directionWords) ?? '',
      bound: among(boundWords),
      size: parts.find(({ type }) => type === 'quantity'),
      of: among(ofWords),
      tolerance: option(given, 'tolerance'),
    },
    'claim',
  );
}

/** The letters of an order, without the blanks between fours. */
function orderIn(argument: Argument | undefined): string | Refused | undefined {
  if (argument?.type === 'value' && argument.value.kind === 'order') return argument.value.sequence.join('');
  const text = textOf(argument);
  if (text === undefined) return undefined;
  const letters = text.replace(/[\s,]+/g, '').toUpperCase();
  if (/^[AB]+$/.test(letters)) return letters;
  return refuse(
    'plan.order',
    `An order is written in the letters A and B, as in "ABBA BAAB", and not as "${text}".`,
    'order',
  );
}

/** What the plan states, in words and in one order, however it was written. */
function entriesOf(settled: Settled, given: Arguments): { word: string; text: string }[] {
  const { metric, primary, bands, claim, margin, confidence, runs, order, method } = settled;
  const rules = (given.options.rules ?? []).flatMap((argument) => textOf(argument) ?? []);
  const lines: [string, string | undefined][] = [
    ['question', settled.question],
    ['metric', metric === undefined ? undefined : metricText(metric)],
    ['channel', settled.channel],
    ['primary band', primary && bandText(primary)],
    ['other bands', bands?.map(bandText).join(', ')],
    ['claim', claim && claimText(claim)],
    ['source of the claim', settled.source],
    ['margin', margin === undefined ? undefined : percentText(100 * margin)],
    ['confidence', confidence === undefined ? undefined : percentText(100 * confidence)],
    ['method', method],
    ['runs of each', runs === undefined ? undefined : String(runs)],
    ['order', order?.replace(/(.{4})(?=.)/g, '$1 ')],
    ...rules.map((rule, index): [string, string] => [`rule ${index + 1}`, rule]),
  ];
  return lines.flatMap(([word, text]) => (text === undefined ? [] : [{ word, text }]));
}

const metricText = (metric: string): string =>
  isWeighting(metric) ? `r.m.s. weighted by ${metric}` : metrics[metric as keyof typeof metrics];

/** What a verdict will need and the plan does not settle. */
function missing({ primary, bands, metric, channel, runs }: Settled): Warning[] {
  const parts: [string, boolean][] = [
    [
      'a band (primary 10..50 Hz)',
      primary !== undefined || bands !== undefined || metric === 'vdv' || metric?.startsWith('p99') === true,
    ],
    ['a channel (channel z)', channel !== undefined],
    ['the number of runs (repeats 4)', runs !== undefined],
  ];
  const open = parts.flatMap(([words, there]) => (there ? [] : [words]));
  if (open.length === 0) return [];
  return [
    {
      code: 'plan.open',
      message: `The plan leaves open what can no longer be settled once the data are seen: ${open.join(', ')}.`,
    },
  ];
}
