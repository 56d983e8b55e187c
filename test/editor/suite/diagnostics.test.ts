import { strict as assert } from 'node:assert';
import * as vscode from 'vscode';
import { settles, Study } from './study.ts';

/** The titles of the quick fixes at a place, and the fixes. */
async function fixesAt(study: Study, cell: number, range: vscode.Range): Promise<readonly vscode.CodeAction[]> {
  const { uri } = study.documents[cell];
  const found = await vscode.commands.executeCommand<vscode.CodeAction[]>(
    'vscode.executeCodeActionProvider',
    uri,
    range,
    vscode.CodeActionKind.QuickFix.value,
  );
  return found.filter(({ edit }) => edit?.has(uri));
}

describe('problems in an editor', () => {
  let study: Study;
  before(async () => {
    study = await Study.open('problems', [
      'foam = load "raw/foam-*.csv" channel z',
      'part = trim foam 2..12 s\nlevels part',
      'levels foam',
    ]);
  });
  after(() => study.close());

  it('appear while a cell is edited, and vanish when it is put right', async () => {
    await study.write(2, 'levls foam');
    const [found] = await study.comesTo(2, 'verb.unknown');
    assert.equal(found.severity, vscode.DiagnosticSeverity.Error);
    assert.match(found.message, /levels/);
    assert.deepEqual(found.range, study.rangeOf(2, 'levls'));
    await study.write(2, 'levels foam');
    await study.comesTo(2);
  });

  it('cross the cells: a name that goes is missed where it was used', async () => {
    await study.write(0, 'foams = load "raw/foam-*.csv" channel z');
    await study.comesTo(1, 'name.unknown', 'name.failed');
    await study.comesTo(2, 'name.unknown');
    await study.write(0, 'foam = load "raw/foam-*.csv" channel z');
    await study.comesTo(1);
    await study.comesTo(2);
  });

  it('call the cell of another statement as the editor counts it, and link to that', async () => {
    await study.write(1, '# Part of it\npart = trim foam 2..12 s\nlevels part');
    await study.write(2, 'part = detrend foam\nlevels part');
    const [{ message, relatedInformation }] = await study.comesTo(2, 'name.twice');
    // The heading above the cells counts, too.
    assert.match(message, /already bound in cell 3, Part of it, line 2;/);
    const [related] = relatedInformation ?? [];
    assert.equal(related.message, 'part: cell 3, Part of it, line 2');
    assert.equal(related.location.uri.toString(), study.documents[1].uri.toString());
    assert.deepEqual(related.location.range, study.rangeOf(1, 'part'));
    await study.write(1, 'part = trim foam 2..12 s\nlevels part');
    await study.write(2, 'levels foam');
    await study.comesTo(2);
  });

  it('link their code to the page of the reference', async () => {
    await study.write(2, 'levls foam');
    const [{ code }] = await study.comesTo(2, 'verb.unknown');
    assert.ok(typeof code === 'object');
    // The editor hands this to the extension, which opens the page; a command it would not follow from a problem.
    assert.equal(code.target.scheme, vscode.env.uriScheme);
    assert.equal(code.target.authority, 'washboard-notebooks.washboard');
    assert.equal(code.target.query, 'verb.unknown');
  });

  it('are mended by their quick fix, which then is the only change', async () => {
    await study.write(2, '# levels\nlevls foam');
    await study.comesTo(2, 'verb.unknown');
    const fixes = await fixesAt(study, 2, study.rangeOf(2, 'levls'));
    const fix = fixes.find(({ isPreferred }) => isPreferred);
    assert.ok(fix?.edit, fixes.map(({ title }) => title).join('; '));
    assert.ok(await vscode.workspace.applyEdit(fix.edit));
    assert.equal(study.textOf(2), '# levels\nlevels foam');
    await study.comesTo(2);
  });

  it('fade a name that is never used', async () => {
    await study.write(2, 'spare = levels foam\nlevels foam');
    const [hint] = await study.comesTo(2, 'name.unused');
    assert.equal(hint.severity, vscode.DiagnosticSeverity.Hint);
    assert.deepEqual(hint.tags, [vscode.DiagnosticTag.Unnecessary]);
  });

  it('tell a file that is not there, and offer the nearest', async () => {
    await study.write(2, 'load "raw/fom-1.csv"');
    const [found] = await study.comesTo(2, 'file.missing');
    assert.equal(found.severity, vscode.DiagnosticSeverity.Warning);
    const [fix] = await fixesAt(study, 2, found.range);
    assert.ok(fix.edit);
    assert.ok(await vscode.workspace.applyEdit(fix.edit));
    assert.equal(study.textOf(2), 'load "raw/foam-1.csv"');
    await study.comesTo(2);
  });

  it('tell a channel that the file does not have', async () => {
    await study.write(2, 'load "raw/gel-1.csv" channel w');
    const [found] = await study.comesTo(2, 'channel.unknown');
    assert.match(found.message, /x.*y.*z/);
    await study.write(2, 'load "raw/gel-1.csv" channel "z (g)"');
    await study.comesTo(2);
  });

  it('tell a trim outside the run before anything was run', async () => {
    await study.write(2, 'levels (trim foam 5..50 s)');
    const [found] = await study.comesTo(2, 'range.outside');
    assert.match(found.message, /20 s/);
    await study.write(2, 'load "raw/foam-1.csv" | trim 5..50 s');
    await study.comesTo(2, 'trim.outside');
  });

  it('say nothing of a path outside the project but why it may not be read', async () => {
    await study.write(2, 'load "../../other.csv"');
    const [found] = await study.comesTo(2, 'file.outside');
    assert.match(found.message, /outside the project/);
  });

  it('offer the option that settles what the engine can’t tell', async () => {
    const { uri } = study.notebook;
    const counts = Array.from({ length: 400 }, (_, i) => `${i},${(i * 37) % 101}`).join('\n');
    await vscode.workspace.fs.writeFile(
      vscode.Uri.joinPath(uri, '..', 'raw', 'counts.csv'),
      new TextEncoder().encode(`n,a\n${counts}\n`),
    );
    await study.write(2, 'load "raw/counts.csv" rate 100 Hz');
    await settles(
      () => study.diagnostics(2).some(({ message }) => /write unit/.test(message)),
      () =>
        study
          .diagnostics(2)
          .map(({ message }) => message)
          .join('; '),
    );
    const [fix] = await fixesAt(study, 2, study.diagnostics(2)[0].range);
    assert.ok(fix.edit, 'a fix');
    assert.ok(await vscode.workspace.applyEdit(fix.edit));
    assert.equal(study.textOf(2), 'load "raw/counts.csv" rate 100 Hz unit g');
    await study.comesTo(2);
  });

  it('go with their cell', async () => {
    await study.write(2, 'levls foam');
    await study.comesTo(2, 'verb.unknown');
    const [, , { uri }] = study.documents;
    const edit = new vscode.WorkspaceEdit();
    const last = study.notebook.cellCount - 1;
    edit.set(study.notebook.uri, [vscode.NotebookEdit.deleteCells(new vscode.NotebookRange(last, last + 1))]);
    assert.ok(await vscode.workspace.applyEdit(edit));
    await settles(
      () => vscode.languages.getDiagnostics(uri).length === 0,
      () => 'diagnostics of a cell that is gone',
    );
  });
});
