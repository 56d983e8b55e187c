import { strict as assert } from 'node:assert';
import { completionsAt } from '../../../src/language/services/completion.ts';
import { checkNotebook } from '../../../src/language/check.ts';
import type { Completion } from '../../../src/language/services/offer.ts';
import { nowhere } from '../../../src/language/services/outside.ts';
import { casesIn } from '../cases.ts';
import { catalogue } from '../catalogue.ts';
import { validCells } from '../valid.ts';
import { ground, marked, Memory } from './marked.ts';
import { toldOffers } from './told.ts';

async function complete(cell: string): Promise<readonly Completion[]> {
  const { notebook, cell: index, offset } = marked(ground, cell);
  return completionsAt(notebook, index, offset, new Memory());
}

const labels = async (cell: string): Promise<string[]> => (await complete(cell)).map(({ label }) => label);
const ofKind = async (cell: string, ...kinds: Completion['kind'][]): Promise<string[]> =>
  (await complete(cell)).filter(({ kind }) => kinds.includes(kind)).map(({ label }) => label);

/** The text after taking the offer with this label. */
async function take(cell: string, label: string): Promise<string> {
  const offer = (await complete(cell)).find((one) => one.label === label);
  assert.ok(offer, `${label} is not offered in ${cell}: ${(await labels(cell)).join(' ')}`);
  const text = cell.replace('¦', '');
  return text.slice(0, offer.place.from) + offer.insert + text.slice(offer.place.to);
}

describe('completionsAt', () => {
  it('offers verbs, names and functions where a statement begins', async () => {
    for (const cell of ['¦', 'le¦', 'x = ¦', 'r\n¦', 'levels r\n\n  sp¦', 'plot (¦']) {
      const offered = await labels(cell);
      for (const word of ['levels', 'load', 'r', 'sqrt', 'pi']) assert.ok(offered.includes(word), `${word} in ${cell}`);
    }
    assert.equal(await take('le¦', 'levels'), 'levels ');
    assert.equal(await take('x = lev¦ r', 'levels'), 'x = levels  r');
  });

  it('offers after a pipe the verbs that take what comes down it', async () => {
    assert.ok((await labels('r | ¦')).includes('levels'));
    assert.ok(!(await labels('r | ¦')).includes('band'));
    assert.ok((await labels('r | spectrum | ¦')).includes('band'));
    assert.ok(!(await labels('r | spectrum\n  | le¦')).includes('levels'));
  });

  it('offers names of the kinds that an operand takes, and verbs that make them', async () => {
    assert.deepEqual(await ofKind('levels ¦', 'name'), ['r']);
    assert.deepEqual(await ofKind('band ¦', 'name'), ['S']);
    assert.equal(await take('band ¦', '(spectrum …)'), 'band (spectrum ');
    assert.deepEqual(await ofKind('compare r with ¦', 'name'), ['r', 'S']);
    assert.deepEqual(await ofKind('plot r, ¦', 'name'), ['r', 'S', 'W', 'C', 'L', 'f0', 'k']);
  });

  it('tells of a name what kind of value it has', async () => {
    const told = (await complete('compare r with ¦')).filter(({ kind }) => kind === 'name');
    assert.deepEqual(
      told.map(({ detail }) => detail),
      ['runs', 'a spectrum'],
    );
  });

  it('offers the options that are left, once the operands stand', async () => {
    assert.deepEqual(await ofKind('spectrum r ¦', 'keyword'), ['using', 'as', 'confidence', 'in']);
    assert.deepEqual(await ofKind('spectrum r as psd ¦', 'keyword'), ['using', 'confidence', 'in']);
    assert.deepEqual(await ofKind('spectrum r as ¦', 'keyword'), []);
    assert.deepEqual(await ofKind('spectrum ¦', 'keyword'), []);
    assert.deepEqual(await ofKind('compare r ¦', 'keyword'), ['with', 'over', 'confidence', 'margin', 'paired', 'in']);
    assert.deepEqual(await ofKind('plot S mark 4 Hz mark 8 Hz ¦', 'keyword'), ['over', 'scale', 'mark', 'in']);
    assert.deepEqual(await ofKind('window hann 2 s ¦', 'keyword'), ['overlap']);
  });

  it('offers units after in, wherever it stands', async () => {
    for (const cell of ['r in ¦', 'levels r in ¦', 'r | levels in ¦', 'C = compare r with q in ¦'])
      assert.ok((await ofKind(cell, 'unit')).includes('mm/s^2'), cell);
  });

  it('offers fixed words', async () => {
    assert.deepEqual(await ofKind('spectrum r as ¦', 'word'), ['psd', 'amplitude']);
    assert.deepEqual(await ofKind('detrend r ¦', 'word'), ['mean', 'linear']);
    assert.ok((await ofKind('window ¦', 'word')).includes('blackman-harris'));
    assert.equal(await take('window blackman-h¦ 2 s', 'blackman-harris'), 'window blackman-harris 2 s');
  });

  it('offers windows by name, by shape and in place after using, and then both steps’ options', async () => {
    const offered = await labels('spectrum r using ¦');
    for (const word of ['W', 'hann', 'window']) assert.ok(offered.includes(word), word);
    assert.deepEqual(await ofKind('spectrum r using hann 2 s ¦', 'keyword'), ['overlap', 'as', 'confidence', 'in']);
    assert.deepEqual(await ofKind('spectrum r using window hann 2 s overlap 50 % ¦', 'keyword'), [
      'as',
      'confidence',
      'in',
    ]);
  });

  it('offers units that fit the place', async () => {
    assert.deepEqual((await ofKind('highpass r 2 ¦', 'unit')).slice(0, 3), ['Hz', 'kHz', 'rpm']);
    assert.deepEqual((await ofKind('trim r 5..80 ¦', 'unit')).slice(0, 2), ['s', 'ms']);
    assert.ok((await ofKind('trim r 5..80 ¦', 'unit')).every((label) => !['Hz', 'kg', 'g'].includes(label)));
    assert.deepEqual(await ofKind('spectrum r confidence 95 ¦', 'unit'), ['%']);
    assert.deepEqual(await ofKind('k in ¦', 'unit'), ['N/mm', 'N/m', 'kgf/mm', 'lbf/in']);
    assert.ok((await ofKind('load "a" unit ¦', 'unit')).includes('m/s^2'));
    assert.equal(await take('highpass r 2 k¦', 'kHz'), 'highpass r 2 kHz');
  });

  it('offers no verb after a pipe that takes nothing down it, even where the kind is unknown', async () => {
    const offered = await ofKind('nothing | ¦', 'verb');
    assert.ok(offered.includes('levels'));
    assert.ok(!offered.includes('load') && !offered.includes('window'));
  });

  it('offers fields of a value', async () => {
    assert.deepEqual(await labels('L.¦'), ['rms', 'peak']);
    assert.deepEqual(await labels('x = C.ch¦'), ['change']);
    assert.deepEqual(await labels('(levels r).¦'), ['rms', 'peak']);
  });

  it('offers names of quantities and functions in arithmetic', async () => {
    const offered = await labels('x = 2 * ¦');
    for (const word of ['f0', 'k', 'sqrt', 'pi']) assert.ok(offered.includes(word), word);
    assert.ok(!offered.includes('r'));
    assert.ok((await labels('natural_frequency(¦')).includes('k'));
    assert.deepEqual(await ofKind('highpass r ¦', 'name'), ['f0']);
  });

  it('offers files and folders of the project, and patterns for numbered ones', async () => {
    assert.deepEqual(await labels('load "¦'), ['raw/', 'notes.md']);
    assert.deepEqual(await labels('load "raw/¦'), [
      'raw/foam-*.csv',
      'raw/foam-1.csv',
      'raw/foam-2.csv',
      'raw/gel-1.csv.gz',
    ]);
    assert.equal(await take('x = load "ra¦"', 'raw/'), 'x = load "raw/"');
    assert.equal(await take('load "raw/¦f" unit g', 'raw/foam-*.csv'), 'load "raw/foam-*.csv" unit g');
    assert.equal(await take('load ¦', 'raw/'), 'load "raw/');
    assert.deepEqual(await labels('plot S mark 4 Hz "¦'), []);
  });

  it('offers channels as last run, else out of the file', async () => {
    assert.deepEqual(await ofKind('channel r ¦', 'channel'), ['x', 'y', 'z']);
    assert.deepEqual(await ofKind('load "raw/foam-1.csv" channel ¦', 'channel'), ['x', 'y', 'column 4']);
    assert.deepEqual(await ofKind('load "raw/foam-1.csv" channel x, ¦', 'channel'), ['x', 'y', 'column 4']);
    assert.deepEqual(await ofKind('load "raw/foam-1.csv" | channel ¦', 'channel'), ['x', 'y', 'column 4']);
    assert.equal(await take('load "raw/foam-1.csv" channel ¦', 'column 4'), 'load "raw/foam-1.csv" channel "column 4"');
    assert.deepEqual(await ofKind('transfer r from ¦', 'channel'), ['x', 'y', 'z']);
  });

  it('offers bands that standards name', async () => {
    assert.ok((await ofKind('band S ¦', 'range')).includes('0.5..80 Hz'));
    assert.deepEqual(await ofKind('trim r ¦', 'range'), []);
  });

  // All of them in their order: rank and kind, what each writes and whether the next is wanted right after it.
  for (const [cell, ...expected] of casesIn('offers.txt'))
    it(`offers at ${cell} what could stand there, the nearest first`, async () => {
      const { notebook, cell: index, offset } = marked(`${ground}\nq = zz\nshare = 5 %`, cell);
      assert.deepEqual(toldOffers(await completionsAt(notebook, index, offset, new Memory())), expected);
    });

  it('offers at each word of what is right that word, be it a verb, an option, a name, a field or a unit', async () => {
    // No end of a range is offered by name, and units in one spelling.
    for (const cell of validCells.filter((text) => !/f0\.\.|in in|²/.test(text))) {
      const notebook = checkNotebook([cell], catalogue);
      for (const { role, place } of notebook.occurrences) {
        if (role === 'definition' || role === 'channel') continue;
        const offers = await completionsAt(notebook, 0, place.from, nowhere);
        const word = cell.slice(place.from, place.to);
        assert.ok(
          offers.some(({ label }) => label === word),
          `${role} ${word} of ${cell}`,
        );
      }
    }
  });

  it('is silent in comments and where a name is being made', async () => {
    assert.deepEqual(await labels('levels r # le¦'), []);
    assert.ok((await labels('levels r # x\n¦')).length > 0);
  });

  it('answers at every place of every valid cell', async () => {
    for (const cell of validCells) {
      for (let at = 0; at <= cell.length; at++) {
        const { notebook, cell: index, offset } = marked(`${cell.slice(0, at)}¦${cell.slice(at)}`);
        for (const { place } of await completionsAt(notebook, index, offset, nowhere))
          assert.ok(place.from <= offset && offset <= place.to && place.to <= cell.length);
      }
    }
  });
});
