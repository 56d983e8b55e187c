import type { Failure, Message, Refused } from './result.ts';
import { visibleLine } from './visible.ts';

/** A room's sentences, by code: each is made of its facts alone, and nowhere else. */
export type Sentences<Facts extends object> = { readonly [Code in keyof Facts]: (facts: Facts[Code]) => string };

/** Keywords of the options that would settle what a code tells, the likeliest first. */
export type Settling<Facts extends object> = {
  readonly [Code in keyof Facts]?: (facts: Facts[Code]) => readonly string[];
};

/** The makers of a room's messages. */
export interface Messages<Facts extends object> {
  readonly tell: <Code extends keyof Facts & string>(code: Code, facts: Facts[Code] & object) => Message;
  readonly refuse: <Code extends keyof Facts & string>(code: Code, facts: Facts[Code] & object, at?: string) => Refused;
  /** What the room told, with some facts changed and its sentence made anew; undefined of a code that is not the room's. */
  readonly toldAgain: <M extends Message>(message: M, change: object) => M | undefined;
  /** What the room told, of something that is named before it: a run, a line. The sentence is made of the facts anew. */
  readonly tellOf: <M extends Message>(of: string, message: M) => M;
}

/**
 * A room's one home of messages: `interface Facts { 'trim.empty': { run: string } }`, a sentence for each code, and
 * from them the functions that the room's other files call. A code without a sentence does not compile.
 */
export function messages<Facts extends object>(
  sentences: Sentences<Facts>,
  settling: Settling<Facts> = {},
): Messages<Facts> {
  // Names, labels and whatever else the facts have from files are only text in a sentence, which is one line.
  const sentence = <Code extends keyof Facts>(code: Code, facts: Facts[Code], lead = ''): string =>
    visibleLine(lead + sentences[code](facts));
  const tell: Messages<Facts>['tell'] = (code, facts) => {
    const settledBy = settling[code]?.(facts);
    const message = sentence(code, facts);
    return settledBy === undefined ? { code, facts, message } : { code, facts, message, settledBy };
  };
  return {
    tell,
    toldAgain: (message, change) => {
      const code = message.code as keyof Facts & string;
      if (!Object.hasOwn(sentences, code)) return undefined;
      return { ...message, ...tell(code, { ...message.facts, ...change } as Facts[keyof Facts & string] & object) };
    },
    tellOf: (of, message) => {
      const [code, facts] = [message.code, message.facts] as [keyof Facts, Facts[keyof Facts]];
      return { ...message, facts: { ...message.facts, of }, message: sentence(code, facts, `${of}: `) };
    },
    refuse: (code, facts, at) => {
      const failure: Failure = at === undefined ? tell(code, facts) : { ...tell(code, facts), at };
      return { ok: false, failure };
    },
  };
}
