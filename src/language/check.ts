import { circles, evaluationOrder } from './graph.ts';
import type { CheckedStatement } from './checked.ts';
import { constants } from './expression.ts';
import { problemOf } from './messages.ts';
import { parseCell } from './parser.ts';
import type { Problem } from './problem.ts';
import { checkPipeline } from './step.ts';
import type { Cell, Statement } from './tree.ts';
import { reporter, type Found } from './trouble.ts';
import { vocabularyOf, type Catalogue, type Vocabulary } from './vocabulary.ts';
import { wrong, type Laid, type Mention, type Typed, type Work } from './work.ts';

/** A whole notebook as checked: what the engine runs and what the editor's features read. */
export interface CheckedNotebook {
  readonly catalogue: Catalogue;
  readonly vocabulary: Vocabulary;
  readonly cells: readonly Cell[];
  /** In the order of the text. */
  readonly statements: readonly CheckedStatement[];
  /** Indices into `statements`, each after those it needs; members of circles come last. */
  readonly order: readonly number[];
  /** By cell, in the order of the text. */
  readonly problems: readonly (readonly Problem[])[];
  /** Index of the statement that binds a name: the first, where two do. */
  readonly bindings: ReadonlyMap<string, number>;
  readonly mentions: readonly Mention[];
  readonly laid: readonly Laid[];
}

/**
 * Checks the cells of a notebook as one text: names cross cells, in any order. A statement with an error has no
 * expression and does not stop the others; what depends on it gets a hint `name.failed`.
 */
export function checkNotebook(cells: readonly string[], catalogue: Catalogue): CheckedNotebook {
  return new NotebookCheck(cells, catalogue).result();
}

interface Entry {
  readonly cell: number;
  readonly statement: Statement;
  readonly found: Found[];
  readonly uses: Set<string>;
  state: 'new' | 'checking' | 'done';
  typed: Typed;
}

const deepest = 50;

class NotebookCheck {
  readonly #catalogue: Catalogue;
  readonly #vocabulary: Vocabulary;
  readonly #cells: readonly Cell[];
  readonly #entries: Entry[] = [];
  readonly #bindings = new Map<string, number>();
  readonly #mentions: Mention[] = [];
  readonly #laid: Laid[] = [];
  #depth = 0;

  constructor(cells: readonly string[], catalogue: Catalogue) {
    this.#catalogue = catalogue;
    this.#vocabulary = vocabularyOf(catalogue);
    this.#cells = cells.map((text) => parseCell(text, this.#vocabulary));
    this.#cells.forEach(({ statements }, cell) => {
      for (const statement of statements) {
        this.#entries.push({ cell, statement, found: [], uses: new Set(), state: 'new', typed: wrong });
      }
    });
  }

  result(): CheckedNotebook {
    this.#bind();
    this.#roughOrder().forEach((index) => this.#check(this.#entries[index]));
    const uses = this.#entries.map((entry) => [...entry.uses].map((name) => this.#bindings.get(name)!));
    this.#reportCircles(uses);
    const order = evaluationOrder(uses);
    this.#reportDependents(order);
    this.#reportUnused();
    const statements = this.#entries.map((entry) => this.#finish(entry));
    return {
      catalogue: this.#catalogue,
      vocabulary: this.#vocabulary,
      cells: this.#cells,
      statements,
      order,
      problems: this.#problemsByCell(),
      bindings: this.#bindings,
      mentions: this.#mentions,
      laid: this.#laid,
    };
  }

  /** Every name to the first statement that binds it. */
  #bind(): void {
    this.#entries.forEach((entry, index) => {
      const { name } = entry.statement;
      if (!name) return;
      const { text, place } = name;
      const report = reporter(entry.found);
      this.#mentions.push({ role: 'definition', name: text, place, cell: entry.cell });
      const what = this.#reserved(text);
      const first = this.#bindings.get(text);
      if (what) report('name.reserved', place, { name: text, what });
      else if (!/^[\p{L}_][\p{L}\p{Nd}\p{M}_]*$/u.test(text)) report('name.letters', place, { name: text });
      if (first === undefined) {
        if (!what) this.#bindings.set(text, index);
        return;
      }
      const { cell, statement } = this.#entries[first];
      report('name.twice', place, { name: text, cell: cell + 1, line: statement.line, same: cell === entry.cell });
    });
  }

  #reserved(name: string): 'verb' | 'keyword' | 'function' | 'constant' | undefined {
    const { verbs, keywords, functions } = this.#vocabulary;
    if (verbs.has(name)) return 'verb';
    if (functions.has(name)) return 'function';
    if (keywords.has(name)) return 'keyword';
    return name in constants ? 'constant' : undefined;
  }

  /** An order in which names are mostly checked before their uses, so that looking one up seldom goes deep. */
  #roughOrder(): readonly number[] {
    const uses = this.#entries.map(({ statement }, index) => {
      const words = statement.pieces.flatMap(({ token }) => this.#bindings.get(token.text) ?? []);
      return [...new Set(words)].filter((other) => other !== index);
    });
    return evaluationOrder(uses);
  }

  #check(entry: Entry): void {
    if (entry.state !== 'new') return;
    entry.state = 'checking';
    entry.typed = checkPipeline(entry.statement.pipeline, this.#workFor(entry));
    entry.state = 'done';
  }

  #workFor(entry: Entry): Work {
    const { cell } = entry;
    const names = (): readonly string[] =>
      [...this.#bindings.keys()].filter((name) => name !== entry.statement.name?.text);
    const work: Work = {
      catalogue: this.#catalogue,
      vocabulary: this.#vocabulary,
      text: this.#cells[cell].text,
      report: reporter(entry.found),
      bound: (name) => this.#bindings.has(name),
      names,
      mention: (mention) => void this.#mentions.push({ ...mention, cell } as Mention),
      laid: (step, arrangement, piped) => void this.#laid.push({ cell, step, arrangement, piped }),
      use: (name) => this.#use(name, entry),
      pipeline: (pipeline) => checkPipeline(pipeline, work),
    };
    return work;
  }

  #use(name: string, user: Entry): Typed {
    user.uses.add(name);
    const entry = this.#entries[this.#bindings.get(name)!];
    // Only a circle, or what looks like one, gets deep: its members' kinds stay unknown.
    if (this.#depth < deepest) {
      this.#depth++;
      this.#check(entry);
      this.#depth--;
    }
    return entry.typed;
  }

  #reportCircles(uses: readonly (readonly number[])[]): void {
    for (const members of circles(uses)) {
      const names = members.map((index) => this.#entries[index].statement.name?.text ?? '');
      for (const index of members) {
        const { statement, found } = this.#entries[index];
        reporter(found)('name.circle', statement.name?.place ?? statement.place, { members: names });
      }
    }
  }

  #reportDependents(order: readonly number[]): void {
    const blocked = new Set<string>();
    for (const index of order) {
      const entry = this.#entries[index];
      const failed = this.#failed(entry);
      const names = [...entry.uses].filter((name) => blocked.has(name));
      if (!failed && names.length > 0) reporter(entry.found)('name.failed', entry.statement.place, { names });
      const name = entry.statement.name?.text;
      if (name !== undefined && this.#bindings.get(name) === index && (failed || names.length > 0)) blocked.add(name);
    }
  }

  #reportUnused(): void {
    const used = new Set(this.#entries.flatMap(({ uses }) => [...uses]));
    this.#bindings.forEach((index, name) => {
      const { statement, found, cell } = this.#entries[index];
      const last = this.#entries[index + 1]?.cell !== cell;
      // A cell shows its last statement's value even when it has a name, so that name need not be used again.
      if (!used.has(name) && !last) reporter(found)('name.unused', statement.name!.place, { name });
    });
  }

  #failed({ statement, found }: Entry): boolean {
    return !statement.sound || found.some(({ code }) => code !== 'name.failed' && code !== 'name.unused');
  }

  #finish(entry: Entry): CheckedStatement {
    const { cell, statement, typed, found, uses } = entry;
    const { place, line, name } = statement;
    const inside = this.#cells[cell].found.filter((one) => one.place.from >= place.from && one.place.from <= place.to);
    return {
      cell,
      place,
      line,
      name: name && { text: name.text, place: name.place },
      expression: this.#failed(entry) ? undefined : typed.checked,
      uses: [...uses],
      kind: typed.kind,
      problems: [...inside, ...found].map(problemOf),
    };
  }

  #problemsByCell(): readonly (readonly Problem[])[] {
    const lists = this.#cells.map(({ found }) => [...found]);
    this.#entries.forEach(({ cell, found }) => lists[cell].push(...found));
    return lists.map((list) => list.map(problemOf).sort((a, b) => a.place.from - b.place.from));
  }
}
