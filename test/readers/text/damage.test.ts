import { strict as assert } from 'node:assert';
import type { ByteSource } from '../../../src/readers/recording.ts';
import { read } from '../../../src/readers/read.ts';
import { findingOf, recordingOf, refusalOf, rows, samplesOf, source } from '../memory.ts';

const header = 't (s),x (g),y (g),z (g)\n';
const reading = (i: number): string[] => [
  (i / 100).toFixed(2),
  (0.1 + 0.01 * (i % 5)).toFixed(3),
  (-0.1 + 0.01 * (i % 3)).toFixed(3),
  (0.98 + 0.01 * (i % 7)).toFixed(3),
];
const lines = (count = 300): string[] => Array.from({ length: count }, (_, i) => reading(i).join(','));
const file = (of: readonly string[]): string => header + of.join('\n') + '\n';

describe('files that were damaged or written to by others', () => {
  it('leaves out a message and a half line among the rows, with a warning that quotes the first', async () => {
    const damaged = lines();
    damaged[150] = 'WARNING: battery low';
    damaged[200] = '2.00,0.1';
    const recording = await recordingOf(file(damaged));
    assert.equal(samplesOf(recording, 'z').length, 298);
    assert.match(findingOf(recording, 'damaged-lines')?.message ?? '', /2 lines.*line 152: "WARNING: battery low"/);
    assert.equal(recording.clock.rate, 100);
    // Where a sample may be lost no spectrum goes across.
    assert.equal(recording.clock.stretches.length, 3);
  });

  it('refuses where more than a hundredth is damaged, and where the first rows are not understood', async () => {
    const damaged = lines();
    for (let i = 100; i < 110; i++) damaged[i] = 'noise on the line';
    assert.match((await refusalOf(file(damaged))).message, /run\.csv:102.*as do 9 others.*delimiter/);
    const early = lines();
    early[4] = 'Calibrated';
    assert.match((await refusalOf(file(early))).message, /run\.csv:6.*skip 6/);
  });

  it('reads on at exactly a hundredth of damaged rows, and from the twenty-first row on', async () => {
    const damagedAt = (...at: number[]): string => file(lines().map((line, i) => (at.includes(i) ? 'noise' : line)));
    assert.equal(findingOf(await recordingOf(damagedAt(100, 150, 200)), 'damaged-lines')?.value, 3);
    assert.match((await refusalOf(damagedAt(100, 150, 200, 250))).message, /run\.csv:102/);
    assert.equal(samplesOf(await recordingOf(damagedAt(20)), 'z').length, 299);
    assert.match((await refusalOf(damagedAt(19))).message, /run\.csv:21/);
  });

  it('takes up to 20 lines below the last row, a tenth of the rows at most, for remarks', async () => {
    const below = (count: number, remarks: number): string =>
      file([...lines(count), ...Array.from({ length: remarks }, (_, i) => `total ${i}`)]);
    assert.equal(findingOf(await recordingOf(below(300, 20)), 'remarks-below')?.value, 20);
    assert.match((await refusalOf(below(300, 21))).message, /run\.csv:302/);
    assert.equal(findingOf(await recordingOf(below(100, 10)), 'remarks-below')?.value, 10);
    assert.match((await refusalOf(below(100, 11))).message, /run\.csv:102/);
  });

  it('never takes a number in the other decimal mark for damage', async () => {
    const late = Array.from({ length: 1000 }, (_, i) => `${i * 10};0;0;${i === 700 ? '1,25' : '1'}`);
    const text = 'ms;x (g);y (g);z (g)\n' + late.join('\n') + '\n';
    assert.match((await refusalOf(text)).message, /"1,25".*decimal ","/);
    assert.equal(samplesOf(await recordingOf(text, { decimal: ',' }), 'z')[700], 1.25);
  });

  it('refuses a file whose columns change on the way, and names the line', async () => {
    const swapped = [...lines(200), 't (s),z (g),y (g),x (g)', ...lines(400).slice(200)];
    assert.match(
      (await refusalOf(file(swapped))).message,
      /run\.csv:202: from here on.*"t \(s\),z \(g\).*cut the file/,
    );
    const parted = [
      ...lines(200),
      ...lines(400)
        .slice(200)
        .map((line) => line.replaceAll(',', ';')),
    ];
    assert.match(
      (await refusalOf(file(parted))).message,
      /run\.csv:202: here begins a table of another form.*skip 201/,
    );
  });

  it('offers to pass over a few rows of numbers above the header, such as a calibration', async () => {
    const matrix = '1.001,0.002,-0.003,0\n0.001,0.998,0.004,0\n-0.002,0.003,1.002,0\n\n';
    assert.match((await refusalOf(matrix + file(lines()))).message, /run\.csv:5:.*skip 4/);
    assert.equal(samplesOf(await recordingOf(matrix + file(lines()), { skip: 4 }), 'z').length, 300);
  });

  it('takes no rate from a preamble that comments further down take back', async () => {
    const bare = lines().map((line) => line.split(',').slice(1).join(','));
    const text = (again: string): string =>
      ['# rate: 100 Hz', 'x,y,z', ...bare, again, 'x,y,z', ...bare].join('\n') + '\n';
    assert.equal((await recordingOf(text('# rate: 100 Hz'))).clock.rate, 100);
    assert.match((await refusalOf(text('# rate: 200 Hz'))).message, /state the rate/);
  });

  it('leaves out remarks below the last row, with a note', async () => {
    const recording = await recordingOf(file([...lines(), 'End of data', 'Total: 300 samples']));
    assert.equal(samplesOf(recording, 'x').length, 300);
    assert.match(findingOf(recording, 'remarks-below')?.message ?? '', /last 2 lines.*line 302: "End of data"/);
    assert.equal(recording.clock.stretches.length, 1);
  });

  it('parts rows where a loss of power left zeros among them', async () => {
    const [before, after] = [lines().slice(0, 150).join('\n'), lines().slice(150).join('\n')];
    const recording = await recordingOf(`${header}${before}\n${'\0'.repeat(512)}${after}\n`);
    assert.equal(samplesOf(recording, 'x').length, 300);
    assert.equal(findingOf(recording, 'zero-bytes')?.severity, 'warning');
  });

  for (const word of ['OL', '-OL', 'OVR', 'overrange', 'Overload']) {
    it(`calls ${word} a reading beyond the range: a fault, as clipping is`, async () => {
      const over = lines();
      over[100] = ['1.00', '0.1', '0.1', word].join(',');
      const recording = await recordingOf(file(over));
      assert.equal(samplesOf(recording, 'z').length, 299);
      const found = findingOf(recording, 'overload');
      assert.equal(found?.severity, 'fault');
      assert.match(found?.message ?? '', /first at line 102/);
    });
  }

  it('takes the words of spreadsheets and compilers for an empty cell', async () => {
    for (const word of [
      '#DIV/0!',
      '#WERT!',
      '#NV',
      '1.#INF',
      '-1.#IND',
      '1.#QNAN',
      '---',
      '++++',
      'invalid',
      'error',
    ]) {
      const empty = lines();
      empty[100] = ['1.00', '0.1', '0.1', word].join(',');
      const recording = await recordingOf(file(empty));
      assert.equal(samplesOf(recording, 'z').length, 299, word);
      assert.equal(findingOf(recording, 'empty-cells')?.value, 1, word);
    }
  });

  it('finds the table below a preamble longer than the rows looked at, whose lines look like rows', async () => {
    const preamble = Array.from({ length: 250 }, (_, i) => `Parameter ${i}: value ${3 * i}`).join('\n');
    const text = `${preamble}\nSampling rate 100 Hz\n\nX;Y;Z\n` + rows(300, (i) => reading(i).slice(1), ';');
    const recording = await recordingOf(text);
    assert.equal(samplesOf(recording, 'z').length, 300);
    assert.equal(recording.clock.rate, 100);
  });

  it('reads the rate of a preamble in several spellings, and leaves one that could be two to the option', async () => {
    for (const [line, rate] of [
      ['Abtastfrequenz [Hz];100', 100],
      ['Messintervall;0,005;s', 200],
      ["Fréquence d'échantillonnage : 50 Hz", 50],
      ['100 Hz sampling rate', 100],
      ['Samples per second: 800', 800],
      ['Sample rate, 3.2 kSPS', 3200],
    ] as const) {
      const text = `${line}\nX;Y;Z\n` + rows(60, (i) => reading(i).slice(1), ';');
      assert.equal((await recordingOf(text)).clock.rate, rate, line);
    }
    const doubtful = 'Sample rate: 25,600 Hz\nX;Y;Z\n' + rows(60, (i) => reading(i).slice(1), ';');
    assert.match((await refusalOf(doubtful)).message, /state the rate with rate/);
  });

  it('refuses a file that became shorter while it was read, and takes no more of one that grew', async () => {
    const bytes = new TextEncoder().encode(file(lines(40_000)));
    const cut: ByteSource = {
      path: 'run.csv',
      size: bytes.length,
      read: (position, length) => Promise.resolve(bytes.slice(position, Math.min(position + length, 300_001))),
    };
    const result = await read(cut);
    assert.ok(!result.ok);
    assert.match(result.failure.message, /became shorter while it was read \(300001 of \d+ bytes\)/);
    const grown = source(bytes);
    const short = await read({ ...grown, size: 300_001 });
    assert.ok(short.ok && short.value.channels[0].samples.length < 14_000);
  });
});
