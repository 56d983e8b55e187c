import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { piecesOf } from '../../../src/readers/pieces.ts';
import type { ReadWatch } from '../../../src/readers/recording.ts';
import { unwatched } from '../../../src/readers/read.ts';
import { Body, type BodyLayout } from '../../../src/readers/text/body.ts';
import { ColumnSink } from '../../../src/readers/text/sink.ts';
import { StampReader } from '../../../src/readers/text/stamp.ts';
import { stampForm } from '../../../src/readers/text/stampForm.ts';
import type { Refused } from '../../../src/result/result.ts';
import { source } from '../memory.ts';

type Kind = 'number' | 'label' | 'skip' | 'stamp';

interface Made {
  readonly kinds?: readonly Kind[] | undefined;
  readonly capacity?: number;
  readonly firstLine?: number;
  /** Bytes of a piece. */
  readonly piece?: number;
  readonly delimiter?: string;
  readonly watch?: ReadWatch;
  readonly layout?: Partial<BodyLayout>;
}

/** Reads bytes or a text of x and y as the rows of a body. */
async function bodyOf(
  text: string | Uint8Array,
  made: Made = {},
): Promise<{ body: Body; refused: Refused | undefined }> {
  const { kinds = ['number', 'number'], capacity = 1000, firstLine = 2, piece = 1 << 20, delimiter = ',' } = made;
  const sinks = kinds.map(
    (kind) => new ColumnSink(kind, capacity, kind === 'stamp' ? new StampReader(stampForm(['12:00:00'])!) : undefined),
  );
  const body = new Body(
    {
      path: 'run.csv',
      plan: { delimiter: delimiter.charCodeAt(0), blanks: delimiter === ' ', decimal: 46, tail: 0, sinks },
      delimiter,
      decimal: '.',
      tail: '',
      names: kinds.map((_, k) => `column "${'xyz'[k]}"`),
      headerText: 'x,y',
      quoted: false,
      lineEnd: 10,
      decoder: new TextDecoder(),
      isMarked: false,
      checksums: undefined,
      ...made.layout,
    },
    capacity,
    firstLine,
  );
  const whole = source(text);
  const pieces = piecesOf({ ...whole, read: (at, length) => whole.read(at, Math.min(length, piece)) });
  const refused = await body.read(pieces, made.watch ?? unwatched);
  return { body, refused };
}

const columnsOf = ({ sinks, rows }: Body): number[][] => sinks.map(({ values }) => [...values.subarray(0, rows)]);
const labelsOf = ({ sinks, rows }: Body, k: number): string[] =>
  [...sinks[k].values.subarray(0, rows)].map((number) => sinks[k].labels[number]);
const told = ({ findings }: Body): string[] => findings.map(({ code, severity }) => `${code} ${severity}`);
const messageOf = ({ findings }: Body, code: string): string =>
  findings.find((one) => one.code === code)?.message ?? `no ${code}`;
const messageOfRefusal = (refused: Refused | undefined): string => refused?.failure.message ?? 'nothing was refused';

/** Rows `0,0`, `1,10`, `2,20`… */
const rows = (count: number, from = 0): string[] =>
  Array.from({ length: count }, (_, i) => `${from + i},${10 * (from + i)}`);
const text = (lines: readonly string[]): string => lines.map((line) => `${line}\n`).join('');

describe('the rows of a text', () => {
  it('read the same in pieces of any size, whatever room was made for them', async () => {
    const line = fc.tuple(
      fc.integer({ min: -999, max: 999 }),
      fc.constantFrom('', '\n', ' \n', '# a remark\n', 'x,y\n'),
    );
    const law = fc.asyncProperty(
      fc.array(line, { minLength: 1, maxLength: 60 }),
      fc.integer({ min: 1, max: 40 }),
      fc.integer({ min: 1, max: 70 }),
      fc.constantFrom('\n', '\r\n', '\r'),
      fc.boolean(),
      async (lines, piece, capacity, lineEnd, isEnded) => {
        const written = lines.map(([value, after], i) => `${i},${value}\n${after}`).join('');
        const whole = isEnded ? written : written.replace(/\n$/, '');
        const { body, refused } = await bodyOf(whole.replaceAll('\n', lineEnd), {
          piece,
          capacity,
          firstLine: 5,
          layout: { lineEnd: lineEnd === '\r' ? 13 : 10 },
        });
        assert.equal(refused, undefined);
        assert.deepEqual(columnsOf(body), [lines.map((_, i) => i), lines.map(([value]) => value)]);
        const repeated = lines.filter(([, after]) => after === 'x,y\n').length;
        const remarks = lines.filter(([, after]) => after.startsWith('#')).length;
        assert.deepEqual(body.comments, Array<string>(remarks).fill('# a remark'));
        assert.deepEqual(
          body.findings.map(({ code, value }) => [code, value]),
          repeated > 0 ? [['header-repeated', repeated]] : [],
        );
        let at = 5;
        for (const [i, [, after]] of lines.entries()) {
          const known = body.lineOf(i);
          assert.ok(known === undefined || known === at, `row ${i} at line ${known}, not ${at}`);
          at += after === '' ? 1 : 2;
        }
      },
    );
    await fc.assert(law, { numRuns: 300 });
  });

  it('know their lines where none is doubtful, behind lines that are no rows as well', async () => {
    const { body } = await bodyOf(text([...rows(3), '# a remark', ...rows(3, 3), 'x,y', '5,oh', ...rows(30, 6)]));
    assert.deepEqual([0, 2, 3, 5].map(body.lineOf), [2, 4, 6, 8]);
    const { body: blank } = await bodyOf(text(['1,2', '', '3,4']));
    assert.equal(blank.lineOf(1), undefined);
  });

  it('leave room to grow, and hold empty cells as no number', async () => {
    const { body } = await bodyOf(text(['1,', ',2', ' 3 , nan ', '4,-']), { capacity: 1 });
    assert.deepEqual(columnsOf(body), [
      [1, NaN, 3, 4],
      [NaN, 2, NaN, NaN],
    ]);
    assert.deepEqual(
      body.sinks.map(({ empty }) => empty),
      [true, true],
    );
    assert.equal((await bodyOf('1,2\n')).body.sinks[0].empty, false);
  });

  it('may hold labels, stamps and columns that are passed over, by whichever way a line is read', async () => {
    const lines = [
      'left,12:00:01,1,a',
      'right,12:00:02,2,',
      ' left , 12:00:03 , nan ,"b"',
      'left,12:00:04,+4,c',
      'up,12:00:05,5,d',
    ];
    const kinds = ['label', 'stamp', 'number', 'skip'] as const;
    const { body } = await bodyOf(text(lines), { kinds });
    assert.deepEqual(labelsOf(body, 0), ['left', 'right', 'left', 'left', 'up']);
    assert.deepEqual(columnsOf(body).slice(1, 3), [
      [43_201, 43_202, 43_203, 43_204, 43_205],
      [1, 2, NaN, 4, 5],
    ]);
    const slow = await bodyOf(text(lines), { kinds, layout: { unlabel: (line) => line } });
    assert.deepEqual(columnsOf(slow.body).slice(1, 3), columnsOf(body).slice(1, 3));
    assert.deepEqual(labelsOf(slow.body, 0), labelsOf(body, 0));
  });

  it('may end with a mark, and with blank fields beyond the last column', async () => {
    const layout = { tail: ';', checksums: undefined } as const;
    const { body, refused } = await bodyOf(text(['1,2;', '3,4', '5,nan;', '6,7,,', '8,9, , ']), { layout });
    assert.equal(refused, undefined);
    assert.deepEqual(columnsOf(body), [
      [1, 3, 5, 6, 8],
      [2, 4, NaN, 7, 9],
    ]);
  });

  it('are decoded as the file is', async () => {
    const bytes = Uint8Array.of(...Buffer.from('1,m\xfcll\n2,m\xfcll nan\n', 'latin1'));
    const { body } = await bodyOf(bytes, {
      kinds: ['number', 'label'],
      layout: { decoder: new TextDecoder('windows-1252'), unlabel: (line) => line },
    });
    assert.deepEqual(labelsOf(body, 1), ['müll', 'müll nan']);
  });
});

describe('quoted rows', () => {
  const layout = { quoted: true } as const;

  it('may hold delimiters and line ends within a field, which count as lines', async () => {
    const lines = '"1",2,"a,b"\n3,"4","two\nlines"\n# a remark\n\n5,"6",c\nx,y\n7,8,"d"\n';
    for (const piece of [3, 1000]) {
      const { body, refused } = await bodyOf(lines, { kinds: ['number', 'number', 'label'], layout, piece });
      assert.equal(refused, undefined);
      assert.deepEqual(columnsOf(body).slice(0, 2), [
        [1, 3, 5, 7],
        [2, 4, 6, 8],
      ]);
      assert.deepEqual(labelsOf(body, 2), ['a,b', 'two\nlines', 'c', 'd']);
      assert.match(messageOf(body, 'header-repeated'), /first at line 8/);
      assert.deepEqual(body.comments, ['# a remark']);
    }
  });

  it('grow, and tell where one is none', async () => {
    const { body, refused } = await bodyOf(text(rows(50).map((row) => `"${row.replace(',', '","')}"`)), {
      layout,
      capacity: 3,
    });
    assert.equal(refused, undefined);
    assert.equal(body.rows, 50);
    assert.equal(body.sinks[1].values[49], 490);
    assert.match(
      messageOfRefusal((await bodyOf('"1","2"\n"3","oh"\n"5",6\n', { layout })).refused),
      /run\.csv:3:\d+: "oh"/,
    );
  });

  it('that are never closed are too long a line, or the end of the file', async () => {
    const { body } = await bodyOf('"1",2\n"3",4', { layout });
    assert.deepEqual(columnsOf(body), [
      [1, 3],
      [2, 4],
    ]);
  });
});

describe('lines that are no rows', () => {
  it('are remarks, of which a hundred are kept', async () => {
    const { body } = await bodyOf(text([...Array.from({ length: 120 }, (_, i) => `# remark ${i}`), '1,2', '% more']));
    assert.equal(body.comments.length, 100);
    assert.equal(body.comments[99], '# remark 99');
    assert.equal(body.rows, 1);
    assert.deepEqual(told(body), []);
  });

  it('are told where they would be rows without their mark', async () => {
    const { body } = await bodyOf(text(['1,2', '# of 3', '#3,4', '# 5,6', '# 7,8,9', '# 7,oh', '8,9']));
    assert.equal(body.rows, 2);
    assert.deepEqual(told(body), ['commented-rows warning']);
    assert.equal(body.findings[0].value, 2);
    assert.match(body.findings[0].message, /2 lines begin.*line 4/);
    const { body: marked } = await bodyOf(text(['1,2', '#3,4', '# 5,6']), { layout: { isMarked: true } });
    assert.deepEqual(columnsOf(marked), [
      [1, 3, 5],
      [2, 4, 6],
    ]);
    const { body: labelled } = await bodyOf(text(['1,a', '#3,b']), { kinds: ['number', 'label'] });
    assert.match(messageOf(labelled, 'commented-rows'), /1 line begins.*line 3/);
  });

  it('are the header once more, with the line of the first', async () => {
    const { body } = await bodyOf(text(['1,2', ' x,y ', '3,4', 'x,y']));
    assert.equal(body.rows, 2);
    assert.deepEqual(told(body), ['header-repeated note']);
    assert.match(body.findings[0].message, /line 3 \(2 times/);
  });

  it('cost their row, and are told or refused by how many there are', async () => {
    const damaged = [...rows(150), 'battery low', ...rows(150, 150)];
    const { body, refused } = await bodyOf(text(damaged));
    assert.equal(refused, undefined);
    assert.deepEqual(told(body), ['damaged-lines warning']);
    assert.match(body.findings[0].message, /line 152: "battery low"/);
    assert.equal(body.rows, 301);
    assert.ok(Number.isNaN(body.sinks[0].values[150]) && Number.isNaN(body.sinks[1].values[150]));
    assert.equal(body.sinks[0].empty, true);
    assert.equal(body.sinks[1].values[300], 2990);
    const early = await bodyOf(text(['1,2', '3,oh', ...rows(300)]));
    assert.match(messageOfRefusal(early.refused), /^run\.csv:3:3: "oh" in column "y" is not a number/);
    const wide = await bodyOf(text(['1,2', '3,4,5', ...rows(300)]));
    assert.match(messageOfRefusal(wide.refused), /^run\.csv:3: this line has 3 fields where the others have 2/);
  });

  it('are told with the column in which the trouble stands', async () => {
    const columnIn = async (line: string, kinds?: readonly Kind[]): Promise<string> =>
      /^run\.csv:2:(\d+)/.exec(messageOfRefusal((await bodyOf(text([line, ...rows(300)]), { kinds })).refused))?.[1] ??
      'none';
    assert.equal(await columnIn('oh,1'), '1');
    assert.equal(await columnIn('1,oh'), '3');
    assert.equal(await columnIn('1,  oh'), '5');
    assert.equal(await columnIn('1,1o'), '3');
    assert.equal(await columnIn('ohm,oh'), '1');
    assert.equal(await columnIn('1,1:2', ['number', 'stamp']), '3');
  });

  it('are remarks below the table where they stand behind its last row', async () => {
    const { body } = await bodyOf(text([...rows(40), 'Total', 'Mean of all']));
    assert.equal(body.rows, 40);
    assert.deepEqual(told(body), ['remarks-below note']);
    assert.match(body.findings[0].message, /last 2 lines.*line 42: "Total"/);
  });

  it('were cut off at the end of the file, where no line end stands behind them', async () => {
    const cut = async (last: string): Promise<string[]> => {
      const { body, refused } = await bodyOf(text(rows(40)) + last);
      assert.equal(refused, undefined, last);
      assert.equal(body.rows, last === '40,400' ? 41 : 40);
      return told(body);
    };
    assert.deepEqual(await cut('40,400'), []);
    assert.deepEqual(await cut('40'), ['cut-short note']);
    assert.deepEqual(await cut('40,-1e'), ['cut-short note']);
    const { body } = await bodyOf(`${text(rows(40))}40,4.0.`);
    assert.match(messageOf(body, 'cut-short'), /line 42|42/);
    // With too many fields it was not cut.
    assert.match(messageOf((await bodyOf(`${text(rows(40))}1,2,3`)).body, 'remarks-below'), /line 42/);
    assert.deepEqual(told((await bodyOf(`${text(rows(40))}40\n`)).body), ['remarks-below note']);
  });
});

describe('bytes that are no text', () => {
  it('at the end are left out, and told', async () => {
    for (const end of ['\0', '\0'.repeat(500), '\u001a', '\0\u001a\0']) {
      for (const piece of [7, 1000]) {
        const { body, refused } = await bodyOf(text(rows(30)) + end, { piece });
        assert.equal(refused, undefined);
        assert.equal(body.rows, 30);
        assert.deepEqual(told(body), ['zero-bytes note']);
        assert.match(body.findings[0].message, /^The file ends in/);
      }
    }
  });

  it('within the rows part what stands before and behind them', async () => {
    for (const piece of [5, 1000]) {
      const { body, refused } = await bodyOf(`${text(rows(30))}30,3${'\0'.repeat(40)}0,1\n${text(rows(300, 31))}`, {
        piece,
      });
      assert.equal(refused, undefined);
      assert.ok(told(body).includes('zero-bytes warning'));
      assert.match(messageOf(body, 'zero-bytes'), /^Line 32 holds/);
      assert.equal(body.sinks[1].values[body.rows - 1], 3300);
    }
  });
});

describe('readings beyond the range of the sensor', () => {
  it('are counted and lost, with the first of them told', async () => {
    const { body } = await bodyOf(text(['1,2', '3,OL', 'overload,4', '5,nan']));
    assert.deepEqual(told(body), ['overload fault']);
    assert.equal(body.findings[0].value, 2);
    assert.match(body.findings[0].message, /^2 readings.*"OL", first at line 3/);
    assert.ok(Number.isNaN(body.sinks[1].values[1]));
  });
});

describe('rows with checksums', () => {
  const checksums = {
    isKnown: true,
    bare: (line: string) => (line.endsWith('*ok') ? line.slice(0, -3) : undefined),
    bareInHead: (line: string) => line,
  };

  it('lose those that are wrong', async () => {
    const { body } = await bodyOf(text(['1,2*ok', '3,4*no', '5,6*ok', '7,8', 'x,y', '9,1*ok']), {
      layout: { checksums },
    });
    assert.deepEqual(columnsOf(body), [
      [1, NaN, 5, NaN, 9],
      [2, NaN, 6, NaN, 1],
    ]);
    assert.deepEqual(told(body), ['checksum warning', 'header-repeated note']);
    assert.equal(body.findings[0].value, 2);
    assert.match(body.findings[0].message, /^2 rows of 5.*line 3/);
  });

  it('do not lose one that was cut off, and say where no checksum is understood', async () => {
    const { body } = await bodyOf('1,2*ok\n3,4', { layout: { checksums } });
    assert.equal(body.rows, 1);
    const { body: unknown } = await bodyOf('1,2*ok\n3,4*ok\n', {
      layout: { checksums: { ...checksums, isKnown: false } },
    });
    assert.deepEqual(told(unknown), ['checksum-unknown note']);
    assert.equal(unknown.rows, 2);
  });
});

describe('labelled lines', () => {
  const unlabel = (line: string): string | undefined => /^x=(\S+) y=(\S+)$/.exec(line)?.slice(1).join(',');

  it('are read without their labels; another line costs its row', async () => {
    const lines = Array.from({ length: 200 }, (_, i) => `x=${i} y=${2 * i}`);
    lines[100] = 'rebooted';
    const { body, refused } = await bodyOf(text(['', ...lines]), { layout: { unlabel } });
    assert.equal(refused, undefined);
    assert.equal(body.rows, 200);
    assert.equal(body.sinks[1].values[199], 398);
    assert.match(messageOf(body, 'damaged-lines'), /line 103: "rebooted"/);
    const cut = await bodyOf('x=1 y=2\nx=3 y=4\nx=5', { layout: { unlabel } });
    assert.equal(cut.body.rows, 2);
    assert.deepEqual(told(cut.body), []);
  });
});

describe('reading on', () => {
  it('stops where it is told to, and tells how far it is', async () => {
    const progress: number[] = [];
    const watch = { cancelled: () => progress.length >= 2, progress: (share: number) => progress.push(share) };
    const { body, refused } = await bodyOf(text(rows(100)), { piece: 50, watch });
    assert.equal(refused?.failure.code, 'cancelled');
    assert.ok(body.rows < 100 && progress.length === 2 && progress[0] < progress[1]);
  });

  it('refuses a line longer than a mebibyte, and reads one that is shorter', async () => {
    const long = (bytes: number): string => `${text(rows(30))}${' '.repeat(bytes)}`;
    const { refused } = await bodyOf(`${long(3 << 20)}1,2\n`);
    assert.match(messageOfRefusal(refused), /^run\.csv:32: this line is longer than 1024 KiB/);
    const { body, refused: none } = await bodyOf(`${long((1 << 20) - 50)}1,2\n`);
    assert.equal(none, undefined);
    assert.equal(body.rows, 31);
  });
});
