import type { Place } from './diagnostic.ts';
import type { LanguageFacts } from './facts.ts';
import { sliceOf } from './fit.ts';
import type { Elsewhere } from './form.ts';
import type { Operand } from './tree.ts';

/**
 * What is said of words that belong elsewhere: how they are written there, with what follows them.
 *
 * @param passed the word and what follows it up to the next keyword; at least the word
 */
export function toldElsewhere(
  { after, isStep }: Elsewhere,
  verb: string,
  passed: readonly Operand[],
  text: string,
): { readonly place: Place; readonly facts: LanguageFacts['word.elsewhere'] } {
  const [word, second = word] = passed;
  const { to } = passed[passed.length - 1].place;
  // A keyword that is said anyway is not said twice.
  const first = after.split(' ').includes(sliceOf(text, word)) ? second : word;
  return {
    place: { from: word.place.from, to },
    facts: {
      verb,
      isStep,
      found: text.slice(word.place.from, to),
      instead: `${after} ${text.slice(first.place.from, to)}`,
    },
  };
}
