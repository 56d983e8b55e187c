import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { limits } from '../../../src/readers/limits.ts';
import { unwatched } from '../../../src/readers/read.ts';
import { readChecked } from '../../../src/readers/readChecked.ts';
import { partsOf } from '../../../src/readers/long/partsOf.ts';
import type { ByteSource, ReadOptions, Recording } from '../../../src/readers/recording.ts';
import { randomOf } from '../../fuzz/mutate.ts';
import { rows, source } from '../memory.ts';

/** A source of which parts of about so many bytes are read, one after another. */
const inParts = (content: string | Uint8Array, part: number): ByteSource => ({
  ...source(content),
  sizes: { from: 1, part, most: 1e6 },
});

async function readBoth(
  content: string | Uint8Array,
  part: number,
  options: ReadOptions = {},
): Promise<{ readonly whole: Recording; readonly parts: Recording }> {
  const whole = await readChecked(source(content), options, unwatched);
  const parts = await readChecked(inParts(content, part), options, unwatched);
  assert.ok(whole.ok && parts.ok, parts.ok ? '' : parts.failure.message);
  assert.ok(parts.value.long !== undefined && parts.value.long.parts.length > 1);
  return { whole: whole.value, parts: parts.value };
}

/** What is told of a recording, but for its samples and how it was read. */
const told = ({ layout, clock, channels, findings }: Recording): unknown => ({
  layout,
  clock,
  channels: channels.map(({ name, header, unit, unitFrom, axis }) => ({ name, header, unit, unitFrom, axis })),
  findings: findings.filter(({ code }) => code !== 'read-in-parts'),
});

/** Three axes in g, with time in s; `skip` steps are left out before some rows. */
function text(count: number, rate: number, digits: number, skip: ReadonlyMap<number, number> = new Map()): string {
  let step = 0;
  const body = rows(count, (i) => {
    step += 1 + (skip.get(i) ?? 0);
    const swing = 0.3 * Math.sin(0.7 * i) + 0.2 * Math.sin(1.93 * i + 0.001 * i * i);
    return [(step / rate).toFixed(digits), ...[0, 0, 1].map((mean, k) => (mean + swing / (k + 1)).toFixed(4))];
  });
  return `time (s),x (g),y (g),z (g)\n${body}`;
}

const letters = (word: string): number[] => [...word].map((letter) => letter.charCodeAt(0));
const le = (width: number, value: number): number[] =>
  Array.from({ length: width }, (_, i) => Math.floor(value / 2 ** (8 * i)) & 255);

/** A WAV file of 3 channels of 16 bits at 8 kHz. @param stated bytes of samples @param bytes all that come after that */
const wavOf = (stated: number, bytes: readonly number[]): Uint8Array =>
  Uint8Array.from([
    ...letters('RIFF'),
    ...le(4, 36 + bytes.length),
    ...letters('WAVEfmt '),
    ...[le(4, 16), le(2, 1), le(2, 3), le(4, 8000), le(4, 48_000), le(2, 6), le(2, 16)].flat(),
    ...letters('data'),
    ...le(4, stated),
    ...bytes,
  ]);

/** The samples of all parts after one another, by channel. */
async function samplesOfParts(content: Uint8Array, { long }: Recording): Promise<number[][]> {
  assert.ok(long, 'it is read in parts');
  const opened = await partsOf(inParts(content, 40_001), long, { unit: 'g', scale: 0.0005 });
  assert.ok(opened.ok, 'its parts are found again');
  const samples: number[][] = [[], [], []];
  for (const part of long.parts) {
    const read = await opened.value.read(part, unwatched);
    assert.ok(read.ok, 'a part is read again');
    read.value.channels.forEach((channel, k) => samples[k].push(...channel.samples));
  }
  return samples;
}

describe('a recording that is read part by part', () => {
  it('has the layout, the clock, the channels and the findings of the whole, wherever it is cut', async () => {
    const skips = fc.array(fc.tuple(fc.integer({ min: 100, max: 1900 }), fc.integer({ min: 5, max: 500 })), {
      maxLength: 3,
    });
    await fc.assert(
      fc.asyncProperty(
        skips,
        fc.integer({ min: 9000, max: 30_000 }),
        fc.constantFrom(3, 5),
        async (gaps, part, digits) => {
          const { whole, parts } = await readBoth(text(2000, 200, digits, new Map(gaps)), part);
          assert.deepEqual(told(parts), told(whole));
          assert.equal(parts.long?.rows, whole.channels[0].samples.length);
        },
      ),
      { numRuns: 40 },
    );
  });

  it('says that stamps are rounded where those of the whole are', async () => {
    const { whole, parts } = await readBoth(text(3000, 750, 3), 11_000);
    assert.deepEqual(told(parts), told(whole));
    assert.ok(
      parts.findings.some(({ code }) => code === 'rounded-stamps'),
      'rounded stamps are told',
    );
  });

  it('tells of its clock what the whole tells: losses that coarse stamps hide, rows out of order, a rate stated otherwise', async () => {
    const random = randomOf(5);
    const stamped = (stamps: readonly number[], digits: number, head = ''): string =>
      `${head}time (s),z (g)\n${rows(stamps.length, (i) => [stamps[i].toFixed(digits), Math.sin(1.93 * i + 0.001 * i * i).toFixed(4)])}`;
    const even = (rate: number): number[] => Array.from({ length: 4000 }, (_, i) => i / rate);
    const kept = even(990).filter(() => random() > 0.05);
    const cases = {
      'rate-uncertain': stamped(
        kept.map((t) => Math.floor(1000 * t) / 1000),
        3,
      ),
      'stamps-out-of-order': stamped(
        even(200).map((t, i) => (i % 190 === 7 ? t - 0.0075 : t)),
        4,
      ),
      'rate-differs': stamped(even(103), 4, '# sample rate: 100 Hz\n'),
    };
    const rounded = (recording: Recording): unknown =>
      JSON.parse(
        JSON.stringify(told(recording), (_, value: unknown) =>
          typeof value === 'number' ? Number(value.toPrecision(10)) : value,
        ),
      );
    for (const [code, content] of Object.entries(cases)) {
      const { whole, parts } = await readBoth(content, 9000);
      assert.ok(
        whole.findings.some((one) => one.code === code),
        `${code} is told of the whole`,
      );
      assert.deepEqual(rounded(parts), rounded(whole));
    }
    // Unevenness is that of each part around its own line, and so a little less.
    const uneven = stamped(
      even(100).map((t) => t + 0.0003 * random()),
      5,
    );
    const { whole, parts } = await readBoth(uneven, 9000);
    assert.ok(whole.clock.jitter > 0.01, `${whole.clock.jitter}`);
    assert.ok(Math.abs(parts.clock.jitter / whole.clock.jitter - 1) < 0.01, `${parts.clock.jitter}`);
  });

  it('goes on over midnight by its date, and by seconds since 1970', async () => {
    const ms = (i: number): number => Date.UTC(2026, 0, 1, 23, 59, 50) + 10 * i;
    for (const stamp of [(i: number) => new Date(ms(i)).toISOString(), (i: number) => (ms(i) / 1000).toFixed(2)]) {
      const content = `time,z (g)\n${rows(2000, (i) => [stamp(i), Math.sin(i).toFixed(4)])}`;
      const { whole, parts } = await readBoth(content, 9000);
      assert.deepEqual(parts.clock, whole.clock);
      assert.equal(parts.clock.stretches.length, 1);
    }
  });

  it('keeps none of its samples, and gives the same of them again, part by part', async () => {
    const content = text(2000, 200, 4, new Map([[700, 90]]));
    const { whole, parts } = await readBoth(content, 11_000);
    assert.ok(parts.channels.every(({ samples }) => samples.length === 0));
    const again = await partsOf(inParts(content, 11_000), parts.long!, {});
    assert.ok(again.ok);
    for (const part of parts.long!.parts) {
      const read = await again.value.read(part, unwatched);
      assert.ok(read.ok);
      for (const [k, { samples }] of read.value.channels.entries())
        assert.deepEqual(samples, whole.channels[k].samples.slice(part.row, part.row + part.rows));
    }
  });

  it('is outlined by the extremes of all of its samples', async () => {
    const { whole, parts } = await readBoth(text(2000, 200, 4, new Map([[700, 90]])), 11_000);
    for (const [k, { outline }] of parts.channels.entries()) {
      const { samples } = whole.channels[k];
      assert.equal(Math.min(...outline!.low), Math.min(...samples));
      assert.equal(Math.max(...outline!.high), Math.max(...samples));
      assert.deepEqual(
        outline!.starts.map(({ row }) => row),
        [0, 700],
      );
    }
  });

  it('goes by the rate that is stated, and by the date of its clock over midnight', async () => {
    const stamp = (i: number): string =>
      new Date(Date.UTC(2026, 0, 1, 23, 59, 50) + 10 * i).toISOString().slice(11, 23);
    const day = `time,z (g)\n${rows(2000, (i) => [stamp(i), Math.sin(i).toFixed(4)])}`;
    for (const [content, options] of [
      [text(2000, 200, 4), { rate: 190 }],
      [`z (g)\n${rows(4000, (i) => [Math.sin(i).toFixed(4)])}`, { rate: 400 }],
      [day, {}],
    ] as const) {
      const { whole, parts } = await readBoth(content, 9000, options);
      assert.deepEqual(parts.clock, whole.clock);
    }
  });

  it('may be a WAV file, of which what comes behind the samples is told as of the whole', async () => {
    const samples = Int16Array.from({ length: 60_000 }, (_, i) => 9000 * Math.sin(0.01 * i));
    const bytes = [...new Uint8Array(samples.buffer)];
    const note = [...letters('LIST'), ...le(4, 5), 1, 2, 3, 4, 5, 0];
    const more = [...letters('data'), ...le(4, 600), ...bytes.slice(0, 600)];
    const cases: readonly (readonly [number, readonly number[], readonly string[]])[] = [
      [bytes.length, [], []],
      [bytes.length, note, []],
      [bytes.length, [...note, ...more, ...more], ['samples-after']],
      [bytes.length - 3, more, ['samples-after']],
      [bytes.length + 6000, [], ['cut-short']],
      [0, [], ['cut-short']],
    ];
    for (const [stated, behind, codes] of cases) {
      const isOdd = stated < bytes.length && stated > 0;
      const file = wavOf(stated, [...bytes.slice(0, isOdd ? -2 : undefined), ...behind]);
      const { whole, parts } = await readBoth(file, 40_001, { unit: 'g', scale: 0.0005 });
      assert.deepEqual(told(parts), told(whole));
      assert.deepEqual(
        parts.findings.map(({ code }) => code).filter((code) => code === 'samples-after' || code === 'cut-short'),
        codes,
      );
      assert.deepEqual(
        await samplesOfParts(file, parts),
        whole.channels.map(({ samples }) => [...samples]),
      );
    }
  });

  it('refuses a file whose parts make no recording, with the line and what to do', async () => {
    const header = 'time (s),x (g),y (g),z (g)\n';
    const row = (time: number, i: number): (string | number)[] => [
      time.toFixed(4),
      ...[0, 1, 2].map((k) => Math.sin(i + k).toFixed(4)),
    ];
    const cases: readonly (readonly [why: RegExp, content: string])[] = [
      [/its rate changes/, header + rows(1000, (i) => row(i < 500 ? i / 100 : 5 + (i - 500) / 300, i))],
      [
        /its time runs back or stands still/,
        header + rows(1000, (i) => row(i < 500 ? i / 100 : 3 + (i - 500) / 100, i)),
      ],
      [/several of its rows share a stamp/, header + rows(1000, (i) => row(Math.floor(i / 8) / 10, i))],
    ];
    for (const [why, content] of cases) {
      const size = (content.length - header.length) / 2;
      const found = await readChecked(inParts(content, Math.ceil(size)), {}, unwatched);
      assert.ok(!found.ok, String(why));
      assert.equal(found.failure.code, 'parts-unfit');
      assert.match(found.failure.message, why);
      assert.match(found.failure.message, /^run\.csv:\d+: .* cut it into files of less than .* GiB\.$/);
    }
  });

  it('is one only where the file is large enough, and none where a cut could go through a cell', async () => {
    const plain = text(500, 200, 4);
    const small = await readChecked({ ...source(plain), sizes: { from: 1e6, part: 4000, most: 1e6 } }, {}, unwatched);
    const quoted = await readChecked(inParts(plain.replaceAll('1.0', '"1.0"'), 4000), {}, unwatched);
    assert.ok(small.ok && small.value.long === undefined);
    assert.ok(!quoted.ok || quoted.value.long === undefined);
    const wide = await readChecked(
      inParts(new Uint8Array(Buffer.from(`\ufeff${plain}`, 'utf16le')), 4000),
      {},
      unwatched,
    );
    assert.ok(wide.ok && wide.value.long === undefined && wide.value.channels[0].samples.length === 500);
  });

  it('loses no row of a text of two bytes a character that comes in small pieces, and is read as a whole', async () => {
    const bytes = new Uint8Array(Buffer.from(`\ufeff${text(20_000, 200, 4)}`, 'utf16le'));
    assert.ok(bytes.length > 4 * limits.head);
    const { read, ...rest } = inParts(bytes, 4000);
    const small = { ...rest, read: (at: number, length: number) => read(at, Math.min(length, 100_000)) };
    const found = await readChecked(small, {}, unwatched);
    assert.ok(found.ok, found.ok ? '' : found.failure.message);
    assert.deepEqual([found.value.long, found.value.channels[0].samples.length], [undefined, 20_000]);
  });
});
