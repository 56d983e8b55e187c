import { strict as assert } from 'node:assert';
import { functionHeader, numbersOf } from '../../../src/readers/formats/universalFunction.ts';

/** Records by their columns, as the description of the format has them; some of them given otherwise. */
function records(given: Readonly<Record<number, string>> = {}): string[] {
  const none = '         0    0    0    0 NONE                 NONE                ';
  const lines = [
    '    58',
    'Hub',
    'NONE',
    '14-May-24 09:30:12',
    'NONE',
    'NONE',
    '    1         7    1         0 HUB                4   3 NONE               0   0',
    '         2       300         1  0.00000E+00  2.50000E-03  0.00000E+00',
    '        17    0    0    0 Time                 s                   ',
    '        12    0    0    0 Acceleration         m/s^2               ',
    none,
    none,
  ];
  return lines.map((line, record) => given[record] ?? line);
}

const headerOf = (given: Readonly<Record<number, string>> = {}): NonNullable<unknown> => {
  const found = functionHeader('run.uff', records(given), 2);
  if (!found.ok) return found.failure.message;
  return found.value ?? 'another function';
};

const asStated = {
  line: 2,
  title: 'Hub',
  entity: 'HUB',
  node: 4,
  direction: 3,
  isDouble: false,
  count: 300,
  isEven: true,
  first: 0,
  step: 0.0025,
  scale: 1,
  unit: 'm/s^2',
  isAcceleration: true,
};

describe('the header of a function of dataset 58', () => {
  it('is read by the columns of its records', () => {
    assert.deepEqual(headerOf(), asStated);
  });

  it('has entity, node and direction in columns that touch, and none where nothing is stated', () => {
    const at = (entity: string, node: string, direction: string): NonNullable<unknown> =>
      headerOf({ 6: `    1         7    1         0 ${entity}${node}${direction} NONE               0   0` });
    assert.deepEqual(at('ABCDEFGHIJ', '1234567890', '-123'), {
      ...asStated,
      entity: 'ABCDEFGHIJ',
      node: 1234567890,
      direction: -123,
    });
    assert.deepEqual(at('none      ', '         x', '    '), { ...asStated, entity: '', node: 0, direction: 0 });
    assert.deepEqual(at('          ', '       321', '3   '), { ...asStated, entity: '', node: 321 });
  });

  it('has its step in 13 columns, whatever stands right behind them', () => {
    const touching = '         2       300         1  0.00000E+00  2.50000E-037.00000E+00';
    assert.deepEqual(headerOf({ 7: touching }), asStated);
  });

  it('is one of a time response by its function, or by its abscissa where that is general', () => {
    const general = records()[6].replace('    1', '    0');
    assert.deepEqual(headerOf({ 6: general }), asStated);
    const inHertz = records()[8].replace('17', '18');
    assert.deepEqual(headerOf({ 6: general, 8: inHertz }), 'another function');
    for (const kind of [2, 4, 12])
      assert.equal(headerOf({ 6: records()[6].replace('    1', String(kind).padStart(5)) }), 'another function');
  });

  it('holds real numbers of 4 or 8 bytes, evenly or unevenly spaced, and two of them at least', () => {
    const of = (type: number, count: number, spacing: number, step: string): NonNullable<unknown> =>
      headerOf({
        7: `${[type, count, spacing].map((one) => String(one).padStart(10)).join('')}  1.00000E+00${step.padStart(13)}  0.00000E+00`,
      });
    assert.deepEqual(of(4, 2, 1, '0.5D-03'), { ...asStated, isDouble: true, count: 2, first: 1, step: 0.0005 });
    assert.deepEqual(of(2, 300, 0, '0.0'), { ...asStated, isEven: false, first: 1, step: 0 });
    for (const [type, count, spacing, step] of [
      [5, 300, 1, '1.0'],
      [2, 300, 2, '1.0'],
      [2, 300, 1, '0.0'],
      [2, 300, 1, '-1.0'],
      [2, 1, 1, '1.0'],
      [2, 0, 1, '1.0'],
    ] as const)
      assert.match(String(of(type, count, spacing, step)), /^run\.uff:9:/, `${type} ${count} ${spacing} ${step}`);
  });

  it('has its times in units of its abscissa, which is a time and no power of another', () => {
    const inMs = records()[8].replace(' s ', ' ms');
    assert.deepEqual(headerOf({ 8: inMs }), { ...asStated, scale: 1e-3, step: 2.5e-6 });
    const unstated = records()[8].replace(' s ', '   ');
    assert.deepEqual(headerOf({ 8: unstated }), asStated);
    const power = (at: number): string => records()[8].slice(0, at) + '1' + records()[8].slice(at + 1);
    for (const abscissa of [records()[8].replace(' s ', ' Hz'), power(14), power(19), power(24)])
      assert.match(String(headerOf({ 8: abscissa })), /^run\.uff:10:/);
  });

  it('holds accelerations only where its ordinate is one, and none by another unit', () => {
    const force = records()[9].replace('12', '13');
    assert.deepEqual(headerOf({ 9: force }), { ...asStated, isAcceleration: false });
    const perNewton = records()[10].replace(/NONE {16}$/, 'N'.padEnd(20));
    assert.deepEqual(headerOf({ 10: perNewton }), { ...asStated, unit: 'm/s^2/(N)', isAcceleration: false });
    const unstated = records()[9].replace('m/s^2', '     ');
    assert.deepEqual(headerOf({ 9: unstated }), { ...asStated, unit: undefined });
  });

  it('is refused where it ends before its records do', () => {
    const found = functionHeader('run.uff', records().slice(0, 11), 2);
    assert.match(found.ok ? '' : found.failure.message, /^run\.uff:2: .* 11 /);
  });
});

describe('the numbers of a line', () => {
  it('are read as Fortran writes them, also where they touch', () => {
    assert.deepEqual(numbersOf(' 1.00000E+00-2.50000E-03 0.3D+01'), [1, -0.0025, 3]);
    assert.deepEqual(numbersOf('1.5-100 2.5+003'), [1.5e-100, 2500]);
    assert.deepEqual(numbersOf('.5 -.25 7. 1.25d2'), [0.5, -0.25, 7, 125]);
    assert.deepEqual(numbersOf('1.5-1000.5'), [1.5, -1000.5]);
    assert.deepEqual(numbersOf('no number'), []);
  });
});
