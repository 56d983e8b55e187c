import { strict as assert } from 'node:assert';
import type { Diagnostic } from '../../../src/language/diagnostic.ts';
import { diagnose, diagnoseOutside } from '../../../src/language/services/diagnostics.ts';
import { actionsAt, addOptions, type Action } from '../../../src/language/services/fixes.ts';
import { formattingEdits } from '../../../src/language/services/formatting.ts';
import { parseCell } from '../../../src/language/parser.ts';
import { printCell } from '../../../src/language/printer.ts';
import { validCells } from '../valid.ts';
import { ground, marked, Memory } from './marked.ts';

function apply(text: string, { edits }: Pick<Action, 'edits'>): string {
  return [...edits]
    .sort((a, b) => b.place.from - a.place.from)
    .reduce((now, { place, text: piece }) => now.slice(0, place.from) + piece + now.slice(place.to), text);
}

/** What a cell becomes by each action at its caret. */
function outcomes(cell: string): readonly string[] {
  const { notebook, cell: index, offset, text } = marked(ground, cell);
  return actionsAt(notebook, index, { from: offset, to: offset }).map((action) => apply(text, action));
}

describe('actionsAt', () => {
  const cases: readonly (readonly [cell: string, outcome: string, what: string])[] = [
    ['levls¦ r', 'levels r', 'renames to the nearest verb'],
    ['levels ¦rr', 'levels r', 'renames to the nearest name'],
    ['levels ¦stock', 'stock = load ""\nlevels stock', 'binds a missing name above'],
    ['x = 2 * ¦mass', 'mass = 1\nx = 2 * mass', 'binds a missing quantity above'],
    ['trim r ¦80..5 s', 'trim r 5..80 s', 'swaps a range'],
    ['highpass r ¦2', 'highpass r 2 Hz', 'adds a unit'],
    ['highpass r 2 ¦s', 'highpass r 2 Hz', 'puts a unit that fits'],
    ['band ¦r 1..2 Hz', 'band (spectrum r) 1..2 Hz', 'makes the kind that is wanted'],
    ['spectrum r as¦', 'spectrum r as psd', 'adds a missing value of an option'],
    ['highpass r¦', 'highpass r 1000 Hz'.replace('1000', '50'), 'adds a missing operand'],
    ['running r¦', 'running r over 80 s', 'adds an operand with its keyword'],
    ['a¦ = 1\nlevels r', '1\nlevels r', 'takes an unused name away'],
    ['x = 100 lbf/¦in', 'x = 17.5127 N/mm', 'converts a quantity'],
    ['x = 5 m¦in', 'x = 300 s', 'converts a time'],
    ['levels (r¦', 'levels (r)', 'closes a bracket'],
  ];
  for (const [cell, outcome, what] of cases)
    it(`${what}: ${cell}`, () => assert.ok(outcomes(cell).includes(outcome), JSON.stringify(outcomes(cell))));

  it('has nothing to say to what is right', () => {
    assert.deepEqual(outcomes('trim r 5..¦80 s'), []);
    assert.deepEqual(outcomes('levels ¦r'), []);
  });
});

describe('addOptions', () => {
  const failure: Diagnostic = {
    code: 'of-a-run',
    facts: {},
    message: 'Write label, or add sheet.',
    severity: 'error',
    place: { from: 4, to: 8 },
  };

  it('adds each option that would settle a failure, with a value to start from', () => {
    const { notebook, text } = marked('x = load "a.csv" label "b" | levels¦');
    const settledBy = ['unit', 'label', 'nonsense', 'rate'];
    const actions = addOptions(notebook, 0, { ...failure, settledBy });
    assert.deepEqual(
      actions.map((action) => apply(text, action)),
      ['x = load "a.csv" label "b" unit g | levels', 'x = load "a.csv" label "b" rate 50 Hz | levels'],
    );
  });

  it('goes by the facts, whatever words the sentence holds', () => {
    assert.deepEqual(addOptions(marked('x = load "a.csv"¦').notebook, 0, failure), []);
  });
});

describe('diagnoseOutside', () => {
  const seen = async (cell: string): Promise<string[]> => {
    const { notebook, text } = marked(`${cell}¦`, ground);
    assert.deepEqual(
      diagnose(notebook)[0].filter(({ severity }) => severity === 'error'),
      [],
    );
    return (await diagnoseOutside(notebook, 0, new Memory())).map(
      ({ code, place, severity, fixes }: Diagnostic) =>
        `${severity} ${code} ${text.slice(place.from, place.to)}${fixes ? ` -> ${fixes[0].text}` : ''}`,
    );
  };

  it('sees files that do not exist', async () => {
    assert.deepEqual(await seen('load "raw/foam-1.csv", "raw/foam-3.csv"'), [
      'warning file.missing "raw/foam-3.csv" -> "raw/foam-1.csv"',
    ]);
    assert.deepEqual(await seen('load "raw/foam-*.csv"'), []);
  });
  it('sees channels that do not exist', async () => {
    assert.deepEqual(await seen('channel r w'), ['warning channel.unknown w']);
    assert.deepEqual(await seen('load "raw/foam-1.csv" channel x, ax_g, "column 5"'), [
      'warning channel.unknown "column 5"',
    ]);
    assert.deepEqual(await seen('load "raw/foam-1.csv" | channel y'), []);
    assert.deepEqual(await seen('load "raw/foam-1.csv" channels a="ax_g", b="sensor 2"'), [
      'warning channel.unknown b="sensor 2"',
    ]);
  });
  it('looks for no channel where a condition or a column is named', async () => {
    assert.deepEqual(await seen('load "raw/foam-1.csv" where condition foam'), []);
  });
  it('sees a stretch outside the run and a band past half the rate', async () => {
    assert.deepEqual(await seen('trim r 5..85 s'), []);
    assert.deepEqual(await seen('trim r 5..85.1 s'), ['warning range.outside 5..85.1 s']);
    assert.deepEqual(await seen('band S 10..176 Hz, 10..177 Hz'), ['warning band.rate 10..177 Hz']);
    assert.deepEqual(await seen('plot r over 0..1000 s'), []);
  });
});

describe('what diagnoseOutside says of a range', () => {
  const said = async (cell: string): Promise<string> => {
    const { notebook } = marked(`${cell}¦`, ground);
    const [{ message }] = await diagnoseOutside(notebook, 0, new Memory());
    return message;
  };

  it('has its ends to nine digits, and what it may reach to six', async () => {
    assert.match(await said('trim r 1.00000000012..85.1 s'), /`1\.\.85\.1 s` reaches .* from 0 s to 85 s;/);
    assert.match(await said('trim r 1.00000001..85.1 s'), /`1\.00000001\.\.85\.1 s`/);
    assert.match(await said('band S 10..176.00000012 Hz'), /`10\.\.176 Hz` reaches past half the rate, 176 Hz;/);
  });
});

describe('formattingEdits', () => {
  it('is one edit, as small as can be, or none', () => {
    const { notebook, text } = marked('x=load "a.csv"\nlevels   x¦');
    const edits = formattingEdits(notebook.cells[0]);
    assert.equal(edits.length, 1);
    assert.deepEqual(edits[0].place, { from: 1, to: 23 });
    assert.equal(
      text.slice(0, edits[0].place.from) + edits[0].text + text.slice(edits[0].place.to),
      'x = load "a.csv"\nlevels x',
    );
  });
  it('gives what the printer gives', () => {
    for (const cell of validCells) {
      const loose = cell.replaceAll(', ', ' ,  ');
      const { notebook } = marked(`${loose}¦`);
      const made = formattingEdits(notebook.cells[0]).reduce(
        (text, { place, text: piece }) => text.slice(0, place.from) + piece + text.slice(place.to),
        loose,
      );
      assert.equal(made, printCell(parseCell(loose, notebook.vocabulary)));
    }
  });
});
