import * as vscode from 'vscode';
import type { CheckedNotebook } from '../../language/check.ts';
import type { Place } from '../../language/diagnostic.ts';
import { programOf, type Program } from './program.ts';
import { language } from './service.ts';

/** A program as checked. */
export interface Analysis extends Program {
  readonly notebook: CheckedNotebook;
}

/** A document's part of its program. */
export interface Part extends Analysis {
  readonly document: vscode.TextDocument;
  /** Index of the document among the program's. */
  readonly cell: number;
}

/** One check of each program, made when somebody asks and kept until its text changes. */
export class Analyses {
  readonly #known = new Map<string, Analysis>();

  of(program: Program): Analysis {
    const key = program.uri.toString();
    const before = this.#known.get(key);
    const texts = program.documents.map((document) => document.getText());
    const same =
      before?.notebook.cells.length === texts.length &&
      texts.every((text, cell) => before.notebook.cells[cell].text === text) &&
      program.numbers.every((number, cell) => before.numbers[cell] === number);
    const notebook = same ? before.notebook : language.check(texts, before?.notebook, program.numbers);
    const analysis = { ...program, notebook };
    this.#known.set(key, analysis);
    return analysis;
  }

  ofDocument(document: vscode.TextDocument): Part | undefined {
    const program = programOf(document);
    if (program === undefined) return undefined;
    const analysis = this.of(program);
    return { ...analysis, document, cell: analysis.documents.indexOf(document) };
  }

  forget(uri: vscode.Uri): void {
    this.#known.delete(uri.toString());
  }
}

export const rangeOf = (document: vscode.TextDocument, { from, to }: Place): vscode.Range =>
  new vscode.Range(document.positionAt(from), document.positionAt(to));

export const spanOf = (document: vscode.TextDocument, { start, end }: vscode.Range): Place => ({
  from: document.offsetAt(start),
  to: document.offsetAt(end),
});

/** The location of a place in a cell of a program. */
export const locationOf = ({ documents }: Program, cell: number, place: Place): vscode.Location =>
  new vscode.Location(documents[cell].uri, rangeOf(documents[cell], place));
