import type { Checked } from '../../language/checked.ts';
import type { Failure, Refused } from '../../result/result.ts';
import { drawnBySamples } from '../../charts/drawnRuns.ts';
import { isMissed, lacksTimes, withoutSamples, type Wanted } from '../../values/away.ts';
import { followed, readingsOf, type ListedRecording, type Readings } from '../../verbs/each.ts';
import { faultsBehind, leftOutBy, type Arguments, type Context } from '../../verbs/verb.ts';
import { blamed, failed, type EvaluationContext, type PlacedFailure } from '../evaluation.ts';
import { refuseFault, tell } from '../messages.ts';
import { isConclusive } from '../recall.ts';
import { keysAlong, runsOperand, type Chain, type Step } from './chain.ts';
import { isPartAway, runsIn, toldNothing, type Part, type Source, type Told } from './part.ts';

/** What was made of the recordings of a chain. */
export interface Made {
  /** In the order of the recordings; after a failure those of the steps before it. */
  readonly parts: readonly (Part | undefined)[];
  /** How many levels there are: the reading and the steps. */
  readonly levels: number;
  readonly computed: boolean;
  readonly failure: LevelFailure | undefined;
}

/** Why a step could not be taken; the reading is level 0. */
interface LevelFailure {
  readonly level: number;
  readonly failure: PlacedFailure;
}

/** Recordings that are looked for at a time. */
const atOnce = 16;
/** Milliseconds from which what was computed is sooner read than computed again, and bytes of a file from which it is so. */
const worthKeeping = { time: 0.5, bytes: 2e4 };

/** Why a recording could not be taken a step further, with what the steps before it told. */
interface KeptRefusal {
  readonly failure: Failure;
  readonly told: readonly Told[];
}

/** What is known already of a recording. */
interface Standing {
  readonly level: number;
  readonly part: Part;
}

/** How recordings are taken through their steps. */
export interface MakingOptions {
  /** Whose samples are needed of what comes of it; nobody's unless said. */
  readonly samples?: Wanted;
  /** What was made of these recordings just now, with its samples, for as long as one of them is worked on. */
  readonly lent?: Map<string, Part>;
  /** Whether more may be known of them than that. */
  readonly mayBeKept?: boolean;
}

/** Codes of what passes: what the system refuses, a machine that has no memory left, a file that is being written. */
const ofSystem = /^machine\.|unreadable|^file-changed$/;

const keyOfSamples = (key: string): string => `samples ${key}`;

/** Takes each recording of a chain as far as it has to go: from memory, from what was kept, or computed. */
export class Making {
  readonly #chain: Chain;
  readonly #context: EvaluationContext;
  readonly #parts: (Part | undefined)[];
  readonly #options: MakingOptions;
  /** Whether a level may be computed, asked once. */
  readonly #may = new Map<number, Promise<boolean>>();
  /** Of each recording its content keys by level. */
  readonly #keys = new Map<Source, string[]>();
  /** The level that recordings are still taken to. */
  #goal: number;
  #computed = false;
  /** What was made of the recording at hand, with its samples. */
  readonly #lent = new Map<string, Part>();
  #failure: LevelFailure | undefined;

  constructor(chain: Chain, context: EvaluationContext, options: MakingOptions = {}) {
    this.#chain = chain;
    this.#options = options;
    this.#context = context;
    this.#goal = chain.steps.length;
    this.#parts = chain.base.recordings.map(() => undefined);
  }

  async all(): Promise<Made> {
    const { recordings } = this.#chain.base;
    const found = await this.#look();
    if (this.#context.sharing?.part === 'collect') await this.#collect(found);
    const unread = recordings.flatMap(({ recording }, at) =>
      found[at] === undefined && this.#parts[at] === undefined && recording !== undefined ? [{ recording, at }] : [],
    );
    if (unread.length > 0 && this.#goal >= 0) await this.#mayTake(0);
    const readings = this.#goal < 0 ? undefined : this.#read(unread.map(({ recording }) => recording));
    const order = new Map(unread.map(({ at }, index) => [at, index]));
    for (const at of recordings.keys()) {
      await this.#context.breathe?.();
      if (this.#goal < 0 || this.#isCancelled()) break;
      this.#lent.clear();
      const index = order.get(at);
      const start = found[at] ?? (index === undefined ? undefined : await this.#fromFile(at, index, readings!));
      if (start !== undefined) await this.#takeUp(at, start);
      if (start !== undefined && index !== undefined) await this.#besides(at);
    }
    readings?.stop();
    const levels = this.#chain.steps.length + 1;
    return { parts: this.#parts, levels, computed: this.#computed, failure: this.#failure };
  }

  /** What else is asked of a recording that was read just now, so that it need not be read for that. */
  async #besides(at: number): Promise<void> {
    const { base, steps, set } = this.#chain;
    if (this.#goal < 0 || this.#options.lent !== undefined) return;
    const source = base.recordings[at];
    await this.#context.beside?.({ source, load: base.node, set: (steps.at(0) ?? { set }).set, lent: this.#lent });
  }

  /** Looks for the furthest that is known of each recording. */
  async #look(): Promise<(Standing | undefined)[]> {
    const { recordings } = this.#chain.base;
    const found: (Standing | undefined)[] = [];
    for (let from = 0; from < recordings.length; from += atOnce)
      found.push(...(await Promise.all(recordings.slice(from, from + atOnce).map((source) => this.#furthest(source)))));
    return found;
  }

  async #furthest(source: Source): Promise<Standing | undefined> {
    for (let level = this.#chain.steps.length; level >= 0; level--) {
      const part = level === 0 ? source.part : undefined;
      const key = this.#key(source, level);
      const known = part ?? (key === undefined ? undefined : await this.#recalled(key, level));
      if (known === undefined) continue;
      if (key !== undefined && this.#context.ahead?.has(key) === true) this.#computed = true;
      return { level, part: known };
    }
    return undefined;
  }

  /** What is not kept is missing, but for recordings that were refused. */
  async #collect(found: readonly (Standing | undefined)[]): Promise<void> {
    const { sharing } = this.#context;
    const { obstacle, base } = this.#chain;
    const { recordings, node } = base;
    // A step whose argument waits for another share ends a chain where no share did: nothing can be said of its recordings.
    const waits = obstacle !== undefined && !isConclusive(obstacle) && sharing?.part === 'collect' && sharing.isShort();
    let isMissing = false;
    for (const [at, source] of recordings.entries()) {
      if (source.recording === undefined || found[at]?.level === this.#chain.steps.length) continue;
      const refusal = await this.#refusalOf(source);
      if (refusal !== undefined) {
        this.#parts[at] = { told: refusal.told };
        this.#refuse(refusal.told.length, refusal.failure);
      } else if (sharing?.part === 'collect') {
        isMissing = true;
        if (!waits) sharing.onMissing(source.recording.wanted.path);
      }
    }
    if (!isMissing) return;
    this.#goal = 0;
    this.#fail(0, failed(tell('call.later', { verb: node.type === 'call' ? node.verb : '' }), node.place).failure);
  }

  async #refusalOf(source: Source): Promise<KeptRefusal | undefined> {
    for (let level = 0; level <= this.#chain.steps.length; level++) {
      const key = this.#refusalKey(source, level);
      const kept = key === undefined ? undefined : await this.#context.kept?.get<KeptRefusal>(key);
      if (kept !== undefined) return kept;
    }
    return undefined;
  }

  /** A refusal may name the set. */
  #refusalKey(source: Source, level: number): string | undefined {
    const key = this.#key(source, level);
    const { set = '' } = this.#chain.steps.at(level - 1) ?? this.#chain;
    return key && `refusal ${key} ${set}`;
  }

  /** What is known of a recording after so many steps, with its samples where they are needed. */
  async #recalled(key: string, level: number): Promise<Part | undefined> {
    const { cache, kept } = this.#context;
    const { lent } = this.#options;
    const held = lent?.get(key) ?? cache.part(key);
    if (held !== undefined && this.#isEnough(held, level)) return held;
    const drawn = this.#options.samples === undefined ? undefined : this.#context.held?.get(key);
    if (drawn !== undefined) return drawn;
    // What was read just now is sooner taken on than looked for.
    if (lent !== undefined && this.#options.mayBeKept !== true) return undefined;
    const found = held ?? (await kept?.get<Part>(`part ${key}`));
    if (found === undefined) return undefined;
    if (held === undefined) cache.setPart(key, found);
    if (this.#isEnough(found, level)) return found;
    const whole = await kept?.get<Part>(keyOfSamples(key));
    if (whole !== undefined && this.#isAdmitted(whole)) cache.setPart(key, whole);
    return whole;
  }

  /** Whether what a recording gave can be taken on as it is: its samples are there, or nobody wants them. */
  #isEnough(part: Part, level: number): boolean {
    if (!isPartAway(part)) return true;
    const { steps } = this.#chain;
    // Whoever collects a share may want the samples of what it ends with.
    const isDrawn = drawnBySamples.some((kind) => kind === (steps.at(-1)?.verb.form.gives ?? 'runs'));
    if (this.#isWanted(part) || (this.#context.sharing?.part === 'share' && isDrawn)) return false;
    const hasTimes = !runsIn(part).some(lacksTimes);
    return steps.slice(level).every(({ verb }) => verb.views === true && hasTimes);
  }

  /** Whether samples are wanted of a recording that are away. */
  #isWanted(part: Part): boolean {
    return runsIn(part).some((run) => isMissed(run, this.#options.samples));
  }

  #isAtHand(part: Part): boolean {
    return runsIn(part).every((run) => this.#context.cache.holds(run));
  }

  #isAdmitted(part: Part): boolean {
    return runsIn(part).every((run) => this.#context.cache.admits(run));
  }

  /** The content key of a recording after so many steps. */
  #key(source: Source, level: number): string | undefined {
    if (source.key === undefined) return undefined;
    let keys = this.#keys.get(source);
    if (keys === undefined) {
      keys = keysAlong(this.#chain, source.key, this.#context.digest);
      this.#keys.set(source, keys);
    }
    return keys[level];
  }

  #read(recordings: readonly ListedRecording[]): Readings {
    const { files, watch } = this.#context;
    return readingsOf(recordings, { files, watch });
  }

  async #fromFile(at: number, index: number, readings: Readings): Promise<Standing | undefined> {
    const source = this.#chain.base.recordings[at];
    const { set } = this.#chain.steps.at(0) ?? this.#chain;
    this.#computed = true;
    const part = await this.#guarded(at, 0, async () => {
      const reading = await readings.of(index);
      const { recording } = source;
      if (recording!.isExcluded) return { excluded: recording!.excluded(reading), told: [toldNothing] };
      const run = recording!.run(reading);
      if (!run.ok) return run;
      const value = { kind: 'runs', set, runs: [run.value] } as const;
      return { value, told: [{ warnings: run.warnings, faults: [] }] };
    });
    if (part === undefined) return undefined;
    this.#context.held?.makeRoom(part);
    this.#keep(source, 0, part, source.bytes >= worthKeeping.bytes);
    return { level: 0, part };
  }

  async #takeUp(at: number, { level: from, part: first }: Standing): Promise<void> {
    let part = first;
    this.#parts[at] = part;
    for (let level = from + 1; level <= this.#goal; level++) {
      if (!(await this.#mayTake(level))) return;
      this.#computed = true;
      const began = performance.now();
      const next = await this.#guarded(at, level, () => this.#step(at, part, this.#chain.steps[level - 1]));
      if (next === undefined) return;
      const source = this.#chain.base.recordings[at];
      // A view of what is uneven takes its times, which are not kept.
      const isUneven = runsIn(next).some(({ stamps }) => stamps !== undefined);
      this.#keep(source, level, next, isUneven || performance.now() - began >= worthKeeping.time);
      this.#parts[at] = part = next;
    }
    if (this.#context.sharing?.part === 'share') await this.#keepLast(at, part);
    this.#parts[at] = this.#settled(at, part);
  }

  /** What is handed on of a recording: without its samples, unless they are wanted or stay at hand anyway. */
  #settled(at: number, part: Part): Part {
    const isKeyed = this.#chain.base.recordings[at].key !== undefined;
    if (!isKeyed || this.#isAtHand(part)) return part;
    const away = withoutSamples(part);
    return this.#isWanted(away) ? part : away;
  }

  /** Of a share all that is asked for is kept, however quickly it was made. */
  async #keepLast(at: number, part: Part): Promise<void> {
    const { kept } = this.#context;
    const key = this.#key(this.#chain.base.recordings[at], this.#chain.steps.length);
    if (key === undefined) return;
    const names = withoutSamples(part) === part ? ['part'] : ['part', 'samples'];
    for (const name of names) if ((await kept?.get(`${name} ${key}`)) === undefined) return this.#keepFor(key, part);
  }

  /** What is kept for later, samples by themselves as few will want them, and only those that stay at hand or that another process has to do with. */
  #keepFor(key: string, part: Part): void {
    const { kept, samples, sharing } = this.#context;
    if (kept === undefined) return;
    const away = withoutSamples(part);
    kept.set(`part ${key}`, away);
    if (away === part) return;
    const { kind = 'runs' } = part.value ?? {};
    if (sharing?.part === 'share' && drawnBySamples.includes(kind)) kept.set(keyOfSamples(key), part);
    else if (kind === 'runs' && this.#isAtHand(part)) samples?.set(keyOfSamples(key), part);
  }

  async #step(at: number, part: Part, { verb, given, set }: Step): Promise<Part | Refused> {
    const context = this.#contextAt(at);
    if (part.value === undefined) {
      const told = [...part.told, toldNothing];
      // What is made of runs lists those left out as they are.
      if (part.excluded === undefined || verb.form.gives !== 'runs') return { ...part, told };
      return { excluded: await followed(part.excluded, verb, { operand: runsOperand, given, context }), told };
    }
    const alone = part.value.kind === 'runs' ? { ...part.value, set } : part.value;
    const operands = { ...given.operands, [runsOperand]: [{ type: 'value', value: alone, name: undefined } as const] };
    const whole: Arguments = { ...given, operands };
    const found = await verb.evaluate(whole, context);
    if (!found.ok) return found;
    const { value, warnings } = found;
    const faults = verb.passesFaults === true ? [] : faultsBehind(whole);
    const common = verb.common === undefined ? {} : { common: verb.common.of(value) };
    const gone = leftOutBy(whole, value);
    const leftOut = gone.length === 0 ? {} : { leftOut: gone };
    return { value, told: [...part.told, { warnings, faults, ...leftOut, ...common }] };
  }

  /** The outside as a verb sees it that goes over one recording: what it has done is a part of all there is to do. */
  #contextAt(at: number): Context {
    const { files, digest, watch } = this.#context;
    const { length } = this.#chain.base.recordings;
    const progress = (fraction: number, what: string): void => watch.progress((at + fraction) / length, what);
    return { files, digest, watch: { cancelled: watch.cancelled, progress } };
  }

  /** What a level gives; undefined where it gives nothing, which is noted. */
  async #guarded(at: number, level: number, make: () => Promise<Part | Refused>): Promise<Part | undefined> {
    const { verb } = this.#at(level);
    const made = await make().catch((error: unknown) => refuseFault(error, verb));
    if (this.#isCancelled()) return undefined;
    if (!('ok' in made)) return made;
    if (this.#context.sharing?.part === 'share') this.#keepRefusal(at, level, made.failure);
    else this.#refuse(level, made.failure);
    return undefined;
  }

  #refuse(level: number, failure: Failure): void {
    const { node } = this.#at(level);
    this.#fail(level, { ...failure, place: node.type === 'call' ? blamed(node, failure.at) : node.place });
  }

  /** What of a share is refused is told where the shares are collected; what the system refuses may be tried again. */
  #keepRefusal(at: number, level: number, failure: Failure): void {
    const { sharing, kept } = this.#context;
    if (ofSystem.test(failure.code)) {
      if (sharing?.part === 'share') sharing.onFailure(failure);
      return;
    }
    const key = this.#refusalKey(this.#chain.base.recordings[at], level);
    const { told = [] } = this.#parts[at] ?? {};
    if (key !== undefined) kept?.set(key, { failure, told } satisfies KeptRefusal);
  }

  #keep(source: Source, level: number, part: Part, isWorthKeeping: boolean): void {
    const key = this.#key(source, level);
    if (key === undefined) return;
    (this.#options.lent ?? this.#lent).set(key, part);
    this.#context.cache.setPart(key, this.#isAdmitted(part) ? part : withoutSamples(part));
    if (isWorthKeeping) this.#keepFor(key, part);
  }

  #at(level: number): { readonly node: Checked; readonly verb: string | undefined } {
    const node = level === 0 ? this.#chain.base.node : this.#chain.steps[level - 1].node;
    return { node, verb: node.type === 'call' ? node.verb : undefined };
  }

  async #mayTake(level: number): Promise<boolean> {
    const { node } = this.#at(level);
    const { mayCompute } = this.#context;
    if (mayCompute === undefined || node.type !== 'call') return true;
    const asked = this.#may.get(level) ?? mayCompute(node);
    this.#may.set(level, asked);
    const may = await asked;
    if (!may) this.#fail(level, failed(tell('call.later', { verb: node.verb }), node.place).failure);
    return may;
  }

  #isCancelled(): boolean {
    if (!this.#context.watch.cancelled()) return false;
    this.#fail(0, failed(tell('cancelled', {}), this.#at(0).node.place).failure);
    return true;
  }

  /** The recordings that follow are only held to the steps before the one that failed. */
  #fail(level: number, failure: PlacedFailure): void {
    if (level > this.#goal) return;
    this.#failure = { level, failure };
    this.#goal = level - 1;
  }
}
