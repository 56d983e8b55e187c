import { strict as assert } from 'node:assert';
import { gzipSync } from 'node:zlib';
import { findingOf, recordingOf, refusalOf, samplesOf } from '../memory.ts';

interface Chunk {
  readonly name: string;
  readonly bytes: readonly number[];
}

/** The bytes of numbers of so many bytes each, the lowest first unless said. */
const bytesOf = (width: number, numbers: readonly number[], little = true): number[] =>
  numbers.flatMap((value) => {
    const bytes = Array.from({ length: width }, (_, i) => Math.floor(value / 2 ** (8 * i)) & 255);
    return little ? bytes : bytes.reverse();
  });

const letters = (text: string): number[] => [...text].map((letter) => letter.charCodeAt(0));

/** A file of chunks as they come; each of an odd length is filled up by a byte. */
function file(chunks: readonly Chunk[], form = 'RIFF'): Uint8Array {
  const little = form !== 'RIFX';
  const body = chunks.flatMap(({ name, bytes }) => [
    ...letters(name),
    ...bytesOf(4, [bytes.length], little),
    ...bytes,
    ...(bytes.length % 2 === 1 ? [0] : []),
  ]);
  return Uint8Array.from([...letters(form), ...bytesOf(4, [body.length + 4], little), ...letters('WAVE'), ...body]);
}

interface Format {
  readonly code?: number;
  readonly channels?: number;
  readonly rate?: number;
  readonly bits: number;
}

function format({ code = 1, channels = 1, rate = 400, bits }: Format, little = true): Chunk {
  const frame = (channels * bits) / 8;
  return {
    name: 'fmt ',
    bytes: [
      ...bytesOf(2, [code, channels], little),
      ...bytesOf(4, [rate, rate * frame], little),
      ...bytesOf(2, [frame, bits], little),
    ],
  };
}

/** The samples that a file of one channel gives. */
async function read(of: Format, bytes: readonly number[], form?: string): Promise<number[]> {
  const content = file([format(of, form !== 'RIFX'), { name: 'data', bytes }], form);
  return samplesOf(await recordingOf(content), 'column1');
}

describe('the samples of a WAV file', () => {
  it('of 8 bits are counts from 0 to 255 less 128', async () => {
    assert.deepEqual(await read({ bits: 8 }, [255, 0, 127, 128, 1, 129]), [127, -128, -1, 0, -127, 1]);
  });

  for (const [bits, values] of [
    [16, [5, -32_768, 32_767, -2, 300]],
    [24, [5, -8_388_608, 8_388_607, -2, 70_000]],
    [32, [5, -2_147_483_648, 2_147_483_647, -2, 70_000_000]],
  ] as const) {
    it(`of ${bits} bits are whole numbers with a sign, the lowest byte first, in RIFX the highest`, async () => {
      assert.deepEqual(await read({ bits }, bytesOf(bits / 8, values)), values);
      assert.deepEqual(await read({ bits }, bytesOf(bits / 8, values, false), 'RIFX'), values);
    });
  }

  it('of floating point stand as they are, with 32 bits and with 64', async () => {
    const values = [0.5, -0.25, 1, 1.5, -3];
    const short = [...new Uint8Array(Float32Array.from(values).buffer)];
    const long = [...new Uint8Array(Float64Array.from(values).buffer)];
    assert.deepEqual(await read({ code: 3, bits: 32 }, short), values);
    assert.deepEqual(await read({ code: 3, bits: 64 }, long), values);
  });

  it('of several channels take turns', async () => {
    const bytes = bytesOf(2, [3, 30, 300, 1, 10, 100, 2, 20, 200]);
    const recording = await recordingOf(file([format({ bits: 16, channels: 3 }), { name: 'data', bytes }]));
    assert.deepEqual(
      recording.channels.map(({ samples }) => [...samples]),
      [
        [3, 1, 2],
        [30, 10, 20],
        [300, 100, 200],
      ],
    );
    assert.equal(recording.clock.rate, 400);
    assert.equal(recording.layout.format, 'WAV, 16 bits whole numbers');
  });

  it('are found behind chunks that nobody needs, of odd lengths too', async () => {
    const note = { name: 'note', bytes: [1, 2, 3] };
    const data = { name: 'data', bytes: bytesOf(2, [9, 7, 8]) };
    const recording = await recordingOf(file([note, format({ bits: 16 }), note, data]));
    assert.deepEqual(samplesOf(recording, 'column1'), [9, 7, 8]);
    assert.equal(findingOf(recording, 'cut-short'), undefined);
  });

  it('are as many as a chunk of 64-bit lengths states, where 32 bits do not hold that', async () => {
    const lengths = (samples: number): Chunk => ({
      name: 'ds64',
      bytes: [...bytesOf(4, [0, 0]), ...bytesOf(4, [samples, 0]), ...bytesOf(4, [0, 0, 0])],
    });
    const chunks = [format({ bits: 16 }), { name: 'data', bytes: bytesOf(2, [9, 7, 8, 6]) }];
    const bytes = [...file([lengths(6), ...chunks], 'RF64')];
    const open = Uint8Array.from([...bytes.slice(0, -12), ...bytesOf(4, [0xffffffff]), ...bytes.slice(-8)]);
    const recording = await recordingOf(open);
    // EBU Tech 3306: the data of RF64 end where ds64 says; what follows is no sample.
    assert.deepEqual(samplesOf(recording, 'column1'), [9, 7, 8]);
    assert.equal(findingOf(recording, 'cut-short'), undefined);
  });

  it('are all there, however much more than its size a packed file holds', async () => {
    const values = Array.from({ length: 70_000 }, (_, i) => (i % 7) - 3);
    const bytes = file([format({ bits: 16 }), { name: 'data', bytes: bytesOf(2, values) }]);
    for (const isOpen of [false, true]) {
      if (isOpen) bytes.set([0, 0, 0, 0], bytes.length - 2 * values.length - 4);
      const packed = new Uint8Array(gzipSync(bytes));
      assert.ok(packed.length < values.length / 10);
      assert.deepEqual(samplesOf(await recordingOf(packed), 'column1'), values);
    }
  });

  it('are those of the first chunk that holds any; what stands in later ones, or in a file hung on, is told', async () => {
    const data = (...values: number[]): Chunk => ({ name: 'data', bytes: bytesOf(2, values) });
    const note = { name: 'note', bytes: [1, 2, 3] };
    const later = async (...chunks: Chunk[]): Promise<string | undefined> => {
      const recording = await recordingOf(file([format({ bits: 16 }), ...chunks]));
      assert.deepEqual(samplesOf(recording, 'column1'), [9, 7, 8]);
      assert.equal(findingOf(recording, 'cut-short'), undefined);
      return findingOf(recording, 'samples-after')?.message;
    };
    assert.equal(await later(data(9, 7, 8), note), undefined);
    assert.equal(await later(data(), data(9, 7, 8)), undefined);
    assert.equal(await later(data(), { name: 'LIST', bytes: [1] }, data(9, 7, 8)), undefined);
    assert.equal(await later(data(9, 7, 8), { name: 'data', bytes: [5] }), undefined);
    assert.equal(
      await later(data(9, 7, 8), note, data(6, 5), data(4)),
      '3 more samples of each channel in 2 later chunks of the file were not read, as nothing says when after the first ones they were taken: save each chunk as a file of its own.',
    );
    const whole = file([format({ bits: 16 }), data(9, 7, 8), note]);
    const twice = await recordingOf(Uint8Array.from([...whole, ...whole]));
    assert.match(findingOf(twice, 'samples-after')?.message ?? '', /^3 more samples of each channel in 1 later chunk/);
    const junk = await recordingOf(Uint8Array.from([...whole, 0xde, 0xad, 0xbe, 0xef, 1, 2, 3, 4, ...whole]));
    assert.equal(findingOf(junk, 'samples-after'), undefined);
  });

  it('are all that there are where the recorder never wrote how many', async () => {
    const bytes = [...file([format({ bits: 16 }), { name: 'data', bytes: bytesOf(2, [9, 7, 8]) }])];
    for (const stated of [0, 0xffffffff]) {
      const open = Uint8Array.from([...bytes.slice(0, -10), ...bytesOf(4, [stated]), ...bytes.slice(-6)]);
      const recording = await recordingOf(open);
      assert.deepEqual(samplesOf(recording, 'column1'), [9, 7, 8]);
      assert.ok(findingOf(recording, 'cut-short'));
    }
  });
});

describe('a WAV file', () => {
  const data: Chunk = { name: 'data', bytes: bytesOf(2, [9, 7, 8]) };
  const codeOf = async (...chunks: Chunk[]): Promise<string> => (await refusalOf(file(chunks))).code;

  it('that ends early tells how many of its samples there are', async () => {
    const whole = file([format({ bits: 16 }), { name: 'data', bytes: bytesOf(2, [9, 7, 8, 6, 5]) }]);
    const recording = await recordingOf(whole.slice(0, -4));
    assert.deepEqual(samplesOf(recording, 'column1'), [9, 7, 8]);
    assert.match(findingOf(recording, 'cut-short')?.message ?? '', /ends after 3 of 5 samples/);
  });

  it('is refused in formats of samples that are not known', async () => {
    for (const bits of [8, 12, 16]) assert.equal(await codeOf(format({ code: 3, bits }), data), 'wav-format');
    for (const bits of [12, 64]) assert.equal(await codeOf(format({ bits }), data), 'wav-format');
    assert.equal(await codeOf(format({ code: 2, bits: 16 }), data), 'wav-format');
  });

  it('may be told by the extension of the format chunk, which says nothing beside a format of its own', async () => {
    const extended = (of: Format, inner: number): Chunk => {
      const { name, bytes } = format(of);
      // Size of the extension, valid bits, mask of the loudspeakers, and the format with the rest of its identifier.
      return {
        name,
        bytes: [
          ...bytes,
          ...bytesOf(2, [22, 16]),
          ...bytesOf(4, [4]),
          ...bytesOf(2, [inner]),
          ...Array<number>(14).fill(0),
        ],
      };
    };
    const read = async (chunk: Chunk): Promise<number[]> =>
      samplesOf(await recordingOf(file([chunk, data])), 'column1');
    assert.deepEqual(await read(extended({ code: 0xfffe, bits: 16 }, 1)), [9, 7, 8]);
    assert.deepEqual(await read(extended({ bits: 16 }, 0)), [9, 7, 8]);
    assert.equal(await codeOf(extended({ code: 0xfffe, bits: 16 }, 2), data), 'wav-format');
    // Without the extension nobody knows.
    assert.equal(await codeOf(format({ code: 0xfffe, bits: 16 }), data), 'wav-format');
  });

  it('is refused without channels or rate', async () => {
    assert.equal(await codeOf(format({ bits: 16, channels: 0 }), data), 'wav-format');
    assert.equal(await codeOf(format({ bits: 16, rate: 0 }), data), 'wav-format');
  });

  it('is refused where the bytes of a frame contradict its channels and bits', async () => {
    const { name, bytes } = format({ bits: 24 });
    const wider = { name, bytes: [...bytes.slice(0, 12), ...bytesOf(2, [4]), ...bytes.slice(14)] };
    const refusal = await refusalOf(file([wider, data]));
    assert.match(refusal.message, /1 channel of 24 bits, and 4 bytes for one sample of each/);
  });

  it('is refused where two formats stand before its samples that differ, with both', async () => {
    const one = format({ bits: 16 });
    assert.deepEqual(samplesOf(await recordingOf(file([one, one, data])), 'column1'), [9, 7, 8]);
    const { code, message } = await refusalOf(file([one, format({ bits: 32, code: 3, channels: 3, rate: 800 }), data]));
    assert.equal(code, 'wav-formats-differ');
    assert.equal(
      message,
      'run.csv: the WAV file has two format chunks before its samples, 1 channel of 16 bits at 400 Hz and 3 channels of 32 bits floating point at 800 Hz, so that nobody can tell which of them holds: export it anew from the recorder.',
    );
    for (const other of [{ rate: 401 }, { channels: 2 }, { bits: 8 }])
      assert.equal(await codeOf(one, format({ bits: 16, ...other }), data), 'wav-formats-differ');
    assert.equal(await codeOf(format({ bits: 32 }), format({ bits: 32, code: 3 }), data), 'wav-formats-differ');
  });

  it('is refused where its samples lie in a list of pieces and silences, which is named', async () => {
    const pieces = [...letters('wavl'), ...letters('data'), ...bytesOf(4, [6]), ...data.bytes];
    const silence = [...letters('slnt'), ...bytesOf(4, [4, 1000])];
    const { code, message } = await refusalOf(
      file([format({ bits: 16 }), { name: 'LIST', bytes: [...pieces, ...silence] }]),
    );
    assert.equal(code, 'wav-list');
    assert.match(message, /a list of pieces with silence between them \(wavl\), which can't be read: open it /);
  });

  it('is refused where the format or the samples are lacking', async () => {
    assert.equal(await codeOf(data, format({ bits: 16 })), 'damaged-wav');
    assert.equal(await codeOf(format({ bits: 16 })), 'damaged-wav');
    assert.equal(await codeOf({ name: 'fmt ', bytes: bytesOf(2, [1, 1]) }, data), 'damaged-wav');
  });
});

describe('a channel of a WAV file that rises steadily', () => {
  it('is a channel all the same, and neither the time nor a counter', async () => {
    for (const step of [1, 7]) {
      const ramp = Array.from({ length: 200 }, (_, i) => step * i);
      const bytes = file([format({ bits: 16 }), { name: 'data', bytes: bytesOf(2, ramp) }]);
      const { channels, clock } = await recordingOf(bytes, { unit: 'g' });
      assert.equal(clock.rate, 400);
      assert.deepEqual([...channels[0].samples], ramp);
    }
  });
});
