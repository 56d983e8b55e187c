import type { Handle, Literal, TextEdit } from '../charts/handle.ts';
import { cellNameOf, cellWords, type CellName } from '../language/cellName.ts';
import type { CheckedNotebook } from '../language/check.ts';
import type { Checked, CheckedStatement } from '../language/checked.ts';
import type { Watch } from '../values/ports.ts';
import type { RawFile } from '../values/run.ts';
import type { Result } from '../result/result.ts';
import { verbNamed } from '../verbs/catalogue.ts';
import { namedBy } from '../values/kinds.ts';
import type { Value } from '../values/value.ts';
import { Cache } from './cache.ts';
import { Evaluator, type PlacedFailure, type EvaluationContext } from './evaluate.ts';
import type { Host } from './host.ts';
import { KeptAnswers } from './kept/keptAnswers.ts';
import { Keys } from './key.ts';
import { handlesOf } from './handles/handles.ts';
import { rewritten } from './handles/rewrite.ts';
import { tell } from './messages.ts';
import { isConclusive, quickCallsOnly, type CellFailure, type Recalled } from './recall.ts';
import { calledOf } from './called.ts';
import { dependentsOf } from './dependents.ts';
import { checkCells } from './checkCells.ts';
import { pinned, type PinnedFiles } from './pinned.ts';
import { judged, withNumberCells, type AskedNumber, type JudgedNumber } from './proseNumbers.ts';
import { locate, type CellKeys, type RunReport, type RunRequest, type StatementResult } from './result.ts';
import { sourcesOf } from './sources.ts';

/** What is known of numbers in prose. */
export interface RecalledNumbers extends Pick<Recalled, 'values' | 'complete'> {
  /** In the order in which they were asked. */
  readonly numbers: readonly JudgedNumber[];
}

/** Told of each statement as soon as it is settled, in the order of evaluation. */
export type Listener = (result: StatementResult) => void;

/**
 * Evaluates a notebook's cells in dependency order. Values are cached by content, so running again after an edit
 * computes only what depends on the edit.
 */
export class Engine {
  readonly #host: Host;
  readonly #cache: Cache;
  #kept: KeptAnswers | undefined;
  /** The notebook as it was understood last: after an edit only what the edit touches is checked again. */
  #last: CheckedNotebook | undefined;

  constructor(host: Host, cache = new Cache()) {
    this.#host = host;
    this.#cache = cache;
    this.#kept = host.kept && new KeptAnswers(host.kept);
  }

  async run(request: RunRequest, watch: Watch, listen: Listener = () => undefined): Promise<RunReport> {
    return new Run(this.#checkCells(request.cells, request.numbers), request, watch, this.#host, this.#answers()).all(
      listen,
    );
  }

  /** The content keys of cells, of all unless said, as a run of them would report them. */
  async keys(cells: readonly string[], keyed: readonly number[] = [...cells.keys()]): Promise<CellKeys> {
    const watch = { cancelled: () => false, progress: () => undefined };
    return new Run(
      this.#checkCells(cells),
      { cells, wanted: [], keyed },
      watch,
      this.#host,
      this.#answers(),
    ).cellKeys();
  }

  /**
   * What is known of the notebook's statements without long work: values that are in the cache, and those that take
   * little to make. Ends early, with what it has, once the watch says so.
   */
  async recall(cells: readonly string[], watch: Watch): Promise<Recalled> {
    return new Run(this.#checkCells(cells), { cells, wanted: 'all' }, watch, this.#host, this.#answers()).recall();
  }

  /** The literals that the charts of a statement draw; it has to be of the cells that were run last. */
  handles({ cell, line, value }: StatementResult): readonly Handle[] {
    const statement = this.#last?.statements.find((one) => one.cell === cell && one.line === line);
    return this.#last === undefined || statement === undefined || value === undefined
      ? []
      : handlesOf(this.#last, statement, value);
  }

  /** The change of the cells' text that gives a literal another number; `literal.cell` is its cell's index among these. */
  rewrite(cells: readonly string[], literal: Literal, text: string): Result<TextEdit> {
    return rewritten(this.#checkCells(cells), literal, text);
  }

  /**
   * What is known, without long work, of each number that stands in the prose, and of the notebook's values.
   * @param numbers what is asked, beside the cells
   */
  async recallNumbers(
    cells: readonly string[],
    numbers: readonly AskedNumber[],
    watch: Watch,
  ): Promise<RecalledNumbers> {
    const all = withNumberCells(cells, numbers);
    const run = new Run(this.#checkCells(all), { cells: all, wanted: [] }, watch, this.#host, this.#answers());
    const { values, complete } = await run.recall();
    const found = await run.recalledFrom(cells.length);
    return {
      values,
      complete,
      numbers: numbers.map((asked, at) =>
        judged(
          asked,
          found.find(({ cell }) => cell === cells.length + at),
        ),
      ),
    };
  }

  /** A cell and all that use what it binds, directly or not. */
  dependents(cells: readonly string[], cell: number): readonly number[] {
    return dependentsOf(this.#checkCells(cells), cell);
  }

  /** Forgets every value, those as well that earlier runs of the program kept. */
  clear(): void {
    this.#cache.clear();
    this.#kept = undefined;
  }

  #answers(): Answers {
    return { cache: this.#cache, kept: this.#kept };
  }

  #checkCells(cells: readonly string[], numbers?: readonly number[]): CheckedNotebook {
    this.#last = checkCells(cells, this.#last, numbers);
    return this.#last;
  }
}

type Call = Extract<Checked, { type: 'call' }>;

/** Where answers are looked for before they are computed. */
interface Answers {
  readonly cache: Cache;
  readonly kept: KeptAnswers | undefined;
}

class Run {
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
  readonly #keys: Keys;

  constructor(notebook: CheckedNotebook, request: RunRequest, watch: Watch, host: Host, answers: Answers) {
    this.#notebook = notebook;
    this.#request = request;
    this.#watch = watch;
    const { history: _untold, ...rest } = host;
    this.#host = { ...(request.withoutHistory === true ? rest : host), files: pinned(host.files) };
    this.#answers = answers;
    const inCells = new Map<number, CheckedStatement[]>();
    for (const statement of notebook.statements) {
      const inCell = inCells.get(statement.cell);
      if (inCell) inCell.push(statement);
      else inCells.set(statement.cell, [statement]);
      if (statement.name !== undefined && !this.#binders.has(statement.name.text))
        this.#binders.set(statement.name.text, statement);
    }
    this.#inCells = inCells;
    this.#keys = new Keys({
      digest: host.digest,
      nameKey: (name) => this.#nameKey(name),
      rawFiles: (call) => this.#rawFiles(call),
      history: (call) => this.#history(call),
    });
  }

  async all(listen: Listener): Promise<RunReport> {
    const wanted = this.#wanted();
    const results = new Map<CheckedStatement, StatementResult>();
    this.#isEvaluating = true;
    for (const index of this.#notebook.order) {
      const statement = this.#notebook.statements[index];
      if (!wanted.has(statement)) continue;
      if (this.#watch.cancelled()) break;
      const result = await this.#statement(statement);
      if (result.error?.code === 'cancelled') break;
      results.set(statement, result);
      listen(result);
    }
    this.#isEvaluating = false;
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

  async cellKeys(): Promise<CellKeys> {
    const keys = (this.#request.keyed ?? []).map(async (cell) => {
      const inCell = this.#inCells.get(cell) ?? [];
      const parts = await Promise.all(inCell.map((statement) => this.#statementKey(statement)));
      return [cell, this.#host.digest(JSON.stringify(parts))] as const;
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

  /** The statements of the wanted cells and all that they use, directly or not. */
  #wanted(): Set<CheckedStatement> {
    const { wanted } = this.#request;
    const found = new Set<CheckedStatement>();
    const queue = this.#notebook.statements.filter(({ cell }) => wanted === 'all' || wanted.includes(cell));
    for (let statement = queue.pop(); statement !== undefined; statement = queue.pop()) {
      if (found.has(statement)) continue;
      found.add(statement);
      queue.push(...statement.uses.flatMap((name) => this.#binders.get(name) ?? []));
    }
    return found;
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
    return { ...this.#result(statement, value, evaluator.warnings, undefined), cached: !evaluator.computed };
  }

  #evaluator(rest: Pick<EvaluationContext, 'mayCompute' | 'statement'> = {}): Evaluator {
    return new Evaluator({
      files: this.#host.files,
      watch: this.#watch,
      ...this.#answers,
      keys: this.#keys,
      digest: this.#host.digest,
      valueOf: (name) => this.#values.get(name),
      boundAt: (name) => this.#boundAt(name),
      ...(this.#host.history === undefined ? {} : { history: this.#host.history }),
      sourceOf: (call) => this.#sourceOf(call),
      ...rest,
    });
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
    const shown = statement.name === undefined || this.#inCells.get(statement.cell)?.at(-1) === statement;
    const { cell, line, name } = statement;
    const kind = value?.kind ?? statement.kind;
    const called = calledOf(statement);
    const unitAsked = statement.expression?.type === 'convert';
    return { cell, line, name: name?.text, called, kind, value, warnings, error, cached: false, shown, unitAsked };
  }

  #nameKey(name: string): Promise<string> {
    const binder = this.#binders.get(name);
    return binder?.expression === undefined ? Promise.resolve('nothing') : this.#keys.of(binder.expression);
  }

  async #history(call: Call): Promise<readonly string[]> {
    const { history } = this.#host;
    if (history === undefined || verbNamed(call.verb)?.readsHistory !== true) return [];
    const head = await history.head();
    return head === undefined ? [] : [head, this.#sourceOf(call) ?? ''];
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
    const identified = list.value.map(async ({ path }) => ({ path, ...(await files.identify(path)) }));
    const found = await Promise.all(identified).catch(() => undefined);
    // A file may vanish between being listed and being read: again its evaluation says so.
    if (found === undefined) return 'unreadable';
    for (const file of found) this.#sources.set(file.path, file);
    return JSON.stringify(found.map(({ path, sha256 }) => [path, sha256]));
  }
}
