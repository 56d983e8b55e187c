import { sameDimension, dimensionOf } from '../../units/dimension.ts';
import { atomSymbols, usualCompounds } from '../../units/atoms.ts';
import { formatQuantity } from '../../units/format.ts';
import { unit } from '../../units/parse.ts';
import type { Dimension } from '../../units/unit.ts';
import type { CheckedNotebook } from '../check.ts';
import { describeKind } from '../describe.ts';
import { constants } from '../constants.ts';
import type { Accept, DimensionName, Form, ValueKind } from '../form.ts';
import { usualUnits } from '../usual.ts';
import { kindsOf } from '../work.ts';
import { caretAt, type Expecting, type Situation } from './caret.ts';
import { completeChannels, completeFiles } from './completeOutside.ts';
import type { Completion, Offer } from './offer.ts';
import type { Outside } from './outside.ts';
import { presets } from './presets.ts';
import { functionSynopsis, synopsisOf, withDefault } from './synopsis.ts';

/** What could be written at a caret, nearest to the grammar's expectation first. */
export async function completionsAt(
  notebook: CheckedNotebook,
  cell: number,
  offset: number,
  outside: Outside,
): Promise<readonly Completion[]> {
  const { situation, place } = caretAt(notebook, cell, offset);
  const offers = await offersFor(situation, notebook, outside);
  const seen = new Map<string, Completion>();
  for (const offer of offers) {
    const completion = { ...offer, place, insert: offer.insert ?? offer.label, rank: offer.rank ?? 1 };
    if (!seen.has(offer.label)) seen.set(offer.label, completion);
  }
  return [...seen.values()].sort((a, b) => a.rank - b.rank);
}

async function offersFor(situation: Situation, notebook: CheckedNotebook, outside: Outside): Promise<readonly Offer[]> {
  switch (situation.type) {
    case 'nowhere':
      return [];
    case 'statement':
      return [
        ...verbs(notebook, () => true),
        ...names(notebook, () => true, 1),
        ...functions(notebook),
        ...constantOffers(),
      ];
    case 'pipe':
      return verbs(notebook, (form) => takes(form, situation.kind));
    case 'field':
      return fields(notebook, situation.kind);
    case 'unit':
      return units(situation.of.dimension);
    case 'value':
      return [
        ...names(
          notebook,
          (kind) => kind === 'quantity' || kind === 'levels' || kind === 'comparison' || kind === 'bands',
          1,
        ),
        ...functions(notebook),
        ...constantOffers(),
      ];
    case 'text':
      return completeFiles(situation.expecting, situation.written, outside);
    case 'argument': {
      const lists = await Promise.all(
        situation.expecting.map((expecting) => argumentOffers(expecting, situation.afterNumber, notebook, outside)),
      );
      return lists.flat();
    }
  }
}

const takes = (form: Form, kind: ValueKind | undefined): boolean => {
  const kinds = form.operands[0] ? kindsOf(form.operands[0].accepts) : [];
  return kinds.length > 0 && (kind === undefined || kinds.includes(kind));
};

function verbs(notebook: CheckedNotebook, wanted: (form: Form) => boolean): readonly Offer[] {
  return notebook.catalogue.verbs.filter(wanted).map((form) => ({
    label: form.verb,
    kind: 'verb',
    detail: form.summary,
    doc: ['```washboard', synopsisOf(form).text, '```', form.help].join('\n'),
    insert: `${form.verb} `,
    again: true,
    rank: 2,
  }));
}

function names(
  notebook: CheckedNotebook,
  wanted: (kind: ValueKind | undefined, dimension: Dimension | undefined) => boolean,
  rank: number,
): readonly Offer[] {
  return [...notebook.types]
    .filter(([, { kind, dimension }]) => kind === undefined || wanted(kind, dimension))
    .map(([label, { kind }]) => ({
      label,
      kind: 'name',
      rank,
      ...(kind ? { detail: describeKind(kind, notebook.vocabulary.kinds) } : {}),
    }));
}

function functions(notebook: CheckedNotebook): readonly Offer[] {
  return notebook.catalogue.functions.map((form) => ({
    label: form.name,
    kind: 'function',
    detail: functionSynopsis(form).text,
    doc: `${form.summary}\n\n\`${form.example}\``,
    insert: `${form.name}(`,
    again: true,
    rank: 3,
  }));
}

const constantOffers = (): readonly Offer[] =>
  Object.entries(constants).map(([label, value]) => ({
    label,
    kind: 'constant',
    detail: formatQuantity(value, 10),
    rank: 4,
  }));

function fields(notebook: CheckedNotebook, kind: ValueKind | undefined): readonly Offer[] {
  const known = kind ? (notebook.vocabulary.kinds.get(kind)?.fields ?? []) : [];
  return known.map(({ name, doc }) => ({ label: name, kind: 'field', detail: doc }));
}

/** Units of a dimension, those of the trade first; all where nothing is known of it. */
function units(dimension: Dimension | undefined): readonly Offer[] {
  const usual = Object.values(usualUnits).flat();
  return [...new Set([...usual, ...usualCompounds, ...atomSymbols])]
    .filter((symbol) => !dimension || sameDimension(unit(symbol).dimension, dimension))
    .map((label) => ({ label, kind: 'unit', rank: usual.includes(label) ? 1 : 2 }));
}

async function argumentOffers(
  expecting: Expecting,
  afterNumber: boolean,
  notebook: CheckedNotebook,
  outside: Outside,
): Promise<readonly Offer[]> {
  const { accepts } = expecting;
  if (afterNumber) return [...unitOffers(accepts), ...keywordOffers(expecting)];
  const lists = await Promise.all(accepts.map((accept) => acceptOffers(accept, expecting, notebook, outside)));
  return [...lists.flat(), ...keywordOffers(expecting)];
}

const unitOffers = (accepts: readonly Accept[]): readonly Offer[] =>
  accepts.flatMap((accept) => (accept.type === 'quantity' || accept.type === 'range' ? unitsOf(accept.dimension) : []));

const unitsOf = (name: DimensionName): readonly Offer[] =>
  units(name === 'any' ? undefined : dimensionOf(name)).map((offer) => ({ ...offer, rank: (offer.rank ?? 1) - 1 }));

const unitOffer: Offer = {
  label: 'in',
  kind: 'keyword',
  detail: 'The result in another unit of what it measures.',
  insert: 'in ',
  again: true,
  rank: 3,
};

const keywordOffers = ({ options, operands, asksUnit }: Expecting): readonly Offer[] => [
  ...operands.map(({ keyword, doc }) => ({
    label: keyword!,
    kind: 'keyword' as const,
    detail: doc,
    insert: `${keyword} `,
    again: true,
    rank: 1,
  })),
  ...options.map((option) => ({
    label: option.keyword,
    kind: 'keyword' as const,
    detail: withDefault(option),
    insert: option.accepts.length > 0 || option.parts ? `${option.keyword} ` : option.keyword,
    again: true,
    rank: 2,
  })),
  ...(asksUnit ? [unitOffer] : []),
];

async function acceptOffers(
  accept: Accept,
  expecting: Expecting,
  notebook: CheckedNotebook,
  outside: Outside,
): Promise<readonly Offer[]> {
  switch (accept.type) {
    case 'value':
      return [
        ...names(notebook, (kind) => kind !== undefined && accept.kinds.includes(kind), 0),
        ...bracketed(accept.kinds, notebook),
      ];
    case 'quantity':
      return names(notebook, (kind, dimension) => kind === 'quantity' && fits(dimension, accept.dimension), 0);
    case 'number':
    case 'integer':
      return names(notebook, (kind, dimension) => kind === 'quantity' && fits(dimension, 'ratio'), 0);
    case 'range':
      return presets(accept.dimension);
    case 'word':
      return accept.words.map((label) => ({ label, kind: 'word', rank: 0 }));
    case 'unit':
      return unitsOf(accept.dimension);
    case 'step':
      return stepOffers(accept.verb, notebook);
    case 'text':
      return completeFiles([expecting], undefined, outside);
    case 'channel':
      return accept.role === 'label' ? [] : completeChannels(expecting, notebook, outside);
  }
}

const fits = (dimension: Dimension | undefined, name: DimensionName): boolean =>
  name === 'any' || dimension === undefined || sameDimension(dimension, dimensionOf(name));

/** Verbs that make what is wanted, in the brackets that they need here. */
const bracketed = (kinds: readonly ValueKind[], notebook: CheckedNotebook): readonly Offer[] =>
  kinds.length > 4
    ? []
    : notebook.catalogue.verbs
        .filter(({ gives }) => kinds.includes(gives))
        .map((form) => ({
          label: `(${form.verb} …)`,
          kind: 'verb',
          detail: form.summary,
          insert: `(${form.verb} `,
          again: true,
          rank: 5,
        }));

function stepOffers(verb: string, notebook: CheckedNotebook): readonly Offer[] {
  const form = notebook.vocabulary.verbs.get(verb);
  const first = form?.operands[0]?.accepts.flatMap((accept) => (accept.type === 'word' ? accept.words : [])) ?? [];
  const whole = form
    ? [{ label: verb, kind: 'verb' as const, detail: form.summary, insert: `${verb} `, again: true, rank: 1 }]
    : [];
  return [...first.map((label) => ({ label, kind: 'word' as const, rank: 0 })), ...whole];
}
