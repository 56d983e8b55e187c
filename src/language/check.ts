import { cellNameOf } from './cellName.ts';
import type { CheckedStatement } from './checked.ts';
import { constants } from './constants.ts';
import { circles, evaluationOrder } from './graph.ts';
import { insideAnother } from './insideAnother.ts';
import { reporter } from './messages.ts';
import { mostOfNotebook, parseCell } from './parser.ts';
import type { Diagnostic } from './diagnostic.ts';
import { checkPipeline } from './step.ts';
import type { Cell, Statement } from './tree.ts';
import { vocabularyOf, type Catalogue, type Vocabulary } from './vocabulary.ts';
import { sparely } from './sparely.ts';
import { untyped, type ArrangedStep, type Occurrence, type Typed, type Work } from './work.ts';

/** A whole notebook as checked: what the engine runs and what the editor's features read. */
export interface CheckedNotebook {
  readonly catalogue: Catalogue;
  readonly vocabulary: Vocabulary;
  readonly cells: readonly Cell[];
  /** What a reader counts each cell as, from 1: an editor counts those of prose, too. */
  readonly numbers: readonly number[];
  /** In the order of the text. */
  readonly statements: readonly CheckedStatement[];
  /** Indices into `statements`, each after those it needs; members of circles come last. */
  readonly order: readonly number[];
  /** By cell, in the order of the text. */
  readonly problems: readonly (readonly Diagnostic[])[];
  /** Index of the statement that binds a name: the first, where two do. */
  readonly bindings: ReadonlyMap<string, number>;
  /** What is known of each bound name's value without running. */
  readonly types: ReadonlyMap<string, Typed>;
  readonly occurrences: readonly Occurrence[];
  readonly steps: readonly ArrangedStep[];
  /** By cell and statement; lets the next check of an edited notebook take over what did not change. */
  readonly findings: readonly (readonly Findings[])[];
}

/** What checking one statement gave. */
export interface Findings {
  readonly cell: number;
  readonly found: readonly Diagnostic[];
  /** Each name used, with what was known of it. */
  readonly uses: ReadonlyMap<string, Typed>;
  readonly occurrences: readonly Occurrence[];
  readonly steps: readonly ArrangedStep[];
  readonly typed: Typed;
}

/**
 * Checks the cells of a notebook as one text: names cross cells, in any order. A statement with an error has no
 * expression and does not stop the others; what depends on it gets a hint `name.failed`. Given the result of an
 * earlier check, only what an edit touched is checked again; the answer is the same.
 */
export function checkNotebook(
  cells: readonly string[],
  catalogue: Catalogue,
  before?: CheckedNotebook,
  numbers: readonly number[] = cells.map((_, cell) => cell + 1),
): CheckedNotebook {
  const earlier = before?.catalogue === catalogue ? before : undefined;
  return new NotebookCheck(cells, catalogue, earlier, numbers).result();
}

interface Entry {
  readonly cell: number;
  readonly index: number;
  readonly statement: Statement;
  /** What is wrong with its name and its place among the others. */
  readonly found: Diagnostic[];
  state: 'new' | 'checking' | 'done';
  findings: Findings;
}

const none: Findings = { cell: 0, found: [], uses: new Map(), occurrences: [], steps: [], typed: untyped };

/** Of so many names at most the one is sought that a misspelt name was meant to be. */
const mostAdvised = 500;

/** How many names deep a check may follow; only circles, and what looks like one, get there. */
const deepest = 50;

class NotebookCheck {
  readonly #catalogue: Catalogue;
  readonly #vocabulary: Vocabulary;
  readonly #before: CheckedNotebook | undefined;
  readonly #cells: readonly Cell[];
  readonly #numbers: readonly number[];
  readonly #entries: Entry[] = [];
  readonly #bindings = new Map<string, number>();
  /** Names bound now and not before, or before and not now. */
  #changed: readonly string[] = [];
  #depth = 0;

  constructor(
    cells: readonly string[],
    catalogue: Catalogue,
    before: CheckedNotebook | undefined,
    numbers: readonly number[],
  ) {
    this.#numbers = numbers;
    this.#catalogue = catalogue;
    this.#vocabulary = vocabularyOf(catalogue);
    this.#before = before;
    let left = mostOfNotebook;
    this.#cells = cells.map((text, i) => {
      const same = before?.cells.at(i)?.text === text ? before.cells[i] : undefined;
      const kept = same?.whole === true && same.statements.length <= left;
      const cell = kept ? same : parseCell(text, this.#vocabulary, left);
      left = Math.max(0, left - cell.statements.length);
      return cell;
    });
    this.#cells.forEach(({ statements }, cell) => {
      statements.forEach((statement, index) =>
        this.#entries.push({ cell, index, statement, found: [], state: 'new', findings: none }),
      );
    });
  }

  result(): CheckedNotebook {
    this.#bind();
    const names = this.#before?.bindings ?? this.#bindings;
    this.#changed = [...this.#bindings.keys(), ...names.keys()].filter(
      (name) => names.has(name) !== this.#bindings.has(name),
    );
    this.#roughOrder().forEach((index) => this.#check(this.#entries[index]));
    const uses = this.#entries.map(({ findings }) =>
      [...findings.uses.keys()].map((name) => this.#bindings.get(name)!),
    );
    this.#reportCircles(uses);
    const order = evaluationOrder(uses);
    this.#reportDependents(order);
    this.#reportUnused();
    const findings: Findings[][] = this.#cells.map(() => []);
    this.#entries.forEach((entry) => findings[entry.cell].push(entry.findings));
    const statements = this.#entries.map((entry) => this.#finish(entry));
    return {
      catalogue: this.#catalogue,
      vocabulary: this.#vocabulary,
      cells: this.#cells,
      numbers: this.#numbers,
      statements,
      order,
      problems: this.#problemsByCell(statements),
      bindings: this.#bindings,
      types: new Map([...this.#bindings].map(([name, index]) => [name, this.#entries[index].findings.typed])),
      occurrences: this.#entries.flatMap((entry) => [...definitionOf(entry), ...entry.findings.occurrences]),
      steps: this.#entries.flatMap((entry) => entry.findings.steps),
      findings,
    };
  }

  /** Every name to the first statement that binds it. */
  #bind(): void {
    this.#entries.forEach((entry, index) => {
      const { name } = entry.statement;
      if (!name) return;
      const { text, place } = name;
      const report = reporter(entry.found);
      const what = reservedAs(text, this.#vocabulary);
      const first = this.#bindings.get(text);
      if (what) report('name.reserved', place, { name: text, what });
      else if (!isName(text)) report('name.letters', place, { name: text });
      if (first === undefined) {
        if (!what) this.#bindings.set(text, index);
        return;
      }
      const { cell, statement } = this.#entries[first];
      const where = cellNameOf({ cells: this.#cells, numbers: this.#numbers }, cell);
      report('name.twice', place, { name: text, cell: where, line: statement.line, same: cell === entry.cell });
    });
  }

  /** An order in which names are mostly checked before their uses, so that looking one up seldom goes deep. */
  #roughOrder(): readonly number[] {
    const uses = this.#entries.map(({ statement }, index) => {
      const words = new Set<number>();
      for (const { token } of statement.pieces) {
        const other = token.kind === 'word' ? this.#bindings.get(token.text) : undefined;
        if (other !== undefined && other !== index) words.add(other);
      }
      return [...words];
    });
    return evaluationOrder(uses);
  }

  #check(entry: Entry): void {
    if (entry.state !== 'new') return;
    entry.state = 'checking';
    entry.findings = this.#kept(entry) ?? this.#fresh(entry);
    entry.state = 'done';
  }

  /** The earlier findings of a statement whose text and whose names' values are as they were. */
  #kept({ cell, index, statement }: Entry): Findings | undefined {
    if (this.#before?.cells[cell] !== this.#cells[cell]) return undefined;
    const findings = this.#before.findings[cell][index];
    if (this.#changed.length > 0) {
      // A name that came or went matters to who has that word, and to the advice of a message.
      const touched = statement.pieces.some(({ token }) => token.kind === 'word' && this.#changed.includes(token.text));
      if (touched || findings.found.length > 0) return undefined;
    }
    for (const [name, typed] of findings.uses) if (this.#typeOf(name) !== typed) return undefined;
    return findings;
  }

  #fresh(entry: Entry): Findings {
    const { cell, statement } = entry;
    const found: Diagnostic[] = [];
    const uses = new Map<string, Typed>();
    const occurrences: Occurrence[] = [];
    const steps: ArrangedStep[] = [];
    const own = statement.name?.text;
    const work: Work = {
      catalogue: this.#catalogue,
      vocabulary: this.#vocabulary,
      text: this.#cells[cell].text,
      report: reporter(found),
      bound: (name) => this.#bindings.has(name),
      // Advice that is sought among thousands of names would be sought for long, and be no advice.
      names: () => (this.#bindings.size > mostAdvised ? [] : [...this.#bindings.keys()].filter((name) => name !== own)),
      note: (occurrence) => void occurrences.push(Object.assign(occurrence, { cell })),
      arranged: ({ place }, arrangement) => void steps.push({ cell, place, arrangement }),
      use: (name) => {
        const typed = this.#typeOf(name);
        uses.set(name, typed);
        return typed;
      },
      pipeline: (pipeline) => checkPipeline(pipeline, work),
    };
    const typed = checkPipeline(statement.pipeline, work);
    return {
      cell,
      found: sparely(found),
      uses: uses.size > 0 ? uses : none.uses,
      occurrences: sparely(occurrences),
      steps: sparely(steps),
      typed,
    };
  }

  #typeOf(name: string): Typed {
    const entry = this.#entries[this.#bindings.get(name)!];
    if (this.#depth < deepest) {
      this.#depth++;
      this.#check(entry);
      this.#depth--;
    }
    return entry.findings.typed;
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
      const failed = hasFailed(entry);
      const names = [...entry.findings.uses.keys()].filter((name) => blocked.has(name));
      if (!failed && names.length > 0) reporter(entry.found)('name.failed', entry.statement.place, { names });
      const name = entry.statement.name?.text;
      if (name !== undefined && this.#bindings.get(name) === index && (failed || names.length > 0)) blocked.add(name);
    }
  }

  #reportUnused(): void {
    const used = new Set<string>();
    this.#entries.forEach(({ findings }) => findings.uses.forEach((_, name) => used.add(name)));
    this.#bindings.forEach((index, name) => {
      const { statement, found, cell } = this.#entries[index];
      const last = this.#entries[index + 1]?.cell !== cell;
      // A cell shows its last statement's value even when it has a name, so that name need not be used again.
      if (!used.has(name) && !last) reporter(found)('name.unused', statement.name!.place, { name });
    });
  }

  #finish(entry: Entry): CheckedStatement {
    const { cell, statement, findings } = entry;
    const { place, line, name } = statement;
    return {
      cell,
      place,
      line,
      name: name && { text: name.text, place: name.place },
      expression: hasFailed(entry) ? undefined : findings.typed.checked,
      uses: findings.uses.size > 0 ? [...findings.uses.keys()] : [],
      kind: findings.typed.kind,
      problems: this.#foundIn(entry),
    };
  }

  /** All that is wrong with a statement, without what only follows from something else that is wrong with it. */
  #foundIn({ statement, found, findings }: Entry): readonly Diagnostic[] {
    const syntax = statement.found;
    if (syntax.length === 0) return [...found, ...findings.found];
    const rest = findings.found.filter(({ code }) => !followsFromSyntax(code));
    const hidden = insideAnother(rest.filter(({ code }) => code === 'text.quotes'));
    return [...[...syntax, ...rest].filter((one) => !hidden(one)), ...found];
  }

  #problemsByCell(statements: readonly CheckedStatement[]): readonly (readonly Diagnostic[])[] {
    const lists: Diagnostic[][] = this.#cells.map(() => []);
    for (const { cell, problems } of statements) for (const one of problems) lists[cell].push(one);
    return lists.map((list) => list.sort((a, b) => a.place.from - b.place.from));
  }
}

const followsFromSyntax = (code: string): boolean => code.startsWith('operand.') || code.startsWith('option.');

/** Whether a word can be a name: letters, digits and _, not beginning with a digit. */
export const isName = (text: string): boolean => /^[\p{L}_][\p{L}\p{Nd}\p{M}_]*$/u.test(text);

/** What a word already is in the language, if anything. */
export function reservedAs(
  name: string,
  { verbs, keywords, functions }: Vocabulary,
): 'verb' | 'keyword' | 'function' | 'constant' | undefined {
  if (verbs.has(name)) return 'verb';
  if (functions.has(name)) return 'function';
  if (keywords.has(name)) return 'keyword';
  return Object.hasOwn(constants, name) ? 'constant' : undefined;
}

function definitionOf({ cell, statement: { name } }: Entry): readonly Occurrence[] {
  return name ? [{ role: 'definition', name: name.text, place: name.place, cell }] : [];
}

const hasFailed = ({ statement, found, findings }: Entry): boolean =>
  statement.found.length > 0 ||
  findings.found.length > 0 ||
  found.some(({ code }) => code !== 'name.failed' && code !== 'name.unused');
