import { strict as assert } from 'node:assert';
import { findHeader, headerMismatch, type Header } from '../../../src/readers/text/header.ts';
import { recordingOf, samplesOf } from '../memory.ts';
import { gridOf, type Grid } from '../../../src/readers/text/sniff.ts';

const linesOf = (text: string): { text: string; line: number }[] =>
  text.split('\n').map((line, i) => ({ text: line, line: i + 1 }));

interface Found extends Header {
  readonly grid: Grid;
}

/** The header above rows that are parted by a delimiter. */
function headerOf(above: string, rows: readonly string[], delimiter = ','): Found {
  const lines = linesOf([...(above === '' ? [] : [above]), ...rows].join('\n'));
  const grid = gridOf(lines, delimiter, delimiter === ';' ? ',' : '.');
  assert.ok(grid, 'no grid');
  return { ...findHeader(lines, grid), grid };
}

const four = Array.from({ length: 12 }, (_, i) => `${i / 100},0.1${i},0.2${i},1.0${i}`);
const three = Array.from({ length: 12 }, (_, i) => `0.1${i},0.2${i},1.0${i}`);

describe('the header above the rows', () => {
  it('is the line of names right above, trimmed, with blank lines between', () => {
    for (const between of ['', '\n', '\n\n \n']) {
      const { names, headerLine, units, kinds, from } = headerOf(`made today\nt, x ,y,z${between}`, four);
      assert.deepEqual(names, ['t', 'x', 'y', 'z']);
      assert.deepEqual([headerLine, from, units, kinds], [2, 1, undefined, undefined]);
    }
  });

  it('may have rows of kinds and of units below it, in either order', () => {
    const found = headerOf('t,x,y,z\ns,g,g,g\nTS,Raw,Raw,Cal', four);
    assert.deepEqual(found.names, ['t', 'x', 'y', 'z']);
    assert.deepEqual(found.units, ['s', 'g', 'g', 'g']);
    assert.deepEqual(found.kinds, ['TS', 'Raw', 'Raw', 'Cal']);
    assert.deepEqual([found.headerLine, found.unitsLine, found.from], [1, 2, 0]);
    const other = headerOf('t,x,y,z\n-,raw,raw,cal\n[s],[g],[g],[g]', four);
    assert.deepEqual(other.kinds, ['-', 'raw', 'raw', 'cal']);
    assert.equal(other.unitsLine, 3);
  });

  it('needs more than half of a row of units to be units, and no axis among them', () => {
    assert.deepEqual(headerOf('t,x,y,z\ns,g,,', four).units, ['s', 'g', '', '']);
    assert.deepEqual(headerOf('t,x,y,z\ns,g,g,up', four).units, ['s', 'g', 'g', 'up']);
    const names = headerOf('t,x,y,z\ns,left,right,up', four);
    assert.equal(names.units, undefined);
    assert.deepEqual(names.names, ['s', 'left', 'right', 'up']);
    assert.equal(names.from, 1);
  });

  it('is none where a number stands above a column of numbers', () => {
    assert.equal(headerOf('1.5;x;y;z'.replaceAll(';', ','), four).names, undefined);
    const { names, from } = headerOf('rate,400,Hz,', four);
    assert.deepEqual([names, from], [undefined, 1]);
  });

  it('is none where a line above holds nothing but the mark that ends rows', async () => {
    const text = '1004 -0.074 -0.206\r[\n1063 -0.323 -0.040\r\n1067 -0.187 0.343\r';
    assert.deepEqual(samplesOf(await recordingOf(text, { rate: 400, unit: 'g' }), 'y'), [-0.323, -0.187]);
  });

  it('may be split otherwise than the rows are', () => {
    const tabs = four.map((line) => line.replaceAll(',', '\t'));
    assert.deepEqual(headerOf('t (s)\tx\ty\tz', tabs, '\t').names, ['t (s)', 'x', 'y', 'z']);
    assert.deepEqual(headerOf('t (s),x,y,z', tabs, '\t').names, ['t (s)', 'x', 'y', 'z']);
    assert.deepEqual(headerOf('t (s)  x value  y value  z value', tabs, '\t').names, [
      't (s)',
      'x value',
      'y value',
      'z value',
    ]);
    assert.deepEqual(headerOf('t (s) x y z', tabs, '\t').names, ['t (s)', 'x', 'y', 'z']);
    const blanks = four.map((line) => line.replaceAll(',', '  '));
    assert.deepEqual(headerOf('t;x;y;z', blanks, ' ').names, ['t', 'x', 'y', 'z']);
    assert.deepEqual(headerOf('time (s) acc x y z'.replace('acc x', 'x'), blanks, ' ').names, [
      'time (s)',
      'x',
      'y',
      'z',
    ]);
    const marks = four.map((line) => line.replaceAll('.', ';').replaceAll(',', '|').replaceAll(';', ','));
    assert.equal(marks.length, 12);
    // A line that is parted as the rows are is parted in no other way.
    assert.equal(headerOf('t\tx;y;z', tabs, '\t').names, undefined);
    assert.deepEqual(headerOf('t x y z', four).names, ['t', 'x', 'y', 'z']);
  });

  it('may lack a name above a first column of row numbers, or for the second half of a clock', () => {
    const named = headerOf('time,x,y', four);
    assert.deepEqual(named.names, ['', 'time', 'x', 'y']);
    assert.equal(headerOf('one,two,three', four).names, undefined);
    const clock = Array.from({ length: 12 }, (_, i) => `14:22:31,${500 + i},0.1${i},1.0${i}`);
    assert.deepEqual(headerOf('when,x,z', clock).names, ['when', 'ms', 'x', 'z']);
    const fine = Array.from({ length: 12 }, (_, i) => `14:22:31,${500_000 + i},0.1${i},1.0${i}`);
    assert.deepEqual(headerOf('when,x,z', fine).names, ['when', 'us', 'x', 'z']);
    const odd = Array.from({ length: 12 }, (_, i) => `14:22:31,${5000 + i},0.1${i},1.0${i}`);
    assert.equal(headerOf('when,one,two', odd).names, undefined);
  });

  it('may end with a delimiter, as rows may', () => {
    assert.deepEqual(headerOf('t,x,y,z,', four).names, ['t', 'x', 'y', 'z']);
    const ended = four.map((line) => `${line},`);
    assert.deepEqual(headerOf('t,x,y,z,', ended).names, ['t', 'x', 'y', 'z']);
    assert.deepEqual(headerOf('t,x,y,z', ended).names, ['t', 'x', 'y', 'z']);
    assert.deepEqual(headerOf('t,x,y,z,note', ended).names, ['t', 'x', 'y', 'z']);
  });

  it('may be a comment that names axes or times, and no sentence of remarks', () => {
    const comment = headerOf('# t,x,y,z', four);
    assert.deepEqual([comment.names, comment.headerLine], [['t', 'x', 'y', 'z'], 1]);
    assert.deepEqual(headerOf('# t,x,y,z\n# one,two,three,four', four).names, ['t', 'x', 'y', 'z']);
    assert.deepEqual(headerOf('# t,x,y,z\n#', four).names, ['t', 'x', 'y', 'z']);
    assert.equal(headerOf('# one,two,three,four', four).names, undefined);
    assert.equal(headerOf(`t,x,y,${'z'.repeat(81)}`, four).names, undefined);
    assert.notEqual(headerOf(`t,x,y,${'z'.repeat(80)}`, four).names, undefined);
  });

  it('is looked for in eight lines, and not beyond a line that is none', () => {
    assert.notEqual(headerOf(`t,x,y,z${'\n# remark'.repeat(7)}`, four).names, undefined);
    assert.equal(headerOf(`t,x,y,z${'\n# remark'.repeat(8)}`, four).names, undefined);
    assert.equal(headerOf('t,x,y,z\nrecorded on the left side', four).names, undefined);
  });

  it('of one column is a word, and no statement', () => {
    const one = Array.from({ length: 12 }, (_, i) => `0.1${i}`);
    assert.deepEqual(headerOf('x', one).names, ['x']);
    assert.equal(headerOf('rate: high', one).names, undefined);
    assert.equal(headerOf('rate=high', one).names, undefined);
  });
});

describe('a row of groups above the names', () => {
  const six = Array.from({ length: 12 }, (_, i) => `0.1${i},0.2${i},1.0${i},0.3${i},0.4${i},0.5${i}`);

  it('tells apart names that come twice, by what stands above or before', () => {
    const found = headerOf('Accelerometer,,,Gyroscope,,\nx,y,z,x,y,z', six);
    assert.deepEqual(found.names, [
      'Accelerometer x',
      'Accelerometer y',
      'Accelerometer z',
      'Gyroscope x',
      'Gyroscope y',
      'Gyroscope z',
    ]);
    assert.equal(found.from, 0);
    const later = headerOf(',Acc (g),,,Gyro (deg/s),\nt,x,y,z,x,y', six);
    assert.deepEqual(later.names, ['t', 'Acc x (g)', 'Acc y (g)', 'Acc z (g)', 'Gyro x (deg/s)', 'Gyro y (deg/s)']);
    assert.deepEqual(headerOf('Acc (g),,,Gyro,,\nx (m/s2),y,z,x,y,z', six).names?.slice(0, 2), [
      'Acc (g) x (m/s2)',
      'Acc y (g)',
    ]);
  });

  it('gives a unit to names without any', () => {
    assert.deepEqual(headerOf('Acceleration (g),,\nx,y,z', three).names, [
      'Acceleration x (g)',
      'Acceleration y (g)',
      'Acceleration z (g)',
    ]);
    assert.deepEqual(headerOf('Acceleration,,\nx,y,z', three).names, ['x', 'y', 'z']);
    assert.deepEqual(headerOf('Acceleration (g),,\nx (g),y,z', three).names, ['x (g)', 'y', 'z']);
    assert.deepEqual(headerOf(',Acceleration (g),,\nt (s),x,y,z', four).names?.[1], 'Acceleration x (g)');
  });

  it('is none where every cell or none is filled, for one group of twins, of other width, or without letters', () => {
    const names = ['x', 'y', 'z', 'x', 'y', 'z'];
    for (const above of ['a,b,c,d,e,f', ',,,,,', 'Accelerometer,,,,,', 'Acc,,,Gyro,', 'Acc,,,12,,', 'Acc,,,--,,'])
      assert.deepEqual(headerOf(`${above}\n${names.join(',')}`, six).names, names, above);
  });
});

describe('a header of another number of names', () => {
  const mismatch = (above: string, rows: readonly string[]): string | undefined => {
    const lines = linesOf([above, ...rows].join('\n'));
    const grid = gridOf(lines, ',', '.')!;
    return headerMismatch('run.csv', lines, grid, findHeader(lines, grid))?.failure.message;
  };

  it('is refused where it names an axis or a time twice and more', () => {
    assert.match(
      mismatch('t,x,y,z,temp,hum', four) ?? '',
      /^run\.csv:1: the header "t,x,y,z,temp,hum" has 6 fields and the rows below it have 4: say how/,
    );
    assert.match(
      mismatch('# t,x', four) ?? '',
      /^run\.csv:1: .* has 2 fields and the rows below it have 4: each number seems to be split/,
    );
    assert.match(mismatch('t,x,y,z,temp,hum\n\n', four) ?? '', /has 6 fields/);
  });

  it('is none where names were found, or the line says something else', () => {
    assert.equal(mismatch('t,x,y,z', four), undefined);
    assert.equal(mismatch('made,by,a,careful,hand', four), undefined);
    assert.equal(mismatch('time', four), undefined);
    assert.equal(mismatch('1,2,3,4', four), undefined);
  });
});
