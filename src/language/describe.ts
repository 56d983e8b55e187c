import { withArticle } from '../units/dimension.ts';
import type { Accept, DimensionName, Form, ValueKind } from './form.ts';
import { usualUnit } from './usual.ts';
import type { Kinds } from './vocabulary.ts';

const dimensions: Readonly<Record<DimensionName, string>> = {
  ...withArticle,
  ratio: 'a percentage or plain number',
  any: 'a quantity',
};

const samples: Readonly<Record<DimensionName, string>> = {
  time: '5..80 s',
  frequency: '10..50 Hz',
  acceleration: '1..2 g',
  length: '1..2 m',
  mass: '60..90 kg',
  force: '10..50 N',
  stiffness: '20..40 N/mm',
  pressure: '2..4 bar',
  speed: '5..10 km/h',
  ratio: '5..15 %',
  level: '-3..3 dB',
  angle: '0..3 rad',
  'angular velocity': '10..50 rad/s',
  any: '10..50 Hz',
};

/** A kind in a sentence: `a spectrum`, `runs`. */
export const describeKind = (kind: ValueKind, kinds: Kinds): string => kinds.get(kind)?.words ?? 'a value';

export const describeDimensionName = (name: DimensionName): string => dimensions[name];

/** A sentence names no more kinds than so many; what takes more is told by the first ones. */
const mostKinds = 6;
const firstKinds = 4;

/**
 * What may stand in a slot, each way in words: `runs`, `a range such as 10..50 Hz`, `a number`.
 * @param inFull whether each kind is named however many there are: for a table, not for a sentence
 */
export const describeAccepts = (accepts: readonly Accept[], kinds: Kinds, inFull = false): readonly string[] => [
  ...new Set(accepts.flatMap((accept) => describeAccept(accept, kinds, inFull))),
];

/** Kinds as alternatives, each in words. @param inFull as for `describeAccepts` */
export function describeKinds(all: readonly ValueKind[], kinds: Kinds, inFull = false): readonly string[] {
  const named = inFull || all.length <= mostKinds ? all : all.slice(0, firstKinds);
  const words = named.map((kind) => describeKind(kind, kinds));
  return named.length === all.length ? words : [...words, `one of ${all.length - named.length} more kinds of value`];
}

function describeAccept(accept: Accept, kinds: Kinds, inFull: boolean): readonly string[] {
  switch (accept.type) {
    case 'value':
      return describeKinds(accept.kinds, kinds, inFull);
    case 'quantity':
      return [dimensions[accept.dimension]];
    case 'range':
      return [`a range such as ${samples[accept.dimension]}`];
    case 'number':
      return ['a number'];
    case 'integer':
      return ['a whole number'];
    case 'text':
      return [accept.role === 'files' ? 'the name of a file in quotes' : 'a text in quotes'];
    case 'word':
      return accept.words.map((word) => `\`${word}\``);
    case 'channel':
      return [accept.role === 'label' ? 'a name' : "a channel's name"];
    case 'unit':
      return [accept.dimension === 'any' ? 'a unit' : `a unit of ${accept.dimension}`];
    case 'step':
      return [`a \`${accept.verb} …\` written in place`];
  }
}

/** In characters: longer ones would bury the sentence that they stand in. */
const longestExample = 100;

/** A line of the verb's examples in which it stands; undefined where there is none that is short and whole. */
export function exampleLine({ verb, examples }: Form): string | undefined {
  const lines = examples.flatMap((example) => example.split('\n')).map((line) => line.trim());
  const stands = (line: string): boolean => line.split(/[\s(|=]+/).includes(verb);
  return lines.find((line) => stands(line) && line.length <= longestExample && !line.endsWith(','));
}

/** A value that could stand there, to be put in by a quick fix; undefined where none can be guessed. */
export function sampleOf(accepts: readonly Accept[]): string | undefined {
  for (const accept of accepts) {
    const sample = sampleOfOne(accept);
    if (sample !== undefined) return sample;
  }
  return undefined;
}

function sampleOfOne(accept: Accept): string | undefined {
  switch (accept.type) {
    case 'quantity':
      return accept.dimension === 'any' ? undefined : samples[accept.dimension].replace(/^.*\.\./, '');
    case 'range':
      return samples[accept.dimension];
    case 'number':
    case 'integer':
      return String(accept.least ?? 1);
    case 'text':
      return '""';
    case 'word':
      return accept.words[0];
    case 'unit':
      return accept.dimension === 'any' ? 'g' : usualUnit(accept.dimension);
    case 'value':
    case 'channel':
    case 'step':
      return undefined;
  }
}
