import { strict as assert } from 'node:assert';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { gzipSync } from 'node:zlib';
import fc from 'fast-check';
import { checkRecording, checkedRun } from '../../src/readers/checks/check.ts';
import { read } from '../../src/readers/read.ts';
import type { ReadOptions, Recording } from '../../src/readers/recording.ts';
import type { Result } from '../../src/result/result.ts';
import { source } from './memory.ts';

const folder = fileURLToPath(new URL('fixtures/', import.meta.url));

/** The first lines of each text fixture and the whole of each small binary one, so that thousands can be read. */
const seeds: readonly Uint8Array[] = readdirSync(folder)
  .filter((name) => /^\d/.test(name))
  .map((name) => {
    const bytes = new Uint8Array(readFileSync(join(folder, name)));
    if (/wav$|parquet$/.test(name)) return bytes.slice(0, name.endsWith('wav') ? 1500 : undefined);
    if (name.endsWith('gz'))
      return new Uint8Array(gzipSync(readFileSync(join(folder, '17a-first-device.csv')).subarray(0, 1500)));
    return bytes.slice(0, 1800);
  });

/** The same inputs in every run; another number in the environment tries others. */
const seed = Number(process.env.WASHBOARD_FUZZ_SEED ?? 58);

const message = /^run\.csv(?::\d+){0,2}: [^\n]*\.$/;
const holes = /undefined|NaN|Infinity|\[object/;

/** What every reading must hold, whatever the bytes: a sound recording or one sentence. */
function judge(result: Result<Recording>, options: ReadOptions): void {
  if (!result.ok) {
    assert.match(result.failure.message, message);
    assert.ok(!holes.test(result.failure.message.replace(/"[^"]*"/g, '')), result.failure.message);
    return;
  }
  judgeRecording(result.value, options);
}

function judgeRecording(recording: Recording, options: ReadOptions): void {
  const { channels, clock, findings } = recording;
  assert.ok(channels.length > 0);
  const { length } = channels[0].samples;
  assert.ok(length >= 2);
  for (const { samples, name } of channels) {
    assert.equal(samples.length, length, name);
    assert.ok(samples.every(Number.isFinite), `${name} holds what is no number`);
  }
  assert.ok(clock.rate > 0 && Number.isFinite(clock.rate), `rate ${clock.rate}`);
  if (options.rate !== undefined) assert.equal(clock.rate, options.rate);
  assert.ok(Number.isFinite(clock.jitter) && clock.jitter >= 0);
  assert.equal(clock.stretches[0].from, 0);
  assert.equal(clock.stretches.at(-1)?.to, length);
  for (const [s, { from, to, start }] of clock.stretches.entries()) {
    assert.ok(to > from && Number.isFinite(start));
    if (s > 0) assert.ok(from === clock.stretches[s - 1].to && start > clock.stretches[s - 1].start);
  }
  if (clock.times)
    assert.ok(
      clock.times.length === length &&
        clock.times.every((t, i) => Number.isFinite(t) && (i === 0 || t >= clock.times![i - 1])),
    );
  const names = channels.map(({ name }) => name).sort((a, b) => b.length - a.length);
  for (const finding of [...findings, ...checkRecording(checkedRun(recording))]) {
    assert.match(finding.message, /^\S[^\n]*[.?]$/);
    const unnamed = names.reduce((text, name) => text.replaceAll(name, 'NAME'), finding.message);
    const own = unnamed.replace(/"[^"]*"/g, '');
    assert.ok(!holes.test(own), finding.message);
  }
}

const texts = [
  '"',
  '""',
  ',',
  ';',
  '\t',
  '\n',
  '\r\n',
  '\r',
  '-',
  '.',
  'e',
  '1e999',
  'NaN',
  'inf',
  '\0',
  '0',
  '99999999999999999999',
  '#',
  '12:00:00',
  '2024-02-30',
  '\ufeff',
  'µ',
  '-1\n',
  ' ',
  '1,5',
  '(g)',
  'x',
  '=',
  '\u001a',
].map((text) => new TextEncoder().encode(text));

type Change = readonly [kind: number, at: number, length: number, what: number];

/** One change of a file such as a bad card, a bad line or a careless hand makes. */
function changed(bytes: Uint8Array, [kind, at, length, what]: Change): Uint8Array {
  const from = Math.floor(at * bytes.length);
  const to = Math.min(bytes.length, from + length);
  const parts: Record<number, () => Uint8Array[]> = {
    0: () => [bytes.subarray(0, from), Uint8Array.of(what % 256), bytes.subarray(from + 1)],
    1: () => [bytes.subarray(0, from), bytes.subarray(to)],
    2: () => [bytes.subarray(0, to), bytes.subarray(from)],
    3: () => [bytes.subarray(0, from), texts[what % texts.length], bytes.subarray(from)],
    4: () => [bytes.subarray(0, from)],
    5: () => [bytes.subarray(from), bytes.subarray(0, from)],
    6: () => [
      bytes.subarray(0, from),
      bytes.subarray(from, to).map((byte) => byte ^ (1 << (what % 8))),
      bytes.subarray(to),
    ],
    7: () => [bytes.map((byte) => (byte === texts[what % 8][0] ? texts[(what >> 3) % 8][0] : byte))],
  };
  const list = parts[kind]();
  const joined = new Uint8Array(list.reduce((sum, part) => sum + part.length, 0));
  let filled = 0;
  for (const part of list) {
    joined.set(part, filled);
    filled += part.length;
  }
  return joined;
}

const change = fc.tuple(fc.nat(7), fc.double({ min: 0, max: 1, noNaN: true }), fc.nat(80), fc.nat(255));
const options: fc.Arbitrary<ReadOptions> = fc.oneof(
  fc.constant({}),
  fc.constant({ rate: 400 }),
  fc.record(
    {
      rate: fc.constantFrom(1, 400, 1e6),
      unit: fc.constantFrom('g', 'm/s^2'),
      delimiter: fc.constantFrom(',', ';', 'tab', 'space', 'xx'),
      decimal: fc.constantFrom('.' as const, ',' as const),
      skip: fc.nat(12),
      scale: fc.constantFrom(0.001, -1),
      sensors: fc.constantFrom(['pad'], ['none'], ['pad', 'frame']),
      time: fc.constantFrom('t', 'time', 'Timestamp', 'column 1'),
      timezone: fc.constantFrom('+02:00', 'local', 'nowhere'),
    },
    { requiredKeys: [] },
  ),
);

describe('hostile and damaged input', () => {
  it('gives a sound recording or one sentence for thousands of damaged files', async function () {
    this.timeout(180_000);
    const input = fc.tuple(fc.nat(seeds.length - 1), fc.array(change, { minLength: 1, maxLength: 4 }), options);
    const law = fc.asyncProperty(input, async ([which, changes, given]) => {
      const bytes = changes.reduce(changed, seeds[which]);
      judge(await read(source(bytes), given), given);
    });
    await fc.assert(law, { numRuns: 7000, seed });
  });

  it('gives a sound recording or one sentence for thousands of tables made up from their pieces', async function () {
    this.timeout(180_000);
    const cell = fc.constantFrom(
      '0',
      '1',
      '-1.5',
      '2,5',
      '1.234',
      '1e3',
      '',
      ' ',
      'NaN',
      'a',
      't',
      'x',
      'time',
      'az (g)',
      '"3"',
      '"',
      '12:00:01.5',
      '2024-05-14',
      '1715679012345',
      '#',
      '%',
      '=',
      '0.001',
      '0.002',
      '7;8',
      'sensor',
      '-',
    );
    const line = fc.oneof(
      fc.array(cell, { minLength: 1, maxLength: 5 }),
      fc.constant(['0.1', '0.2', '1']),
      fc.constant(['t', 'x', 'y']),
    );
    const numbers = fc.array(fc.double({ min: -1e6, max: 1e6, noNaN: true }), { minLength: 6, maxLength: 60 });
    const input = fc.tuple(
      fc.array(line, { maxLength: 12 }),
      numbers,
      fc.integer({ min: 1, max: 4 }),
      fc.constantFrom(',', ';', '\t', ' ', ', ', '|'),
      fc.constantFrom('\n', '\r\n', '\r'),
      options,
    );
    const law = fc.asyncProperty(input, async ([lines, values, width, delimiter, end, given]) => {
      const body: string[] = [];
      for (let i = 0; i + width <= values.length; i += width) body.push(values.slice(i, i + width).join(delimiter));
      const text = [...lines.map((one) => one.join(delimiter)), ...body].join(end);
      judge(await read(source(text), given), given);
    });
    await fc.assert(law, { numRuns: 3000, seed });
  });

  it('comes to an end on long stretches of any one thing, above, among and within the rows', async function () {
    this.timeout(120_000);
    const rows = Array.from({ length: 60 }, (_, i) => `${(i / 400).toFixed(4)},0.1,0.2,1`);
    const things = [
      ' ',
      '\t',
      '"',
      ' "',
      '" ',
      '(',
      'a(',
      '[',
      '=',
      'a=',
      ':',
      '-',
      '+',
      '0',
      '.',
      '1.',
      '\0',
      'e',
      '1e',
      ',',
      ';',
      ', ',
      '\n',
      '\r',
      '#',
      '%',
      'µ',
      'x ',
      '1 ',
      'a ',
      '_',
      '/',
      '12:',
    ];
    for (const thing of things) {
      const long = thing.repeat(100_000 / thing.length);
      for (const text of [
        [long, 't,x,y,z', ...rows],
        ['t,x,y,z', ...rows.slice(0, 30), long, ...rows.slice(30)],
        ['t,x,y,z', ...rows.slice(0, 59), `1,2,3,${long}`],
        [`t,x,y,${long}`, ...rows],
      ]) {
        judge(await read(source(text.join('\n')), {}), {});
      }
    }
  });
});
