import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { checkNotebook, type CheckedNotebook } from '../../src/language/check.ts';
import type { Checked } from '../../src/language/checked.ts';
import type { Diagnostic } from '../../src/language/diagnostic.ts';
import { catalogue } from './catalogue.ts';
import { validCells } from './valid.ts';

const check = (...cells: string[]): CheckedNotebook => checkNotebook(cells, catalogue);
const problemsOf = (...cells: string[]): readonly Diagnostic[] => check(...cells).problems.flat();
const errorsOf = (...cells: string[]): readonly Diagnostic[] =>
  problemsOf(...cells).filter(({ severity }) => severity === 'error');

/** One cell after a first that binds runs `r` and `q`, a spectrum `S`, a window `W`, a comparison `C`, levels `L`. */
const ground = [
  'r = load "a.csv"',
  'q = load "b.csv"',
  'S = spectrum r',
  'W = window hann 2 s',
  'C = compare r with q',
  'L = levels r',
].join('\n');
const errors = (cell: string): readonly Diagnostic[] => errorsOf(ground, cell);

/** The one error of a cell: its code, and the text at its place. */
function only(cell: string): { code: string; at: string; message: string; fixed: string | undefined } {
  const found = errors(cell);
  assert.equal(found.length, 1, `${cell}: ${JSON.stringify(found)}`);
  const [{ code, place, message, fixes }] = found;
  const fix = fixes?.[0];
  const fixed = fix && cell.slice(0, fix.place.from) + fix.text + cell.slice(fix.place.to);
  return { code, at: cell.slice(place.from, place.to), message, fixed };
}

/** Checked trees in a short writing. */
function short(node: Checked | undefined): string {
  if (!node) return '-';
  switch (node.type) {
    case 'call': {
      const list = (all: typeof node.operands): string =>
        Object.entries(all)
          .map(
            ([key, values]) =>
              ` ${key}:${values.map((one) => (one.type === 'group' ? `(${one.parts.map(short).join(' ')})` : short(one))).join(',')}`,
          )
          .join('');
      return `${node.verb}(${list(node.operands).trim()}${Object.keys(node.options).length > 0 ? ` /${list(node.options)}` : ''})`;
    }
    case 'name':
      return node.name;
    case 'quantity':
      return `${node.quantity.value}${node.quantity.unit.symbol}`;
    case 'range':
      return `${node.from.value}${node.from.unit.symbol}..${node.to.value}${node.to.unit.symbol}`;
    case 'text':
      return `"${node.text}"`;
    case 'word':
      return node.text === undefined ? `'${node.word}` : `'${node.word}="${node.text}"`;
    case 'unit':
      return node.unit.symbol;
    case 'pick':
      return `${short(node.of)}[${node.index}]`;
    case 'field':
      return `${short(node.of)}.${node.field}`;
    case 'binary':
      return `(${short(node.left)}${node.operator}${short(node.right)})`;
    case 'negative':
      return `-${short(node.of)}`;
    case 'convert':
      return `${short(node.of)} in ${node.unit.symbol}`;
    case 'uncertain':
      return `(${short(node.of)}±${node.by.value}${node.by.unit.symbol}${node.freedom === undefined ? '' : ` dof ${node.freedom}`})`;
    case 'coverage':
      return `${short(node.of)} coverage ${node.level}`;
    case 'function':
      return `${node.name}(${node.arguments.map(short).join(',')})`;
  }
}

const call = (cell: string): string => {
  const { statements, problems } = check(ground, cell);
  assert.deepEqual(
    problems[1].filter(({ severity }) => severity === 'error'),
    [],
  );
  return short(statements.filter((statement) => statement.cell === 1).at(-1)!.expression);
};

describe('checkNotebook', () => {
  for (const cell of validCells) {
    it(`finds nothing wrong with ${JSON.stringify(cell)}`, () => {
      assert.deepEqual(errorsOf(cell), []);
      assert.ok(check(cell).statements.every(({ expression }) => expression !== undefined));
    });
  }

  it('asks for a verb’s result in a unit, and for a quantity that can be told in it alone', () => {
    assert.equal(call('levels r in mg'), 'levels(runs:r) in mg');
    assert.equal(call('r | levels in mg'), 'levels(runs:r) in mg');
    assert.equal(call('levels (r in mg)'), 'levels(runs:r in mg)');
    assert.equal(call('load "a" in m/s^2'), 'load(files:"a") in m/s^2');
    assert.equal(call('load "a" channel z in mg | levels'), `levels(runs:load(files:"a" / channel:'z) in mg)`);
    assert.equal(
      call('compare r with q in mg over 10..50 Hz, 50..100 Hz margin 5 %'),
      'compare(a:r b:q / over:10Hz..50Hz,50Hz..100Hz margin:5%) in mg',
    );
    assert.equal(call('compare r with q over 10..50 Hz in mg'), 'compare(a:r b:q / over:10Hz..50Hz) in mg');
    assert.equal(call('compare r with q margin 5 % in mg'), 'compare(a:r b:q / margin:5%) in mg');
    assert.equal(call('compare r with q paired in mg'), 'compare(a:r b:q / paired:) in mg');
    assert.equal(call('load "a" unit m/s^2 in mg'), 'load(files:"a" / unit:m/s^2) in mg');
    assert.equal(call('plot S mark 300 rpm in Hz'), 'plot(subjects:S / mark:(300rpm in Hz))');
    assert.equal(call('f = 300 rpm\nplot S mark f in Hz'), 'plot(subjects:S / mark:(f in Hz))');
    assert.equal(call('f = 300 rpm\nplot S mark f in mg'), 'plot(subjects:S / mark:(f)) in mg');
    assert.equal(call('plot (spectrum r) in mg'), 'plot(subjects:spectrum(runs:r)) in mg');
  });

  it('has no other unit for what has none', () => {
    assert.equal(only('window hann 2 s in mg').code, 'convert.kind');
    assert.equal(only('x = "foam" in mg').code, 'convert.kind');
    assert.equal(only('W in mg').code, 'convert.kind');
    assert.equal(only('levels r in mgg').code, 'unit.unknown');
    assert.equal(only('levels r in').code, 'syntax.missing');
  });

  it('lays items out under the names of the form', () => {
    assert.equal(call('trim r 5..80 s'), 'trim(runs:r range:5s..80s)');
    assert.equal(call('trim r from 5 s to 80 s'), 'trim(runs:r / from:5s to:80s)');
    assert.equal(
      call('load "a", "b" channel az, x="sensor 2" unit m/s² rate 400 Hz'),
      `load(files:"a","b" / channel:'az,'x="sensor 2" unit:m/s^2 rate:400Hz)`,
    );
    assert.equal(call('load "a" unit % channel "Acc Z"'), 'load(files:"a" / channel:"Acc Z" unit:%)');
    assert.equal(
      call('compare r with q over 10..50 Hz, 50..100 Hz margin 5 % paired'),
      'compare(a:r b:q / over:10Hz..50Hz,50Hz..100Hz margin:5% paired:)',
    );
    assert.equal(call('transfer r from x to z'), `transfer(runs:r input:'x output:'z)`);
    assert.equal(call('plot S mark 4 Hz "wheel turn" mark 8 Hz'), 'plot(subjects:S / mark:(4Hz "wheel turn"),(8Hz))');
    assert.equal(call('plot r q S'), 'plot(subjects:r,q,S)');
    assert.equal(call('band S third-octave 1..160 Hz'), `band(spectrum:S fraction:'third-octave bands:1Hz..160Hz)`);
    assert.equal(call('band (spectrum r[2]) 10..50 Hz'), 'band(spectrum:spectrum(runs:r[2]) bands:10Hz..50Hz)');
  });

  it('takes any of the dimensions that a place allows, by name or literally', () => {
    assert.equal(call('plot r over 5..80 s mark 3 s "stop"'), 'plot(subjects:r / over:5s..80s mark:(3s "stop"))');
    assert.equal(call('t0 = 5 s\nplot r over t0..80 s mark t0'), 'plot(subjects:r / over:5s..80s mark:(t0))');
    assert.match(only('plot r over 1..2 m').message, /a frequency or a time/);
  });

  it('unrolls pipelines into first operands', () => {
    assert.equal(
      call('r | trim 5..80 s | detrend linear | levels'),
      `levels(runs:detrend(runs:trim(runs:r range:5s..80s) what:'linear))`,
    );
  });

  it('binds the keywords of a step in place to it, and ends it at those of the step around', () => {
    assert.equal(
      call('spectrum r using window hann 2 s overlap 50 % confidence 95 %'),
      `spectrum(runs:r / using:window(shape:'hann length:2s / overlap:50%) confidence:95%)`,
    );
    assert.equal(
      call('spectrum r using hann 2 s as amplitude'),
      `spectrum(runs:r / using:window(shape:'hann length:2s) as:'amplitude)`,
    );
    assert.equal(call('spectrum r using hann'), `spectrum(runs:r / using:'hann)`);
    assert.equal(
      call('spectrum r using hann overlap 50 %'),
      `spectrum(runs:r / using:window(shape:'hann / overlap:50%))`,
    );
    assert.equal(call('spectrum r using W'), 'spectrum(runs:r / using:W)');
    assert.equal(
      call('transfer r using hann 1 s from x to z'),
      `transfer(runs:r input:'x output:'z / using:window(shape:'hann length:1s))`,
    );
  });

  it('takes a channel for what it is, whatever else the word means', () => {
    assert.equal(call('channel r q'), `channel(runs:r channel:'q)`);
    assert.equal(call('channel r rate'), `channel(runs:r channel:'rate)`);
    assert.equal(call('load "a" channel x, time, rate'), `load(files:"a" / channel:'x,'time,'rate)`);
    assert.deepEqual(check(ground, 'channel r q').statements.at(-1)!.uses, ['r']);
  });

  it('ends a list at a keyword with its value, though a comma stands before it', () => {
    assert.equal(call('load "a" channel x, time,\n  rate 400 Hz'), `load(files:"a" / channel:'x,'time rate:400Hz)`);
  });

  it('knows ranges with either unit, and ends made of names bound to quantities', () => {
    assert.equal(call('trim r 5 s..80'), 'trim(runs:r range:5s..80s)');
    assert.equal(call('trim r 5 s..2 min'), 'trim(runs:r range:5s..2min)');
    assert.equal(call('f0 = 10 Hz\nband S f0..2*f0'), 'band(spectrum:S bands:10Hz..20Hz)');
  });

  it('keeps the order of the text and gives an order to evaluate in', () => {
    const { statements, order } = check('x = y + 1\nz = 2', 'y = z');
    assert.deepEqual(
      statements.map(({ cell, line, name, uses }) => [cell, line, name?.text, uses.join()]),
      [
        [0, 1, 'x', 'y'],
        [0, 2, 'z', ''],
        [1, 1, 'y', 'z'],
      ],
    );
    assert.deepEqual(order, [1, 2, 0]);
  });

  it('tells kinds as far as it can', () => {
    const kinds = check(ground, 'trim r 1..2 s\nr[1]\nL.rms\nC.change\nr | spectrum\nsqrt(4)')
      .statements.filter(({ cell }) => cell === 1)
      .map(({ kind }) => kind);
    assert.deepEqual(kinds, ['runs', 'runs', 'quantity', 'quantity', 'spectrum', 'quantity']);
  });
});

describe('names', () => {
  it('bound twice are an error at the second, which says where the first is', () => {
    const [problem, ...rest] = errorsOf('# a\nx = 1\ny = x', 'x = 2');
    assert.deepEqual(rest, []);
    assert.equal(problem.code, 'name.twice');
    assert.match(problem.message, /cell 1, a, line 2/);
    assert.deepEqual(check('x = 1', 'x = 2').bindings.get('x'), 0);
  });

  it('unknown get the nearest', () => {
    const { code, at, message, fixed } = only('levels rr');
    assert.deepEqual([code, at, fixed], ['name.unknown', 'rr', 'levels r']);
    assert.match(message, /did you mean `r`\?/);
    assert.equal(errorsOf('stock = load "a"', 'levels stok')[0].fixes?.[0].text, 'stock');
  });

  it('in a circle are an error each, naming the members', () => {
    const found = errorsOf('a = b + 1', 'b = c\nc = a\nd = a\ne = e + 1');
    assert.deepEqual(
      found.map(({ code }) => code),
      ['name.circle', 'name.circle', 'name.circle', 'name.circle'],
    );
    assert.match(found[0].message, /`a`, `b` and `c`/);
    assert.match(found[3].message, /`e` is made from itself/);
  });

  it('whose statement failed are not unknown: what depends on them says so quietly', () => {
    const { problems, statements } = check('a = lod "x.csv"', 'b = levels a\nc = b.rms');
    assert.deepEqual(
      problems.map((list) => list.map(({ code, severity }) => `${code} ${severity}`)),
      [['verb.unknown error'], ['name.failed hint', 'name.failed hint']],
    );
    assert.deepEqual(
      statements.map(({ expression }) => expression !== undefined),
      [false, true, true],
    );
  });

  it('may not be words of the language', () => {
    assert.equal(only('levels = levels r').code, 'name.reserved');
    assert.equal(only('rate = 5 Hz').code, 'name.reserved');
    assert.equal(only('sqrt = 5 Hz').code, 'name.reserved');
    assert.equal(only('pi = 3').code, 'name.reserved');
    assert.equal(only('m² = 3').code, 'name.letters');
    assert.deepEqual(errors('m = 3 kg\ng = 1\ns = 2\nhann = 2'), []);
  });

  it('that nothing uses get a hint, unless their cell shows them', () => {
    const codes = problemsOf('a = 1\nb = 2', 'c = 3\nlevels r', 'r = load "x"').map(
      ({ code, message }) => code + message.slice(0, 4),
    );
    assert.deepEqual(codes, ['name.unused`a` ', 'name.unused`c` ']);
  });

  it('chained a thousand deep, backwards, are no trouble', () => {
    const cells = Array.from({ length: 3000 }, (_, i) => `n${i} = n${i + 1} + 1`);
    assert.deepEqual(errorsOf(...cells, 'n3000 = 1'), []);
    assert.equal(errorsOf(...cells, 'n3000 = n0').length, 3001);
    const { order } = check(...cells, 'n3000 = 1');
    assert.deepEqual([order[0], order[1], order.at(-1)], [3000, 2999, 0]);
  });
});

describe('the checker, on mistakes of one cell', () => {
  const table: readonly (readonly [cell: string, code: string, at: string, fixed?: string])[] = [
    ['levls r', 'verb.unknown', 'levls', 'levels r'],
    ['specturm', 'verb.unknown', 'specturm', 'spectrum'],
    ['r | levls', 'verb.unknown', 'levls', 'r | levels'],
    ['bnd (spectrum r) 10..50 Hz', 'verb.unknown', 'bnd', 'band (spectrum r) 10..50 Hz'],
    ['abs(levels)', 'verb.place', 'levels'],
    ['r levels', 'verb.missing', 'r', 'r | levels'],
    ['r | q', 'verb.missing', 'q'],
    ['sqr(4)', 'function.unknown', 'sqr', 'sqrt(4)'],
    ['sqrt 4', 'function.arguments', 'sqrt'],
    ['natural_frequency(40 N/mm)', 'function.arguments', 'natural_frequency(40 N/mm)'],
    ['natural_frequency(3 s, 80 kg)', 'unit.dimension', '3 s'],
    ['trim', 'operand.missing', ''],
    ['compare r', 'operand.missing', ''],
    ['compare r with', 'operand.missing', ''],
    ['levels r q', 'operand.extra', 'q'],
    ['levels r now', 'option.unknown', 'now'],
    ['trim r 5..80 s 3 s', 'operand.extra', '3 s'],
    ['r | trim r 5..80 s', 'operand.extra', 'r'],
    ['trim r 5 s', 'operand.wrong', '5 s'],
    ['spectrum r usng W', 'option.unknown', 'usng', 'spectrum r using W'],
    ['claim C band 10..50 Hz reduction 15 %', 'option.unknown', 'band', 'claim C over 10..50 Hz reduction 15 %'],
    ['compare r with q band 10..50 Hz', 'option.unknown', 'band', 'compare r with q over 10..50 Hz'],
    ['spectrum r using hann 2 s overlp 50 %', 'option.unknown', 'overlp', 'spectrum r using hann 2 s overlap 50 %'],
    ['spectrum r as psd as amplitude', 'option.twice', 'as'],
    ['spectrum r as', 'option.missing', ''],
    ['spectrum r using', 'option.missing', ''],
    ['plot S mark', 'option.missing', ''],
    ['window han 2 s', 'word.unknown', 'han', 'window hann 2 s'],
    ['spectrum r as pds', 'word.unknown', 'pds', 'spectrum r as psd'],
    ['band r 10..50 Hz', 'kind.mismatch', 'r', 'band (spectrum r) 10..50 Hz'],
    ['r | band 10..50 Hz', 'kind.mismatch', 'band'],
    ['levels (2 + 3)', 'kind.mismatch', '(2 + 3)'],
    ['highpass r 2', 'unit.missing', '2', 'highpass r 2 Hz'],
    ['highpass r 2 hz', 'unit.unknown', 'hz', 'highpass r 2 Hz'],
    ['highpass r 2 s', 'unit.dimension', '2 s', 'highpass r 2 Hz'],
    ['highpass r 2,5 Hz', 'number.comma', '2,5', 'highpass r 2.5 Hz'],
    ['spectrum r using hann 2,5 s', 'number.comma', '2,5', 'spectrum r using hann 2.5 s'],
    ['highpass r -2 Hz', 'value.least', '-2 Hz'],
    ['highpass r 2 Hz order 2.5', 'value.integer', '2.5'],
    ['highpass r 2 Hz order 0', 'value.least', '0'],
    ['spectrum r confidence 95', 'value.most', '95', 'spectrum r confidence 95 %'],
    ['window hann 2 s overlap 50', 'value.most', '50', 'window hann 2 s overlap 50 %'],
    ['spectrum r confidence 3 dB', 'unit.dimension', '3 dB', 'spectrum r confidence 3 %'],
    ['trim r 80..5 s', 'range.reversed', '80..5 s', 'trim r 5..80 s'],
    ['trim r 80 s..1 min', 'range.reversed', '80 s..1 min', 'trim r 1 min..80 s'],
    ['trim r 5..5 s', 'range.empty', '5..5 s'],
    ['trim r 5..80', 'unit.missing', '5..80', 'trim r 5..80 s'],
    ['trim r 5..80 Hz', 'unit.dimension', '5..80 Hz', 'trim r 5..80 s'],
    ['trim r 5..', 'syntax.missing', ''],
    ['trim r L.rms..5 s', 'range.constant', 'L.rms'],
    ['load raw', 'text.quotes', 'raw', 'load "raw"'],
    ['load raw/a.csv unit g', 'text.quotes', 'raw/a.csv', 'load "raw/a.csv" unit g'],
    ['load raw/foam-1.csv.gz', 'text.quotes', 'raw/foam-1.csv.gz', 'load "raw/foam-1.csv.gz"'],
    ['load raw/*.csv', 'text.quotes', 'raw/*.csv', 'load "raw/*.csv"'],
    ['trim r length 2,5 s', 'number.comma', '2,5', 'trim r length 2.5 s'],
    ['trim r 5..80 sek', 'unit.unknown', 'sek', 'trim r 5..80 s'],
    ['spectrum r usng hann 2 s as psd', 'option.unknown', 'usng', 'spectrum r using hann 2 s as psd'],
    ['band (spectrum r 10..50 Hz', 'bracket.unclosed', '('],
    ['load "a" unit gg', 'unit.unknown', 'gg'],
    ['load "a', 'text.unclosed', '"a', 'load "a"'],
    ['C.chnge', 'field.unknown', 'chnge', 'C.change'],
    ['r.rms', 'field.unknown', 'rms'],
    ['W[1]', 'pick.kind', 'W[1]'],
    ['r[0]', 'pick.index', '0'],
    ['r + 1', 'arithmetic.kind', 'r'],
    ['1 m + 1 s', 'arithmetic.dimension', '1 m + 1 s'],
    ['3 dB * 2 m', 'arithmetic.level', '3 dB * 2 m'],
    ['2^(3 m)', 'arithmetic.exponent', '(3 m)'],
    ['1/0', 'arithmetic.zero', '1/0'],
    ['1e999', 'arithmetic.finite', '1e999'],
    ['5 m in s', 'convert.dimension', 's'],
    ['plot r-q', 'operand.minus', 'r-q', 'plot r - q'],
    ['r | 5', 'pipe.verb', '5'],
    ['levels r)', 'syntax.unexpected', ')'],
    ['levels (r', 'bracket.unclosed', '(', 'levels (r)'],
    ['load “raw/a-1.csv.gz” unit g', 'syntax.character', '“raw/a-1.csv.gz”', 'load "raw/a-1.csv.gz" unit g'],
    ['levels r ;', 'syntax.character', ';', 'levels r ,'],
    ['rr', 'name.unknown', 'rr', 'r'],
  ];
  for (const [cell, code, at, fixed] of table) {
    it(`answers ${cell} with ${code}`, () => {
      const found = only(cell);
      assert.deepEqual([found.code, found.at], [code, at]);
      if (fixed !== undefined) assert.equal(found.fixed, fixed);
      assert.match(found.message, /^\S.*[.?]$/);
    });
  }

  it('leaves a statement with a mistake nothing to evaluate', () => {
    const { statements } = check(ground, 'x = levels r\ny = levels r[0]');
    const [x, y] = statements.slice(-2);
    assert.equal(short(x.expression), 'levels(runs:r)');
    assert.equal(y.expression, undefined);
  });

  it('knows a root beforehand, as an end of a range', () => {
    assert.deepEqual(errors('f = sqrt(100 Hz^2)\nband S f..50 Hz'), []);
  });

  it('lets a mistake stop its own statement only', () => {
    const { statements } = check(ground, 'levls r\nlevels r\ntrim r 80..5 s\ndetrend r');
    assert.deepEqual(
      statements.filter(({ cell }) => cell === 1).map(({ expression }) => expression !== undefined),
      [false, true, false, true],
    );
  });
});

describe('checking again after an edit', () => {
  it('gives what checking from nothing gives', () => {
    const cell = fc.constantFrom(
      'r = load "a.csv"',
      'q = r',
      'S = spectrum r',
      'band S 1..2 Hz',
      'x = 5',
      'y = x + 1 Hz',
      'x = y',
      'levels q',
      'plot x, r',
      'z = lod r',
      'band z 1..2 Hz',
      'x = 5 Hz',
      '',
    );
    fc.assert(
      fc.property(
        fc.array(cell, { minLength: 1, maxLength: 8 }),
        fc.nat(),
        cell,
        fc.boolean(),
        (cells, at, text, insert) => {
          const edited = [...cells];
          edited.splice(at % cells.length, insert ? 0 : 1, text);
          const { findings: _one, ...again } = checkNotebook(edited, catalogue, check(...cells));
          const { findings: _two, ...anew } = check(...edited);
          assert.deepEqual(again, anew);
        },
      ),
      { numRuns: 500 },
    );
  });

  it('takes over the findings of what did not change', () => {
    const before = check(ground, 'levels r', 'x = 1');
    const after = checkNotebook([ground, 'levels r', 'x = 2'], catalogue, before);
    assert.equal(after.findings[1][0], before.findings[1][0]);
    assert.notEqual(after.findings[2][0], before.findings[2][0]);
  });
});

describe('checking laws', () => {
  it('never throws, and keeps places inside the text', () => {
    const bits = fc.constantFrom(
      'r',
      'r',
      'trim',
      'spectrum',
      'band',
      'using',
      'window',
      'hann',
      'x',
      '5',
      '80',
      's',
      'Hz',
      '..',
      ',',
      '|',
      '(',
      ')',
      '[1]',
      '.rms',
      '"a"',
      '=',
      '-',
      '*',
      '%',
      '\n',
      'in',
      'load',
      'plot',
      'mark',
      'compare',
      'with',
      'over',
      'third-octave',
      '#',
    );
    fc.assert(
      fc.property(fc.array(bits, { maxLength: 25 }), (list) => {
        const cell = list.join(' ');
        const { problems, statements } = check(ground, cell);
        for (const { place, fixes } of problems[1]) {
          for (const { from, to } of [place, ...(fixes ?? []).map((fix) => fix.place)])
            assert.ok(from >= 0 && from <= to && to <= cell.length);
        }
        // Whatever has no expression has an error to show for it.
        for (const { expression, problems: own } of statements)
          assert.ok(expression !== undefined || own.some(({ severity }) => severity === 'error'), cell);
      }),
      { numRuns: 2000 },
    );
  });

  it('holds for every prefix of valid cells', () => {
    for (const cell of validCells) for (let length = 0; length <= cell.length; length++) check(cell.slice(0, length));
  });
});
