import { strict as assert } from 'node:assert';
import type { Recording } from '../../src/readers/recording.ts';
import { findingOf, recordingOf, refusalOf, rows, samplesOf } from './memory.ts';

const count = 120;
/** Readings in g with gravity on z: what each file below must give back. */
const truth = {
  x: (i: number): number => Number((0.1 + 0.05 * Math.sin(i)).toFixed(4)),
  y: (i: number): number => Number((-0.2 + 0.05 * Math.cos(i)).toFixed(4)),
  z: (i: number): number => Number((0.97 + 0.1 * Math.sin(2 * i)).toFixed(4)),
};
const axes = (i: number, spell: (value: number) => string = String): string[] => [
  spell(truth.x(i)),
  spell(truth.y(i)),
  spell(truth.z(i)),
];
const comma = (value: number): string => String(value).replace('.', ',');
const seconds = (i: number): string => (i / 100).toFixed(2);

function assertTruth(recording: Recording, unit = 'g', size = 1): void {
  for (const [name, of] of Object.entries(truth)) {
    const found = samplesOf(recording, name);
    assert.equal(found.length, count, name);
    found.forEach((value, i) => assert.ok(Math.abs(value - of(i) * size) < 1e-9 * size, `${name}[${i}]: ${value}`));
    assert.equal(recording.channels.find((one) => one.name === name)?.unit, unit);
  }
  assert.equal(recording.clock.rate, 100);
}

describe('units and names as files spell them', () => {
  const headers: readonly (readonly [string, string, string])[] = [
    ['X [gee]', 'Y [gee]', 'Z [gee]'],
    ['x in g', 'y in g', 'z in g'],
    ['acc_x_in_g', 'acc_y_in_g', 'acc_z_in_g'],
    ['acc (x)', 'acc (y)', 'acc (z)'],
    ['A[x]', 'A[y]', 'A[z]'],
    ['Accélération X (g)', 'Accélération Y (g)', 'Accélération Z (g)'],
    ['X-Achse', 'Y-Achse', 'Z-Achse'],
    ['Axe X', 'Axe Y', 'Axe Z'],
    ['Beschl. X [g]', 'Beschl. Y [g]', 'Beschl. Z [g]'],
    ['accelerometerAccelerationX(G)', 'accelerometerAccelerationY(G)', 'accelerometerAccelerationZ(G)'],
  ];
  for (const header of headers) {
    it(`reads ${header[0]} as the axis x in g`, async () => {
      const text = `Zeit (s);${header.join(';')}\n` + rows(count, (i) => [seconds(i), ...axes(i)], ';');
      assertTruth(await recordingOf(text));
    });
  }

  const units: readonly (readonly [string, string, number])[] = [
    ['m/s/s', 'm/s^2', 9.80665],
    ['m·s⁻²', 'm/s^2', 9.80665],
    ['meters per second squared', 'm/s^2', 9.80665],
    ['cm/s^2', 'cm/s^2', 980.665],
    ['ft/s^2', 'ft/s^2', 9.80665 / 0.3048],
    ['Gal', 'Gal', 980.665],
    ['µg', 'µg', 1e6],
  ];
  for (const [spelt, symbol, size] of units) {
    it(`reads ${spelt} as ${symbol}, by the header alone`, async () => {
      const header = `time (s),x (${spelt}),y (${spelt}),z (${spelt})\n`;
      const text = header + rows(count, (i) => [seconds(i), ...axes(i, (value) => String(value * size))]);
      assertTruth(await recordingOf(text), symbol, size);
    });
  }

  it('keeps each column’s own unit where they differ, whatever the mean vector of the mixture is', async () => {
    const text =
      't (s),X (g),Y (m/s2),Z (mg)\n' +
      rows(count, (i) => [seconds(i), truth.x(i), truth.y(i) * 9.80665, truth.z(i) * 1000]);
    const { channels } = await recordingOf(text);
    assert.deepEqual(
      channels.map(({ name, unit, unitFrom }) => [name, unit, unitFrom]),
      [
        ['x', 'g', 'header'],
        ['y', 'm/s^2', 'header'],
        ['z', 'mg', 'header'],
      ],
    );
  });

  it('warns where the numbers would be gravity in another unit than the header’s', async () => {
    const text = 't (s),X (mg),Y (mg),Z (mg)\n' + rows(count, (i) => [seconds(i), ...axes(i)]);
    const found = findingOf(await recordingOf(text), 'unit-doubtful');
    assert.equal(found?.severity, 'warning');
    assert.match(found?.message ?? '', /header says mg.*as gravity in g is.*unit mg.*unit g/);
    assert.equal(findingOf(await recordingOf(text, { unit: 'mg' }), 'unit-unsettled'), undefined);
  });

  it('leaves the unit open where only some of the columns state one', async () => {
    const text = 't (s),X (mg),Y,Z\n' + rows(count, (i) => [seconds(i), ...axes(i)]);
    const found = findingOf(await recordingOf(text), 'unit-unsettled');
    assert.match(found?.message ?? '', /none for y and z.*unit g/);
  });

  it('names an unknown unit instead of saying that there is none, and how the axes could be named', async () => {
    const text = 't (s),acc (furlong)\n' + rows(count, (i) => [seconds(i), truth.z(i)]);
    const found = findingOf(await recordingOf(text), 'unit-unsettled');
    assert.match(found?.message ?? '', /"furlong" is no known unit.*unit g.*channels x=/);
  });

  it('gives twin names a number, or the name of the group above them', async () => {
    const cells = (i: number): (string | number)[] => [seconds(i), ...axes(i), 0.5, 0.25, 0.125];
    const grouped = ',Accelerometer,,,Gyroscope,,\nTime,X,Y,Z,X,Y,Z\n' + rows(count, cells);
    assertTruth(await recordingOf(grouped));
    const united = ',Acceleration (m/s^2),,\nTime (s),X,Y,Z\n';
    const still = await recordingOf(united + rows(count, (i) => [seconds(i), 0.1 * Math.sin(i), 0.1, -0.1]));
    assert.deepEqual(
      still.channels.map(({ name, unit, unitFrom }) => [name, unit, unitFrom]),
      ['x', 'y', 'z'].map((name) => [name, 'm/s^2', 'header']),
    );
    const twins = await recordingOf('t (s),acc,acc,acc\n' + rows(count, (i) => [seconds(i), ...axes(i)]));
    assert.deepEqual(
      twins.channels.map(({ name }) => name),
      ['acc', 'acc 2', 'acc 3'],
    );
  });
});

describe('numbers and rows as files spell them', () => {
  const text = (row: (i: number) => readonly string[], delimiter = ','): string =>
    ['t (s)', 'x (g)', 'y (g)', 'z (g)'].join(delimiter) + '\n' + rows(count, row, delimiter);

  it('reads a typographic minus, Fortran’s exponent and a blank after the sign', async () => {
    const spell = (value: number): string =>
      value < 0
        ? `\u2212${-value}`
        : value.toExponential(6).replace('e', 'D').replace('D-', 'D-0').replace('D+', 'D+0');
    assertTruth(await recordingOf(text((i) => [seconds(i), ...axes(i, spell)])));
    assertTruth(
      await recordingOf(text((i) => [seconds(i), ...axes(i, (value) => String(value).replace('-', '- '))], ';')),
    );
  });

  it('reads marks between thousands where a fraction follows, such as 1,234.50', async () => {
    const cell = (i: number): number => 1000 + (i % 7) * 111.25;
    const grouped = (value: number, group: string, mark: string): string =>
      `${Math.floor(value / 1000)}${group}${(value % 1000).toFixed(2).padStart(6, '0').replace('.', mark)}`;
    for (const [group, mark, delimiter] of [
      [',', '.', ';'],
      ['.', ',', ';'],
      ["'", '.', ','],
      ['\u00a0', ',', ';'],
    ] as const) {
      const spelt =
        ['t (s)', 'x (mg)', 'y (mg)', 'z (mg)'].join(delimiter) +
        '\n' +
        rows(
          count,
          (i) => [(i / 100).toFixed(2).replace('.', mark), '0', '0', grouped(cell(i), group, mark)],
          delimiter,
        );
      assert.deepEqual(
        samplesOf(await recordingOf(spelt), 'z'),
        Array.from({ length: count }, (_, i) => cell(i)),
        group,
      );
    }
  });

  it('reads decimal commas between commas where quotes tell them apart, and refuses where nothing does', async () => {
    const quoted = text((i) => [seconds(i).replace('.', ','), ...axes(i, comma)].map((cell) => `"${cell}"`));
    assertTruth(await recordingOf(quoted));
    const bare = rows(count, (i) => [seconds(i), ...axes(i, (value) => value.toFixed(4))], ', ').replaceAll('.', ',');
    assert.match((await refusalOf(bare)).message, /decimal commas between commas.*delimiter ";" decimal ","/);
  });

  it('refuses an axis whose cells are no numbers rather than leave it out', async () => {
    const hex =
      't (s),x,y,z\n' + rows(count, (i) => [seconds(i), truth.x(i), truth.y(i), `0x${(4096 + i).toString(16)}`]);
    assert.match((await refusalOf(hex)).message, /"z" is an axis by its name.*"0x1000".*decimal and delimiter/);
    const marked = rows(count, (i) => [
      '$ACC',
      seconds(i),
      ...axes(i, (value) => value.toFixed(3)).slice(0, 2),
      `${truth.z(i).toFixed(3)}#${((i * 37) % 256).toString(16)}`,
    ]);
    assert.match((await refusalOf(marked)).message, /column 5 would be numbers/);
  });

  it('passes over a mark at the end of every row that parts nothing', async () => {
    assertTruth(await recordingOf(text((i) => [...[seconds(i), ...axes(i)].slice(0, 3), `${truth.z(i)};`])));
  });

  it('takes lists in brackets, JSON lines and attributes for rows', async () => {
    const lists = rows(count, (i) => [`[${[seconds(i), ...axes(i)].join(', ')}]`]);
    assertTruth(await recordingOf(lists));
    const objects = Array.from({ length: count }, (_, i) =>
      JSON.stringify({ t: i / 100, x: truth.x(i), y: truth.y(i), z: truth.z(i) }),
    );
    assertTruth(await recordingOf(objects.join('\n') + '\n'));
    assertTruth(await recordingOf(`[${objects.join(',\n')}]`));
    const attributes = rows(count, (i) => [
      `<s t="${seconds(i)}" x="${truth.x(i)}" y="${truth.y(i)}" z="${truth.z(i)}"/>`,
    ]);
    assertTruth(await recordingOf(`<run>\n${attributes}</run>\n`));
  });

  it('reads units behind the numbers, and decimal commas within labelled lines', async () => {
    const behind = 'time,x,y,z\n' + rows(count, (i) => [`${seconds(i)} s`, ...axes(i, (value) => `${value} g`)]);
    assertTruth(await recordingOf(behind));
    const labelled =
      'Abtastrate: 100 Hz\n' +
      rows(count, (i) => axes(i, (value) => comma(value)).map((cell, k) => `${'XYZ'[k]}=${cell}`), ' ');
    assertTruth(await recordingOf(labelled));
  });
});
