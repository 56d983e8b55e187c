import { strict as assert } from 'node:assert';
import * as vscode from 'vscode';
import { settles, Study } from './study.ts';

const foam = 'foam = load "raw/foam-*.csv" channel z';
const part = '# The steady part\npart = trim foam 2..12 s';
const density = 'S = spectrum part using window hann 1 s\nband S 10..40 Hz';
const scratch = 'levels foam';

const ask = <T>(command: string, ...given: readonly unknown[]): Thenable<T> =>
  vscode.commands.executeCommand<T>(`vscode.${command}`, ...given);

const textOf = (content: vscode.MarkdownString | vscode.MarkedString): string =>
  typeof content === 'string' ? content : content.value;

describe('the language in an editor', () => {
  let study: Study;
  before(async () => {
    study = await Study.open('language', [foam, part, density, scratch]);
    await study.comesTo(2);
  });
  after(() => study.close());

  const uri = (cell: number): vscode.Uri => study.documents[cell].uri;

  /** What is offered at the `^` of a text in the last cell. */
  async function offered(marked: string, trigger?: string): Promise<readonly vscode.CompletionItem[]> {
    const caret = await study.write(3, marked);
    const list = await ask<vscode.CompletionList>('executeCompletionItemProvider', uri(3), caret, trigger);
    // The editor's own list of snippets comes by this way, though the setting keeps it from who types.
    return list.items.filter(({ kind }) => kind !== vscode.CompletionItemKind.Snippet);
  }
  const labels = (items: readonly vscode.CompletionItem[]): string[] =>
    items.map(({ label }) => (typeof label === 'string' ? label : label.label));

  it('completes verbs and names of other cells at the start of a statement', async () => {
    const found = labels(await offered('^'));
    assert.ok(found.includes('levels') && found.includes('part') && found.includes('S'), found.join(' '));
  });

  it('completes what fits an operand, with its value in short', async () => {
    const items = await offered('band ^');
    assert.equal(labels(items)[0], 'S');
    assert.ok(!labels(items).includes('foam'));
    const shortOf = async (): Promise<string> =>
      String((await offered('trim ^')).find(({ label }) => label === 'foam')?.detail);
    await settles(
      async () => /2 runs · z in g · 200 Hz · 20 s/.test(await shortOf()),
      () => 'no value beside foam',
    );
  });

  it('completes units that fit after a number, and the options that are left', async () => {
    assert.equal(labels(await offered('trim foam length 5 ^'))[0], 's');
    const found = labels(await offered('load "raw/foam-1.csv" channel z ^'));
    assert.ok(found.includes('unit') && !found.includes('channel'), found.join(' '));
  });

  it('completes files, patterns and channels out of the project', async () => {
    const files = await offered('load "raw/^"');
    assert.ok(labels(files).includes('raw/gel-*.csv'), labels(files).join(' '));
    assert.ok(labels(files).includes('raw/gel-2.csv'));
    assert.deepEqual(labels(await offered('load "raw/gel-1.csv" channel ^')).slice(0, 3), ['x', 'y', 'z']);
  });

  it('closes the bracket of a function, with the caret inside', async () => {
    const found = (await offered('x = ser^')).find(({ label }) => label === 'series');
    assert.ok(found?.insertText instanceof vscode.SnippetString);
    assert.equal(found.insertText.value, 'series($0)');
  });

  it('offers whole studies where a statement begins, and nowhere else', async () => {
    const isSnippet = ({ detail }: vscode.CompletionItem): boolean => detail?.endsWith('(snippet)') === true;
    const found = (await offered('lo^')).filter(isSnippet);
    assert.ok(labels(found).includes('load runs'), labels(found).join('; '));
    assert.deepEqual((await offered('levels ^')).filter(isSnippet), []);
  });

  it('does not put a list in the way of somebody who has written all that has to be', async () => {
    assert.deepEqual(labels(await offered('levels foam ^', ' ')), []);
    assert.ok(labels(await offered('levels ^', ' ')).includes('foam'));
    assert.deepEqual(labels(await offered('# a word ^', ' ')), []);
  });

  it('shows the form of the verb that is being written, with the place of the caret', async () => {
    const caret = await study.write(3, 'trim foam ^');
    const help = await ask<vscode.SignatureHelp>('executeSignatureHelpProvider', uri(3), caret);
    const [{ label, parameters }] = help.signatures;
    assert.match(label, /^trim RUNS/);
    const at = parameters[help.activeParameter].label;
    assert.ok(typeof at !== 'string');
    assert.match(label.slice(...at), /STRETCH/);
  });

  it('tells what stands under the pointer: a verb with an example and its page, a name with its value', async () => {
    const hoverOf = async (cell: number, marked: string): Promise<string> => {
      const found = await ask<vscode.Hover[]>('executeHoverProvider', uri(cell), study.at(cell, marked));
      return found.flatMap(({ contents }) => contents.map(textOf)).join('\n');
    };
    const verb = await hoverOf(1, 'tr^im');
    assert.match(verb, /Keeps a stretch/);
    assert.match(verb, /trim foam 10\.\.70 s/);
    assert.match(verb, /command:washboard\.openReference/);
    await settles(
      async () => /2 runs · z in g · 200 Hz · 10 s/.test(await hoverOf(2, 'pa^rt')),
      () => 'no value in the hover of part',
    );
    assert.match(await hoverOf(2, 'pa^rt'), /cell 3, The steady part, line 2/);
  });

  it('writes beside the text what it leaves unsaid', async () => {
    const hintsOf = async (cell: number): Promise<string> => {
      const range = new vscode.Range(0, 0, 9, 0);
      const found = await ask<vscode.InlayHint[]>('executeInlayHintProvider', uri(cell), range);
      return found.map(({ label }) => String(label)).join(' | ');
    };
    assert.match(await hintsOf(0), /2 files/);
    assert.match(await hintsOf(0), /\bg$/);
    assert.match(await hintsOf(2), /1 Hz apart/);
  });

  it('colours a word by what it is', async () => {
    const legend = await ask<vscode.SemanticTokensLegend>('provideDocumentSemanticTokensLegend', uri(0));
    const { data } = await ask<vscode.SemanticTokens>('provideDocumentSemanticTokens', uri(0));
    const types = Array.from({ length: data.length / 5 }, (_, i) => legend.tokenTypes[data[5 * i + 3]]);
    assert.deepEqual(types, ['variable', 'operator', 'function', 'string', 'keyword', 'property']);
  });

  it('folds a statement over several lines', async () => {
    await study.write(3, 'foam\n  | trim 2..12 s\n  | levels');
    const folds = await ask<vscode.FoldingRange[]>('executeFoldingRangeProvider', uri(3));
    assert.deepEqual(
      folds.map(({ start, end }) => [start, end]),
      [[0, 2]],
    );
  });

  it('lists the names that are bound', async () => {
    const found = await ask<vscode.DocumentSymbol[]>('executeDocumentSymbolProvider', uri(2));
    assert.deepEqual(
      found.map(({ name, detail }) => [name, detail]),
      [['S', 'a spectrum']],
    );
  });

  it('goes from a use to the cell that binds the name, and finds all uses', async () => {
    await study.write(3, 'levels part');
    const at = study.at(3, 'pa^rt');
    const [definition] = await ask<vscode.Location[]>('executeDefinitionProvider', uri(3), at);
    assert.equal(definition.uri.toString(), uri(1).toString());
    assert.ok(definition.range.isEqual(study.rangeOf(1, 'part =').with({ end: study.at(1, 'part^ =') })));
    const uses = await ask<vscode.Location[]>('executeReferenceProvider', uri(3), at);
    assert.deepEqual(
      new Set(uses.map(({ uri: cell }) => cell.toString())),
      new Set([1, 2, 3].map((i) => String(uri(i)))),
    );
    const highlights = await ask<vscode.DocumentHighlight[]>('executeDocumentHighlights', uri(3), at);
    assert.equal(highlights.length, 1);
  });

  it('renames over all cells in one edit, and refuses a name that is taken', async () => {
    await study.write(3, 'levels part');
    const at = study.at(3, 'pa^rt');
    const edit = await ask<vscode.WorkspaceEdit>('executeDocumentRenameProvider', uri(3), at, 'steady');
    assert.equal(edit.size, 3);
    assert.ok(await vscode.workspace.applyEdit(edit));
    assert.deepEqual(
      [1, 2, 3].map((cell) => study.textOf(cell)),
      [part, density, 'levels part'].map((text) => text.replace(/\bpart\b(?= =|$| using)/g, 'steady')),
    );
    await assert.rejects(
      async () => ask('executeDocumentRenameProvider', uri(3), study.at(3, 'st^eady'), 'foam'),
      /foam/,
    );
    await assert.rejects(async () => ask('executeDocumentRenameProvider', uri(3), study.at(3, 'le^vels'), 'x'));
  });

  it('widens a selection from the word to the cell', async () => {
    await study.write(3, 'foam | trim 2..12 s | levels');
    const [found] = await ask<vscode.SelectionRange[]>('executeSelectionRangeProvider', uri(3), [
      study.at(3, '2..1^2'),
    ]);
    const texts: string[] = [];
    for (let at: vscode.SelectionRange | undefined = found; at !== undefined; at = at.parent)
      texts.push(study.documents[3].getText(at.range));
    assert.ok(texts.includes('2..12 s') && texts.includes('trim 2..12 s'), texts.join(' / '));
    assert.equal(texts.at(-1), 'foam | trim 2..12 s | levels');
  });

  it('formats a cell, twice the same, and only what was chosen', async () => {
    const crooked = 'a=3   mm # a\nb  =  4 mm';
    await study.write(3, crooked);
    const format = async (command: string, ...given: readonly unknown[]): Promise<number> => {
      const edits = (await ask<vscode.TextEdit[] | undefined>(command, uri(3), ...given)) ?? [];
      const change = new vscode.WorkspaceEdit();
      change.set(uri(3), edits);
      await vscode.workspace.applyEdit(change);
      return edits.length;
    };
    const options = { tabSize: 2, insertSpaces: true };
    await format('executeFormatRangeProvider', study.rangeOf(3, 'b  ='), options);
    assert.equal(study.textOf(3), 'a=3   mm # a\nb = 4 mm');
    await format('executeFormatDocumentProvider', options);
    assert.equal(study.textOf(3), 'a = 3 mm # a\nb = 4 mm');
    assert.equal(await format('executeFormatDocumentProvider', options), 0);
  });

  it('converts a quantity to another unit of its dimension', async () => {
    await study.write(3, 'k = 40 N/mm');
    const found = await ask<vscode.CodeAction[]>('executeCodeActionProvider', uri(3), study.rangeOf(3, '40'));
    assert.ok(
      found.some(({ title }) => title === 'Convert to 40000 N/m'),
      found.map(({ title }) => title).join('; '),
    );
  });

  it('serves a script without a notebook, too', async () => {
    const document = await vscode.workspace.openTextDocument({ language: 'washboard', content: 'k = 4 N/mm\nk in ' });
    const list = await ask<vscode.CompletionList>(
      'executeCompletionItemProvider',
      document.uri,
      document.positionAt(document.getText().length),
    );
    assert.ok(labels(list.items).includes('lbf/in'));
  });

  it('opens the reference at a heading', async () => {
    await vscode.commands.executeCommand('washboard.openReference', 'trim');
    const titles = (): string[] => vscode.window.tabGroups.all.flatMap(({ tabs }) => tabs.map(({ label }) => label));
    await settles(
      () => titles().some((title) => /reference\.md/.test(title)),
      () => titles().join('; '),
    );
  });
});
