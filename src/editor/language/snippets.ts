import * as vscode from 'vscode';

/** An entry of snippets/washboard.json, which the editor's own command for snippets reads, too. */
interface Entry {
  readonly prefix: string;
  readonly description: string;
  readonly body: readonly string[];
}

/**
 * Whole studies and parts of them, for the beginning of a statement: the editor by itself would offer them in every
 * place. Not of the editor's kind for snippets, which is switched off for that reason.
 */
export class Snippets {
  readonly #file: vscode.Uri;
  #entries: Promise<Readonly<Record<string, Entry>>> | undefined;

  constructor(extension: vscode.Uri) {
    this.#file = vscode.Uri.joinPath(extension, 'snippets', 'washboard.json');
  }

  /** @param range of the word that they replace */
  async items(range: vscode.Range): Promise<readonly vscode.CompletionItem[]> {
    this.#entries ??= this.#read();
    return Object.entries(await this.#entries).map(([name, { prefix, description, body }]) => {
      const item = new vscode.CompletionItem(prefix, vscode.CompletionItemKind.Module);
      item.insertText = new vscode.SnippetString(body.join('\n'));
      item.range = range;
      item.detail = `${name} (snippet)`;
      item.documentation = new vscode.MarkdownString(description);
      // After the verb of the same name.
      item.sortText = `8${prefix}`;
      return item;
    });
  }

  async #read(): Promise<Readonly<Record<string, Entry>>> {
    const bytes = await vscode.workspace.fs.readFile(this.#file);
    return JSON.parse(new TextDecoder().decode(bytes)) as Record<string, Entry>;
  }
}
