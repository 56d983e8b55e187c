import { strict as assert } from 'node:assert';
import { hoverAt } from '../../../src/language/services/hover.ts';
import { inlayHints } from '../../../src/language/services/inlayHints.ts';
import { signatureAt } from '../../../src/language/services/signature.ts';
import { ground, marked, Memory } from './marked.ts';

describe('signatureAt', () => {
  const active = (cell: string): string | undefined => {
    const { notebook, cell: index, offset } = marked(ground, cell);
    const signature = signatureAt(notebook, index, offset);
    if (!signature) return undefined;
    const part = signature.active === undefined ? undefined : signature.synopsis.parts[signature.active];
    return `${signature.synopsis.text.split(/[ (]/)[0]}: ${part ? signature.synopsis.text.slice(part.from, part.to) : '-'}`;
  };

  it('shows the part of the verb that comes next', () => {
    assert.equal(active('trim ¦'), 'trim: RUNS');
    assert.equal(active('trim r ¦'), 'trim: [RANGE]');
    assert.equal(active('trim r from ¦'), 'trim: [from N s]');
    assert.equal(active('r | trim ¦'), 'trim: [RANGE]');
    assert.equal(
      active('spectrum r using ¦'),
      'spectrum: [using WINDOW | hann | hamming | blackman | blackman-harris | flattop | rectangular | window …]',
    );
    assert.equal(active('spectrum r using hann ¦'), 'window: [LENGTH]');
    assert.equal(active('plot S mark 4 Hz ¦'), 'plot: [mark N Hz | N s ["…"]]');
    assert.equal(active('load "¦'), 'load: FILES, …');
    assert.equal(active('levels r ¦'), 'levels: -');
    assert.equal(active('highpass r 2 Hz ¦'), 'highpass: -');
    assert.equal(active('compare r with r paired ¦'), 'compare: -');
  });

  it('shows the parameter of the function', () => {
    assert.equal(active('natural_frequency(¦'), 'natural_frequency: k');
    assert.equal(active('natural_frequency(k, ¦'), 'natural_frequency: m');
    assert.equal(active('series(k, k, ¦'), 'series: k');
    assert.equal(active('levels r\n¦'), undefined);
    assert.equal(active('spectrum ¦'), 'spectrum: RUNS');
  });
});

describe('hoverAt', () => {
  const hover = (cell: string): string => {
    const { notebook, cell: index, offset, text } = marked(ground, cell);
    const found = hoverAt(notebook, index, offset, new Memory());
    return found ? `${text.slice(found.place.from, found.place.to)}: ${found.text}` : '';
  };

  it('explains a verb, with an example', () => {
    const text = hover('tr¦im r 5..80 s');
    for (const part of ['trim: ', 'trim RUNS [RANGE]', 'Does trim.', 'Example', 'trim stock 5..80 s'])
      assert.ok(text.includes(part), part);
  });

  it('explains options, words, units, functions, fields and constants', () => {
    assert.match(hover('spectrum r conf¦idence 90 %'), /^confidence: .*Default: `95 %`.*percentage/);
    assert.match(hover('spectrum r as p¦sd'), /^psd: .*The as\./);
    assert.match(hover('highpass r 2 k¦Hz'), /a frequency.*1 kHz = 1000 Hz/);
    assert.match(hover('x = 3 g¦'), /standard gravity/);
    assert.match(hover('sq¦rt(4)'), /sqrt\(x\)/);
    assert.match(hover('C.cha¦nge'), /change.*a comparison/);
    assert.match(hover('2 * p¦i'), /3\.14159265/);
    assert.equal(hover('"te¦xt"'), '');
  });

  it('says of g alone that it is gravity', () => {
    assert.doesNotMatch(hover('trim r length 2 ¦s'), /gravity/);
    assert.match(hover('x = 2 ¦g'), /`g` is standard gravity/);
  });

  it('gives a name’s value in short, and where it is bound', () => {
    assert.match(
      hover('levels ¦r'),
      /^r: \*\*r\*\*: 4 runs, x y z in g, 352 Hz, 85 s[\s\S]*r = load[\s\S]*cell 1, line 1\./,
    );
    assert.match(hover('x = f¦0'), /10 Hz/);
    assert.match(hover('spectrum r using ¦W'), /a window/);
    assert.equal(hover('levels zz¦'), '');
  });
});

describe('inlayHints', () => {
  const hints = async (cell: string): Promise<string> => {
    const { notebook, cell: index, text } = marked(ground, `${cell}¦`);
    let shown = text;
    for (const { at, text: hint } of [...(await inlayHints(notebook, index, new Memory()))].reverse())
      shown = `${shown.slice(0, at)}<${hint}>${shown.slice(at)}`;
    return shown;
  };

  it('say how many files a pattern stands for', async () => {
    assert.equal(await hints('x = load "raw/*.csv", "b.csv"'), 'x = load "raw/*.csv"<4 files>, "b.csv"');
  });
  it('say the spacing of a window, wherever it stands', async () => {
    assert.equal(await hints('V = window hann 500 ms'), 'V = window hann 500 ms<2 Hz apart>');
    assert.equal(await hints('plot (spectrum r using hann 4 s)'), 'plot (spectrum r using hann 4 s<0.25 Hz apart>)');
  });
  it('say the result of arithmetic with literal quantities, and no more than that', async () => {
    assert.equal(await hints('f = 2 * f0 in rpm'), 'f = 2 * f0 in rpm<= 1200 rpm>');
    assert.equal(await hints('f = 10 Hz\nx = L.rms * 2\n2 * 3'), 'f = 10 Hz\nx = L.rms * 2\n2 * 3');
  });
  it('say the unit understood, when none is written', async () => {
    const { notebook } = marked('¦r = load "a.csv"\nq = load "a.csv" unit g');
    assert.deepEqual(
      (await inlayHints(notebook, 0, new Memory())).map(({ text }) => text),
      ['g'],
    );
  });
});
