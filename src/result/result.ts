/**
 * What a function gives that may have no answer: the one form of it in all rooms. Exceptions are for bugs.
 */
export type Result<T> = Success<T> | Refused;

export interface Success<T> {
  readonly ok: true;
  readonly value: T;
}

export interface Refused {
  readonly ok: false;
  readonly failure: Failure;
}

/** Why there is no answer. */
export interface Failure extends Message {
  /** Name of the operand or keyword of the option that is to blame, so that the place can be shown. */
  readonly at?: string;
}

/** Something to be told: a stable code and its facts, and the sentence that its room's words make of them. */
export interface Message {
  /** Dotted, stable, the key of its page in the reference. */
  readonly code: string;
  readonly facts: object;
  /** One sentence: what, where, and what to do. */
  readonly message: string;
  /** Keywords of the options that would settle it, the likeliest first, where there are such. */
  readonly settledBy?: readonly string[];
}

export const success = <T>(value: T): Success<T> => ({ ok: true, value });

/** A failure handed on as it is. */
export const refused = (failure: Failure): Refused => ({ ok: false, failure });

/** What travels with a result and is told beside it. */
export interface Warning extends Message {
  /** Of what is true of several runs or channels, and told of all in one breath. */
  readonly about?: About;
  /** Of what was found of one run: its label, and the channel where it is of one alone. */
  readonly concerns?: Partial<ChannelOfRun> & Pick<ChannelOfRun, 'run'>;
}

/** A channel of a run, by its name, and by the run's label. */
export interface ChannelOfRun {
  readonly run: string;
  readonly channel: string;
}

/** What a warning speaks of, so that those of several sets can be told as one. */
export interface About {
  /** What it is told of in full. */
  readonly of: string;
  /** What else must be the same for two warnings of one code to be told as one. */
  readonly sameFor?: string;
  /** Of what else it is told. */
  readonly others: readonly string[];
  /** Its place among what its step tells: the lower first, those without one last. */
  readonly rank?: number;
}

/** An answer with what has to be told beside it, or why there is none. */
export type Answer<T> = Answered<T> | Refused;

export interface Answered<T> extends Success<T> {
  readonly warnings: readonly Warning[];
}

export const answered = <T>(value: T, warnings: readonly Warning[] = []): Answered<T> => ({
  ok: true,
  value,
  warnings,
});
