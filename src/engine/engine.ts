import type { Handle, Literal, TextEdit } from '../charts/handle.ts';
import type { Choice, StatementAt } from '../charts/making.ts';
import type { Output } from '../charts/output.ts';
import type { CheckedNotebook } from '../language/check.ts';
import type { Watch } from '../values/ports.ts';
import type { Failure, Result } from '../result/result.ts';
import { Cache } from './cache.ts';
import { unwatched, type Host } from './host.ts';
import { KeptAnswers } from './kept/keptAnswers.ts';
import { changesBetween, Origins, type CellChanges } from './ingredients.ts';
import { handlesOf } from './handles/handles.ts';
import type { TextChange } from './handles/change.ts';
import { madeText, makingsOf, statementAt, statementFrom } from './handles/making.ts';
import { rewritten } from './handles/rewrite.ts';
import { refuse } from './messages.ts';
import type { Recalled } from './recall.ts';
import { Run, type Answers, type CellListener, type Listener } from './run.ts';
import { dependentsOf } from './dependents.ts';
import { checkCells } from './checkCells.ts';
import { checkNumber, withNumberCells, type AskedNumber, type NumberCheck } from './proseNumbers.ts';
import type { CellKeys, RunReport, RunRequest, StatementResult } from './result.ts';
import { recordingsIn } from './sources.ts';

/** What is known of numbers in prose. */
export interface RecalledNumbers extends Pick<Recalled, 'values' | 'complete'> {
  /** In the order in which they were asked. */
  readonly numbers: readonly NumberCheck[];
}

/**
 * Evaluates a notebook's cells in dependency order. Values are cached by content, so running again after an edit
 * computes only what depends on the edit.
 */
export class Engine {
  readonly #host: Host;
  readonly #cache: Cache;
  #kept: KeptAnswers | undefined;
  readonly #origins = new Origins();
  /** The notebook as it was understood last: after an edit only what the edit touches is checked again. */
  #last: CheckedNotebook | undefined;

  constructor(host: Host, cache = new Cache()) {
    this.#host = host;
    this.#cache = cache;
    this.#kept = host.kept && new KeptAnswers(host.kept);
  }

  /** Wanted cells are run in the order in which they are named, each after what it needs. */
  async run(
    request: RunRequest,
    watch: Watch,
    listen: Listener = () => undefined,
    settled: CellListener = () => undefined,
  ): Promise<RunReport> {
    return new Run(this.#checkCells(request.cells, request.numbers), request, watch, this.#host, this.#answers()).all(
      listen,
      settled,
    );
  }

  /** Works on a share of a notebook's recordings and keeps what they give; what the system refused may be tried again. */
  async share(cells: readonly string[], isOwn: (path: string) => boolean, watch: Watch): Promise<readonly Failure[]> {
    return new Run(this.#checkCells(cells), { cells, wanted: 'all' }, watch, this.#host, this.#answers()).share(isOwn);
  }

  /** The files of all recordings of a notebook, each once, in the order of the text; or why they can't be listed. */
  async recordings(cells: readonly string[]): Promise<Result<readonly string[]>> {
    return recordingsIn(this.#checkCells(cells), this.#host.files);
  }

  /** The content keys of cells, of all unless said, as a run of them would report them. */
  async keys(cells: readonly string[], keyed: readonly number[] = [...cells.keys()]): Promise<CellKeys> {
    return new Run(
      this.#checkCells(cells),
      { cells, wanted: [], keyed },
      unwatched,
      this.#host,
      this.#answers(),
    ).cellKeys();
  }

  /**
   * What has changed since cells had other content keys; nothing of a cell whose key is as it was, or was not given by this engine.
   * @param numbers what the reader counts each cell as
   * @param before content keys by the cell's index
   */
  async changes(cells: readonly string[], numbers: readonly number[], before: CellKeys): Promise<CellChanges> {
    this.#checkCells(cells, numbers);
    const now = await this.keys(cells, [...before.keys()]);
    const changed = [...before].map(([cell, key]) => {
      const [then, by] = [this.#origins.of(key), this.#origins.of(now.get(cell) ?? '')];
      return [cell, then === undefined || by === undefined ? [] : changesBetween(then, by, cell)] as const;
    });
    return new Map(changed);
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

  /** What can be made of stretches of the charts that a statement shows, likewise. */
  makings({ cell, line, value }: StatementResult): Pick<Output, 'makings' | 'statement'> {
    const statement = this.#last?.statements.find((one) => one.cell === cell && one.line === line);
    if (this.#last === undefined || statement === undefined || value === undefined) return {};
    return {
      makings: makingsOf(this.#last, statement, value),
      statement: statementAt(this.#last, statement),
    };
  }

  /** The change of the cells' text that makes something of a stretch of a statement's charts; the statement is run for it. */
  async make(cells: readonly string[], at: StatementAt, choice: Choice, watch: Watch): Promise<Result<TextChange>> {
    const notebook = this.#checkCells(cells);
    const statement = statementFrom(notebook, at);
    if (statement === undefined) return refuse('making.gone', {});
    const { cell, line } = statement;
    const { results } = await this.run({ cells, wanted: [cell] }, watch);
    const value = results.find((one) => one.cell === cell && one.line === line)?.value;
    return value === undefined ? refuse('making.gone', {}) : madeText(notebook, statement, value, choice);
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
        checkNumber(
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
    return { cache: this.#cache, kept: this.#kept, origins: this.#origins };
  }

  #checkCells(cells: readonly string[], numbers?: readonly number[]): CheckedNotebook {
    this.#last = checkCells(cells, this.#last, numbers);
    return this.#last;
  }
}
