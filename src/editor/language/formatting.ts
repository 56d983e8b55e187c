import * as vscode from 'vscode';
import type { Cell } from '../../language/tree.ts';
import { spanOf, rangeOf, type Analyses, type Part } from './analyses.ts';
import { language } from './service.ts';

/** One canonical text for a cell, or for the statements that a range touches. */
export function registerFormatting(selector: vscode.DocumentSelector, analyses: Analyses): vscode.Disposable {
  const edits = (document: vscode.TextDocument, range?: vscode.Range): vscode.TextEdit[] => {
    const part = analyses.ofDocument(document);
    if (part === undefined) return [];
    const { cell, start } = range === undefined ? wholeOf(part) : touchedBy(part, range);
    return language
      .formattingEdits(cell)
      .map(({ place: { from, to }, text }) =>
        vscode.TextEdit.replace(rangeOf(document, { from: from + start, to: to + start }), withEnds(document, text)),
      )
      .filter(({ range: at, newText }) => document.getText(at) !== newText);
  };
  return vscode.Disposable.from(
    vscode.languages.registerDocumentFormattingEditProvider(selector, {
      provideDocumentFormattingEdits: (document) => edits(document),
    }),
    vscode.languages.registerDocumentRangeFormattingEditProvider(selector, {
      provideDocumentRangeFormattingEdits: (document, range) => edits(document, range),
    }),
  );
}

interface Piece {
  readonly cell: Cell;
  /** Where it begins in its document. */
  readonly start: number;
}

const wholeOf = ({ notebook, cell }: Part): Piece => ({ cell: notebook.cells[cell], start: 0 });

/** The statements that a range touches, as a cell of their own. */
function touchedBy({ notebook, cell, document }: Part, range: vscode.Range): Piece {
  const { text, statements } = notebook.cells[cell];
  const { from, to } = spanOf(document, range);
  const touched = statements.filter(({ place }) => place.from <= to && from <= place.to).map(({ place }) => place);
  const start = touched.at(0)?.from ?? from;
  const end = touched.at(-1)?.to ?? start;
  return { cell: language.parse(text.slice(start, end)), start };
}

/** Line ends as the document has them. */
const withEnds = ({ eol }: vscode.TextDocument, text: string): string =>
  eol === vscode.EndOfLine.CRLF ? text.replace(/\r?\n/g, '\r\n') : text;
