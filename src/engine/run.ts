import { cellNameOf, cellWords, type CellName } from '../language/cellName.ts';
import type { CheckedNotebook } from '../language/check.ts';
import type { CheckedStatement } from '../language/checked.ts';
import { callsIn } from '../language/services/calls.ts';
import type { Watch } from '../values/ports.ts';
import type { RawFile } from '../values/run.ts';
import type { Failure } from '../result/result.ts';
import { verbNamed } from '../verbs/catalogue.ts';
import { namedBy } from '../values/kinds.ts';
import type { Value } from '../values/value.ts';
import { asDrawn } from './asDrawn.ts';
import type { Cache } from './cache.ts';
import { calledOf } from './called.ts';
import { Evaluator } from './evaluate.ts';
import type { Call, Evaluated, EvaluationContext, PlacedFailure, Sharing } from './evaluation.ts';
import type { Host } from './host.ts';
import { ingredientOf, type Ingredient, type Origins, type Told } from './ingredients.ts';
import type { KeptAnswers } from './kept/keptAnswers.ts';
import { digestingOnce, Keys } from './key.ts';
import { tell } from './messages.ts';
import { Ahead } from './parts/ahead.ts';
import { HeldForCharts } from './parts/held.ts';
import type { Part } from './parts/part.ts';
import { collecting, workOnShare } from './parts/sharing.ts';
import { pinned, pinnedHistory, type PinnedFiles } from './pinned.ts';
import { isConclusive, quickCallsOnly, type CellFailure, type Recalled } from './recall.ts';
import { locate, type CellKeys, type RunReport, type RunRequest, type StatementResult } from './result.ts';
import { expressionsOf, listBeforehand, sourcesOf } from './sources.ts';

/** Told of each statement as soon as it is settled, in the order of evaluation. */
export type Listener = (result: StatementResult) => void;

/** Told of each cell as soon as all its statements are settled, and whether none of them failed. */
export type CellListener = (cell: number, ok: boolean) => void;

/** What a cell uses is remembered up to so many statements. */
const mostIngredients = 300;

/** Where answers are looked for before they are computed. */
export interface Answers {
  readonly cache: Cache;
  readonly kept: KeptAnswers | undefined;
  readonly origins: Origins;
}

/** One run of a notebook's cells: what is asked of it is answered from one state of text and files. */
export class Run {
  readonly #notebook: CheckedNotebook;
  readonly #request: RunRequest;
  readonly #watch: Watch;
  readonly #host: Host & { readonly files: PinnedFiles };
  readonly #answers: Answers;
  /** Whether calls are keyed in order to be evaluated. */
  #isEvaluating = false;
  readonly #values = new Map<string, Value>();
  readonly #binders = new Map<string, CheckedStatement>();
  readonly #inCells: ReadonlyMap<number, readonly CheckedStatement[]>;
  readonly #sources = new Map<string, RawFile>();
  /** By call what is told of it besides its text, once its key is known. */
  readonly #told = new Map<Call, Told>();
  readonly #ingredients = new Map<CheckedStatement, Ingredient>();
  readonly #digest: Host['digest'];
  readonly #keys: Keys;
  readonly #sharing: Sharing | undefined;
  /** By their keys, what was made of recordings before it was asked for. */
  readonly #ahead = new Set<string>();
  readonly #makeAhead: Ahead;
  /** What is kept with its samples where all of these stay at hand. */
  readonly #samples = new Map<string, Part>();
  readonly #held = new HeldForCharts();

  constructor(notebook: CheckedNotebook, request: RunRequest, watch: Watch, host: Host, answers: Answers) {
    this.#notebook = notebook;
    this.#request = request;
    this.#watch = watch;
    const { history, ...rest } = host;
    const told = request.withoutHistory === true || history === undefined ? {} : { history: pinnedHistory(history) };
    this.#host = { ...rest, ...told, files: pinned(host.files) };
    this.#answers = answers;
    this.#sharing = request.collecting && collecting(request.collecting);
    const inCells = new Map<number, CheckedStatement[]>();
    for (const statement of notebook.statements) {
      const inCell = inCells.get(statement.cell);
      if (inCell) inCell.push(statement);
      else inCells.set(statement.cell, [statement]);
      if (statement.name !== undefined && !this.#binders.has(statement.name.text))
        this.#binders.set(statement.name.text, statement);
    }
    this.#inCells = inCells;
    this.#digest = digestingOnce(host.digest);
    this.#keys = new Keys({
      digest: this.#digest,
      nameKey: (name) => this.#nameKey(name),
      rawFiles: (call) => this.#rawFiles(call),
      history: (call) => this.#history(call),
    });
    const context = this.#context();
    const asking = { context, inner: () => new Evaluator(context) };
    this.#makeAhead = new Ahead(asking, {
      expressions: () => expressionsOf([...this.#wanted(), ...this.#wanted({ wanted: request.soon ?? [] })]),
      drawn: () => expressionsOf([...this.#wanted()].filter((statement) => this.#isDrawn(statement))),
      isAtHand: ({ wanted }) => this.#host.files.isAtHand(wanted),
      made: (key) => void this.#ahead.add(key),
    });
  }

  async all(listen: Listener, settled: CellListener): Promise<RunReport> {
    const wanted = this.#wanted();
    const open = new Map([...this.#inCells].map(([cell, { length }]) => [cell, { left: length, ok: true }]));
    const results = new Map<CheckedStatement, StatementResult>();
    this.#isEvaluating = true;
    this.#answers.cache.begin();
    await this.#list(wanted);
    for (const statement of wanted) {
      await this.#host.breathe?.();
      if (this.#watch.cancelled()) break;
      const result = await this.#statement(statement);
      if (result.error?.code === 'cancelled') break;
      results.set(statement, result);
      listen(result);
      const cell = open.get(statement.cell)!;
      cell.ok &&= result.error === undefined;
      if (--cell.left === 0) settled(statement.cell, cell.ok);
    }
    this.#isEvaluating = false;
    this.#keepSamples();
    // Before the keys are asked for, which may be of cells that were not run.
    const sources = [...this.#sources.values()].sort((a, b) => (a.path < b.path ? -1 : a.path > b.path ? 1 : 0));
    const ordered = this.#notebook.statements.flatMap((statement) => results.get(statement) ?? []);
    return {
      ok: ordered.length === wanted.size && ordered.every((result) => result.error === undefined),
      cancelled: this.#watch.cancelled(),
      results: ordered,
      sources,
      keys: await this.cellKeys(),
    };
  }

  /** Samples of some recordings alone would spare the next run nothing: those of the others are read from their files. */
  #keepSamples(): void {
    const { cache, kept } = this.#answers;
    if (!cache.isShort) for (const [key, part] of this.#samples) kept?.set(key, part);
  }

  async share(isOwn: (path: string) => boolean): Promise<readonly Failure[]> {
    await this.#list(this.#notebook.statements);
    // A value that a step needs is made where it is asked for, of all recordings.
    const whole = { ...this.#context(), valueOf: (name: string) => this.#valueNow(name) };
    return workOnShare(this.#notebook, whole, { isOwn, inner: () => new Evaluator(whole) });
  }

  #list(statements: Iterable<CheckedStatement>): Promise<void> {
    return listBeforehand(expressionsOf(statements), this.#host.files);
  }

  async #valueNow(name: string): Promise<Value | undefined> {
    const statement = this.#binders.get(name);
    if (statement === undefined || this.#values.has(name)) return this.#values.get(name);
    for (const used of statement.uses) await this.#valueNow(used);
    return (await this.#statement(statement)).value;
  }

  async cellKeys(): Promise<CellKeys> {
    const keys = (this.#request.keyed ?? []).map(async (cell) => {
      const inCell = this.#inCells.get(cell) ?? [];
      const parts = await Promise.all(inCell.map((statement) => this.#statementKey(statement)));
      const key = this.#digest(JSON.stringify(parts));
      this.#answers.origins.note(key, () => this.#ingredientsOf(inCell));
      return [cell, key] as const;
    });
    return new Map(await Promise.all(keys));
  }

  async recall(): Promise<Recalled> {
    const failures: CellFailure[] = [];
    const mayCompute = quickCallsOnly(this.#host.files);
    for (const index of this.#notebook.order) {
      const statement = this.#notebook.statements[index];
      if (statement.expression === undefined) continue;
      if (this.#watch.cancelled()) break;
      const found = await this.#evaluator({ mayCompute, statement }).value(statement.expression);
      if (found.ok) this.#bind(statement, found.value);
      else if (isConclusive(found.failure)) failures.push({ cell: statement.cell, ...found.failure });
    }
    return { values: this.#values, failures, complete: !this.#watch.cancelled() };
  }

  /** The statements of the cells from one on that are known or certain to fail, once {@link recall} has been through. */
  async recalledFrom(first: number): Promise<readonly StatementResult[]> {
    const found: StatementResult[] = [];
    for (const statement of this.#notebook.statements.filter(({ cell }) => cell >= first)) {
      const { expression, problems, place } = statement;
      const error = problems.find(({ severity }) => severity === 'error');
      if (error !== undefined) {
        const { code, facts, message, place: at = place } = error;
        found.push(this.#result(statement, undefined, [], { code, facts, message, place: at }));
      } else if (expression !== undefined) {
        const value = await this.#evaluator({ mayCompute: () => Promise.resolve(false) }).value(expression);
        if (value.ok) found.push(this.#result(statement, value.value, [], undefined));
        else if (isConclusive(value.failure)) found.push(this.#result(statement, undefined, [], value.failure));
      }
    }
    return found;
  }

  async #statementKey({ name, problems, expression }: CheckedStatement): Promise<unknown> {
    const errors = problems.map(({ code, message, place }) => [code, message, place.from, place.to]);
    return [name?.text ?? null, errors, expression === undefined ? null : await this.#keys.of(expression)];
  }

  /** The statements of the wanted cells and all that they use, directly or not, in the order in which they are run. */
  #wanted({ wanted }: Pick<RunRequest, 'wanted'> = this.#request): Set<CheckedStatement> {
    const { order, statements } = this.#notebook;
    const inOrder = order.map((index) => statements[index]);
    if (wanted === 'all') return new Set(inOrder);
    const found = wanted.map((cell) => this.#needed(this.#inCells.get(cell) ?? []));
    return new Set(found.flatMap((needed) => inOrder.filter((statement) => needed.has(statement))));
  }

  /** Some statements and all that they use, directly or not; it is given up beyond so many. */
  #needed(by: readonly CheckedStatement[], most = Infinity): Set<CheckedStatement> {
    const found = new Set(by);
    // What is added on the way is gone through as well.
    for (const { uses } of found) {
      if (found.size > most) break;
      for (const name of uses) {
        const binder = this.#binders.get(name);
        if (binder !== undefined) found.add(binder);
      }
    }
    return found;
  }

  /** What the key of a cell was made of; undefined where that is too much to be told. */
  #ingredientsOf(inCell: readonly CheckedStatement[]): readonly Ingredient[] | undefined {
    const needed = this.#needed(inCell, mostIngredients);
    return needed.size > mostIngredients ? undefined : [...needed].map((statement) => this.#ingredient(statement));
  }

  #ingredient(statement: CheckedStatement): Ingredient {
    const known = this.#ingredients.get(statement);
    if (known !== undefined) return known;
    const place = this.#inCells.get(statement.cell)?.indexOf(statement) ?? 0;
    const made = ingredientOf(statement, cellNameOf(this.#notebook, statement.cell), place, (call) =>
      this.#told.get(call),
    );
    this.#ingredients.set(statement, made);
    return made;
  }

  async #statement(statement: CheckedStatement): Promise<StatementResult> {
    const error = statement.problems.find(({ severity }) => severity === 'error');
    if (error !== undefined || statement.expression === undefined) {
      const { code, facts, message } = error ?? tell('statement.empty', {});
      return this.#result(statement, undefined, [], { code, facts, message, place: error?.place ?? statement.place });
    }
    const evaluator = this.#evaluator({ statement });
    const found = await evaluator.value(statement.expression);
    if (!found.ok) return this.#result(statement, undefined, evaluator.warnings, found.failure);
    const value = this.#bind(statement, found.value);
    const shown = await this.#shown(statement, evaluator, value);
    if (!shown.ok) return this.#result(statement, undefined, evaluator.warnings, shown.failure);
    return { ...this.#result(statement, shown.value, evaluator.warnings, undefined), cached: !evaluator.computed };
  }

  /** The value as it is shown; what was read again for it goes with the result. */
  async #shown(statement: CheckedStatement, evaluator: Evaluator, value: Value): Promise<Evaluated<Value>> {
    const { expression, name } = statement;
    if (expression === undefined || !this.#isDrawn(statement)) return { ok: true, value };
    const found = await asDrawn(value, expression, (node, samples) => evaluator.value(node, samples));
    return found.ok && name !== undefined ? { ok: true, value: namedBy(found.value, name.text) } : found;
  }

  #isDrawn(statement: CheckedStatement): boolean {
    return this.#request.undrawn !== true && this.#isShown(statement);
  }

  #isShown(statement: CheckedStatement): boolean {
    return statement.name === undefined || this.#inCells.get(statement.cell)?.at(-1) === statement;
  }

  #evaluator(rest: Pick<EvaluationContext, 'mayCompute' | 'statement'> = {}): Evaluator {
    return new Evaluator(this.#context(rest));
  }

  #context(rest: Pick<EvaluationContext, 'mayCompute' | 'statement'> = {}): EvaluationContext {
    return {
      files: this.#host.files,
      watch: this.#watch,
      ...this.#answers,
      keys: this.#keys,
      digest: this.#digest,
      valueOf: (name) => this.#values.get(name),
      boundAt: (name) => this.#boundAt(name),
      isBound: (name) => this.#values.has(name),
      sharing: this.#sharing,
      ahead: this.#ahead,
      ...(this.#sharing === undefined
        ? { beside: (recording) => (this.#isEvaluating ? this.#makeAhead.beside(recording) : Promise.resolve()) }
        : {}),
      samples: this.#samples,
      held: this.#held,
      boundTo: (name) => this.#binders.get(name)?.expression,
      ...(this.#host.history === undefined ? {} : { history: this.#host.history }),
      ...(this.#host.breathe === undefined ? {} : { breathe: this.#host.breathe }),
      sourceOf: (call) => this.#sourceOf(call),
      ...rest,
    };
  }

  #boundAt(name: string): { readonly cell: CellName; readonly line: number } | undefined {
    const binder = this.#binders.get(name);
    return binder && { cell: cellNameOf(this.#notebook, binder.cell), line: binder.line };
  }

  #bind({ name }: CheckedStatement, found: Value): Value {
    const value = name === undefined ? found : namedBy(found, name.text);
    if (name !== undefined) this.#values.set(name.text, value);
    return value;
  }

  #result(
    statement: CheckedStatement,
    value: Value | undefined,
    warnings: StatementResult['warnings'],
    failure: PlacedFailure | undefined,
  ): StatementResult {
    const error =
      failure === undefined
        ? undefined
        : {
            code: failure.code,
            facts: failure.facts,
            message: failure.message,
            place: failure.place,
            inCell: cellWords(cellNameOf(this.#notebook, statement.cell)),
            ...locate(this.#request.cells[statement.cell], failure.place, statement),
          };
    const shown = this.#isShown(statement);
    const { cell, line, name } = statement;
    const kind = value?.kind ?? statement.kind;
    const called = calledOf(statement);
    const { expression } = statement;
    const unitAsked = expression?.type === 'convert';
    const shows = name === undefined && expression?.type === 'name' ? { shows: expression.name } : {};
    const given = { kind, value, warnings, error, cached: false };
    return { cell, line, name: name?.text, called, ...shows, ...given, shown, unitAsked };
  }

  #nameKey(name: string): Promise<string> {
    const binder = this.#binders.get(name);
    return binder?.expression === undefined ? Promise.resolve('nothing') : this.#keys.of(binder.expression);
  }

  async #history(call: Call): Promise<readonly string[]> {
    const { history } = this.#host;
    if (history === undefined || verbNamed(call.verb)?.readsHistory !== true) return [];
    const head = await history.head();
    if (head !== undefined) this.#told.set(call, { files: [], head });
    return head === undefined ? [] : [head, this.#sourceOf(call) ?? ''];
  }

  /** Asks where the project stands while files are read: another program tells it, which takes a while to start. */
  #askHistory(): void {
    const { history } = this.#host;
    const calls = expressionsOf(this.#wanted()).flatMap(callsIn);
    // Whoever needs it is told why it can't be told.
    if (calls.some(({ verb }) => verbNamed(verb)?.readsHistory === true)) void history?.head().catch(() => undefined);
  }

  /** A call as it is written, where it is all of a statement but its name. */
  #sourceOf(call: Call): string | undefined {
    const statement = this.#notebook.statements.find(({ expression }) => expression === call);
    return statement && this.#request.cells[statement.cell].slice(call.place.from, call.place.to);
  }

  async #rawFiles(call: Call): Promise<string | undefined> {
    const list = await sourcesOf(call, this.#host.files);
    if (list === undefined) return undefined;
    // A call whose files can't be found has no content to be keyed by; its evaluation says why.
    if (!list.ok) return `unreadable: ${list.failure.message}`;
    const { files } = this.#host;
    if (this.#isEvaluating)
      await files.ahead(
        list.value.flatMap(({ recording }) => recording ?? []),
        this.#watch,
      );
    if (this.#isEvaluating) this.#askHistory();
    if (this.#isEvaluating && this.#sharing === undefined) await this.#makeAhead.all(call);
    const identified = list.value.map(async ({ path }) => ({ path, ...(await files.identify(path)) }));
    const found = await Promise.all(identified).catch(() => undefined);
    // A file may vanish between being listed and being read: again its evaluation says so.
    if (found === undefined) return 'unreadable';
    for (const file of found) this.#sources.set(file.path, file);
    const hashes = found.map(({ path, sha256 }) => [path, sha256] as const);
    this.#told.set(call, { files: hashes });
    return JSON.stringify(hashes);
  }
}
