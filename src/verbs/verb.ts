import { channelsLeftOut, faultWarnings } from '../analysis/recordings/faults.ts';
import type { Listing } from '../analysis/recordings/load.ts';
import { runsOf } from '../values/kinds.ts';
import { windowNames, windowOfShape } from '../analysis/spectra/window.ts';
import type { Accept, Form, OptionForm } from '../language/form.ts';
import {
  answered,
  type Answer as AnswerOf,
  type Answered as AnsweredOf,
  type ChannelOfRun,
  type Refused,
  type Result,
  type Warning,
} from '../result/result.ts';
import { roundedSI as si } from '../units/arithmetic.ts';
import { standardUncertainty, type UncertaintyParts } from '../units/uncertainty.ts';
import type { Quantity, Unit } from '../units/unit.ts';
import type { Band } from '../values/band.ts';
import type { Files, History, WantedRecording, Watch } from '../values/ports.ts';
import type { Run } from '../values/run.ts';
import type { Value, ValueOf } from '../values/value.ts';
import type { WindowName, WindowValue } from '../values/window.ts';
import { refuse, type ClaimFault } from './messages.ts';

/** A raw file that a call reads. */
export interface Source {
  readonly path: string;
  /** How it is read, where it is read as a recording. */
  readonly recording?: WantedRecording;
}

/** A verb: one file, one form, one evaluation. A new verb touches its own file and one line of the catalogue. */
export interface Verb {
  readonly form: Form;
  /** Whether it hands its runs on, or shows their findings itself, so that their faults need not be said with its result. */
  readonly passesFaults?: boolean;
  /** Whether its value tells of the project's history, so that it is another after the next commit. */
  readonly readsHistory?: boolean;
  /**
   * The raw files a call reads, so that their contents can be part of its cache key; only of verbs that read.
   * Patterns as they stand in the call; the engine expands and hashes them.
   */
  sources?(given: Arguments, files: Files): Promise<Result<readonly Source[]>>;
  /**
   * Whether it goes over the runs of its operand one by one: then it is given sets of one run, and the set's value is
   * joined from theirs.
   */
  readonly each?: 'runs';
  /**
   * Whether runs that are too large for memory may be among what it is given, or behind it; or, of a call that needs all
   * samples at once nonetheless, how it is written.
   */
  readonly takesLong?: true | ((given: Arguments) => string | undefined);
  /** Of such a verb: whether it gives its runs' samples as they are, or a part of them, and needs no look at them. */
  readonly views?: true;
  /** Whether it needs no samples of the runs behind what it is given. */
  readonly needsNoSamples?: true;
  /** Of a verb that can do with what is made of each of its runs by itself: how that is made; undefined where it can't. */
  byRuns?(given: Arguments): ByRuns | undefined;
  /** What the runs that it went over one by one must have in common. */
  readonly common?: Common;
  /** Of a verb that reads recordings: which they are, and how each becomes a run. */
  lists?(given: Arguments, files: Files): Promise<AnswerOf<Listing>>;
  /** Of such a verb the operands and options that say which recordings are meant, and nothing of how they are read. */
  readonly choosing?: readonly string[];
  evaluate(given: Arguments, context: Context): Promise<Answer> | Answer;
}

/**
 * The steps that each run goes through by itself for a call that looks at all runs at once.
 * @param slot the operand or option that holds the runs
 * @param through the verbs that they went through before
 */
export type ByRuns = (slot: string, through: readonly string[]) => readonly OwnStep[];

/** A step that no word of the language stands for. */
export interface OwnStep {
  /** By which what it gives is known; plain data. */
  readonly by: readonly unknown[];
  readonly verb: Verb;
}

/** What a run gave by itself, and what each step told of it on the way. */
export interface OfRun {
  readonly value: Value;
  readonly told: readonly (readonly Warning[])[];
}

/** What must be alike in all runs of a set; plain data of each, and why they make no set. */
export interface Common {
  of(value: Value): unknown;
  whyNot(found: readonly unknown[]): Refused | undefined;
}

/** A confidence of intervals. */
export const confidenceAccepted: Accept = { type: 'quantity', dimension: 'ratio', above: 0.5, most: 0.9999 };

/** A margin, either way, within which changes count as none. */
export const marginAccepted: Accept = { type: 'quantity', dimension: 'ratio', above: 0, most: 0.99 };

/** An evaluation's answer: a value with warnings, or one sentence that says why there is none. */
export type Answer = AnswerOf<Value>;
export type Answered = AnsweredOf<Value>;

export const answer = (value: Value, warnings: readonly Warning[] = []): Answered => answered(value, warnings);

/** A value that nothing has to be told beside, as an answer. */
export const answerOf = (found: Result<Value>): Answer => (found.ok ? answer(found.value) : found);

/** What stands in one place of a call after evaluation. */
export type Argument =
  | {
      readonly type: 'value';
      readonly value: Value;
      /** The name it was bound to. */ readonly name: string | undefined;
    }
  | {
      readonly type: 'quantity';
      readonly quantity: Quantity;
      /** Where it has an uncertainty. */ readonly parts?: UncertaintyParts;
      /** As it was written, where it is a name or a field of one. */ readonly name?: string;
    }
  | { readonly type: 'range'; readonly from: Quantity; readonly to: Quantity }
  | { readonly type: 'text'; readonly text: string }
  | { readonly type: 'word'; readonly word: string; readonly text?: string }
  | { readonly type: 'unit'; readonly unit: Unit }
  | { readonly type: 'group'; readonly parts: readonly Argument[] };

/** A call's evaluated arguments, by operand name and option keyword. */
export interface Arguments {
  readonly operands: Readonly<Partial<Record<string, readonly Argument[]>>>;
  readonly options: Readonly<Partial<Record<string, readonly Argument[]>>>;
}

/** The outside, as a verb may see it. */
export interface Context {
  readonly files: Files;
  readonly watch: Watch;
  /** SHA-256 of a text, lower-case hex. */
  readonly digest: (text: string) => string;
  /** What was made of each run by itself, for a verb that can do with that where samples are away. */
  readonly ofRuns?: ReadonlyMap<Run, OfRun>;
  /** The project's history, and the call as it is written; of verbs that read it, where there is one. */
  readonly history?: { readonly of: History; readonly source: string | undefined };
}

/** Of this room, what a verb's file needs stands here: it imports nothing else of it, but what a verb beside it shares. */
export { si, refuse, type ClaimFault };

// The checker has held every call against its form, so an operand that the form demands is there and of its kind.

/** The value under an operand's name, which the form guarantees to be of this kind. */
export function valueOf<K extends Value['kind']>(given: Arguments, name: string, kind: K): ValueOf<K> {
  const found = given.operands[name]?.[0];
  if (found?.type === 'value' && found.value.kind === kind) return found.value as ValueOf<K>;
  throw new Error(`operand ${name} is not of kind ${kind}`);
}

/** An argument under an operand's name or an option's keyword, or undefined. */
export const operand = (given: Arguments, name: string): Argument | undefined => given.operands[name]?.[0];
export const option = (given: Arguments, name: string): Argument | undefined => given.options[name]?.[0];

export const hasFlag = (given: Arguments, name: string): boolean => given.options[name] !== undefined;

export function quantityIn(argument: Argument | undefined): Quantity | undefined {
  return argument?.type === 'quantity' ? argument.quantity : undefined;
}

/** The standard uncertainty that a quantity was given with, in SI units; undefined of one that is exact. */
export function uncertaintyIn(argument: Argument | undefined): number | undefined {
  if (argument?.type !== 'quantity' || argument.parts === undefined) return undefined;
  return standardUncertainty(argument.parts) * argument.quantity.unit.factor;
}

/** The size of an operand that the form demands, in SI units. */
export function sizeOf(given: Arguments, name: string): number {
  const quantity = quantityIn(operand(given, name));
  if (quantity === undefined) throw new Error(`operand ${name} is no quantity`);
  return si(quantity);
}

/** The ends of a range in SI units, or undefined where there is none. */
export function rangeIn(argument: Argument | undefined): { readonly from: number; readonly to: number } | undefined {
  return argument?.type === 'range' ? { from: si(argument.from), to: si(argument.to) } : undefined;
}

/** An option's quantity in SI units: s, Hz, a plain ratio. */
export function siOf(given: Arguments, name: string): number | undefined {
  const quantity = quantityIn(option(given, name));
  return quantity === undefined ? undefined : si(quantity);
}

export function textOf(argument: Argument | undefined): string | undefined {
  if (argument?.type === 'text') return argument.text;
  return argument?.type === 'word' ? (argument.text ?? argument.word) : undefined;
}

/** The texts and words of a list of arguments. */
export const textsIn = (given: readonly Argument[] = []): string[] =>
  given.flatMap((argument) => textOf(argument) ?? []);

export function wordOf(argument: Argument | undefined): string | undefined {
  return argument?.type === 'word' ? argument.word : undefined;
}

export function unitOf(argument: Argument | undefined): Unit | undefined {
  return argument?.type === 'unit' ? argument.unit : undefined;
}

/** The ranges among arguments, in SI units: s, Hz. */
export const rangesIn = (given: readonly Argument[] = []): Band[] =>
  given.flatMap((argument) => (argument.type === 'range' ? [{ from: si(argument.from), to: si(argument.to) }] : []));

/** The values of one kind among arguments. */
export const valuesIn = <K extends Value['kind']>(given: readonly Argument[], kind: K): ValueOf<K>[] =>
  given.flatMap((argument) =>
    argument.type === 'value' && argument.value.kind === kind ? [argument.value as ValueOf<K>] : [],
  );

/** Every run behind a call's operands. */
const runsBehind = ({ operands }: Arguments): Run[] => runsAmong(operands);

/** Every run behind arguments, whatever they are called. */
export const runsAmong = (given: Arguments['operands'] | Arguments['options']): Run[] =>
  Object.values(given)
    .flat()
    .flatMap((argument) => (argument?.type === 'value' ? runsOf(argument.value) : []));

/** The faults of the runs behind a call's operands, as warnings of its result. */
export const faultsBehind = (given: Arguments): Warning[] => faultWarnings(runsBehind(given));

/** The channels of the runs behind a call's operands that its result, a set of them, no longer has. */
export const leftOutBy = (given: Arguments, value: Value): ChannelOfRun[] =>
  value.kind === 'runs' ? channelsLeftOut(runsBehind(given), value.runs) : [];

/** The option of every verb that cuts runs into segments. */
export const usingOption: OptionForm = {
  keyword: 'using',
  doc: 'The window: a name bound to one, a shape, or one written in place.',
  accepts: [
    { type: 'value', kinds: ['window'] },
    { type: 'word', words: windowNames },
    { type: 'step', verb: 'window' },
  ],
  default: 'window hann 2 s overlap 50 %',
};

/** The window that the option names: a window value, or the name of a shape at the usual length. */
export function windowOf(given: Arguments): WindowValue {
  const argument = option(given, 'using');
  if (argument?.type === 'value' && argument.value.kind === 'window') return argument.value;
  return windowOfShape(wordOf(argument) as WindowName | undefined);
}

/** What each zero-phase filter says of itself. */
export const zeroPhaseHelp =
  'A Butterworth filter as second-order sections, run forwards and then backwards over each unbroken stretch, so that nothing shifts in time. Twice through doubles the effective order and makes a corner −6 dB (half the amplitude), not −3 dB: `order 4` falls like order 8. Each end is continued by its own half turn, as is usual for this filter. Keep corners at least an octave outside of the band that is read (Butterworth 1930; Gustafsson 1996, IEEE Trans. Signal Processing 44).';

/** The option of every filter. */
export const orderOption: OptionForm = {
  keyword: 'order',
  doc: 'Order of the filter, passed twice.',
  accepts: [{ type: 'integer', least: 1, most: 12 }],
  default: '4',
};

/** The order of one pass. */
export const orderIn = (given: Arguments): number => siOf(given, 'order') ?? 4;
