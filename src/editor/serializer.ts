import * as vscode from 'vscode';
import { parseNotebook } from '../notebook/parse.ts';
import { serializeNotebook } from '../notebook/serialize.ts';
import { languageId } from './names.ts';

/** Markdown with `washboard` blocks as a notebook; what is not edited is written back byte for byte. */
export const serializer: vscode.NotebookSerializer = {
  deserializeNotebook(bytes) {
    const notebook = parseNotebook(bytes);
    // The editor then offers to open the file as text; nothing is dropped.
    if (!notebook.ok) throw new Error(notebook.failure.message);
    const cells = notebook.value.cells.map(({ kind, text, raw }) => {
      const cell =
        kind === 'code'
          ? new vscode.NotebookCellData(vscode.NotebookCellKind.Code, text, languageId)
          : new vscode.NotebookCellData(vscode.NotebookCellKind.Markup, text, 'markdown');
      if (raw !== undefined) cell.metadata = { ...raw };
      return cell;
    });
    const data = new vscode.NotebookData(cells);
    data.metadata = { ...notebook.value.frame };
    return data;
  },

  serializeNotebook(data) {
    const cells = data.cells.map(({ kind, value, languageId: language, metadata }) => ({
      kind: kind === vscode.NotebookCellKind.Code ? ('code' as const) : ('prose' as const),
      text: value,
      ...(kind === vscode.NotebookCellKind.Code && language !== languageId ? { language } : {}),
      ...(metadata === undefined || Object.keys(metadata).length === 0 ? {} : { raw: metadata }),
    }));
    return serializeNotebook({ cells, frame: data.metadata ?? {} });
  },
};
