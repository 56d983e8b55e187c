import { randomOf } from './mutate.ts';

type Random = ReturnType<typeof randomOf>;

const pick = <T>(list: readonly T[], random: Random): T => list[Math.floor(random() * list.length)];

/** The lines of a table: each row's first field, which most often is its stamp, and the rest of the line. */
interface Row {
  readonly stamp: string;
  readonly rest: string;
}

/** Stamps that no clock gives, but a bad line, a spreadsheet or another program's defaults do. */
const odd = [
  ...['1e307', '-1e307', '1.7976931348623157e308', '5e-324', '-5', '-0', 'NaN', 'nan', 'inf', '-Infinity', ''],
  ...['9007199254740993', '18446744073709551615', '1.7E+12', '0x10', '2024-02-30T25:61:61Z', '24:00:00', '12:00'],
  ...['2024-01-01T00:00:00.000+14:00', '01.02.2024 10:11:12,5', '45292.5', '1,5', '0', '-62135596800'],
];

const isoOf = (stamp: string): string => {
  const ms = Number(stamp.replace(',', '.'));
  return Math.abs(ms) < 8e15 ? new Date(ms).toISOString() : stamp;
};

/** A stamp with its number changed; one that is no number stays as it is. */
function withNumber({ stamp, rest }: Row, change: (value: number) => number): Row {
  const value = Number(stamp.replace(',', '.'));
  if (stamp.trim() === '' || !Number.isFinite(value)) return { stamp, rest };
  const digits = /[.,](\d+)$/.exec(stamp)?.[1].length ?? 0;
  const written = change(value).toFixed(Math.min(digits, 20));
  return { stamp: stamp.includes(',') ? written.replace('.', ',') : written, rest };
}

const stampNumber = ({ stamp }: Row): number => Number(stamp.replace(',', '.')) || 0;

/** Two places of the rows, in order. */
function stretch(rows: readonly Row[], random: Random): readonly [number, number] {
  const [one, other] = [random(), random()].map((share) => Math.floor(share * rows.length));
  return [Math.min(one, other), Math.max(one, other)];
}

type Change = (rows: readonly Row[], random: Random) => readonly Row[];

/** Rows that are lost, sent twice or in another order. */
const ofRows: readonly Change[] = [
  // Lost one by one.
  (rows, random) => {
    const share = random() ** 2;
    return rows.filter(() => random() >= share);
  },
  // Lost in a run.
  (rows, random) => {
    const [from, to] = stretch(rows, random);
    return [...rows.slice(0, from), ...rows.slice(to)];
  },
  // Sent again at once.
  (rows, random) => {
    const [from, to] = stretch(rows, random);
    return [...rows.slice(0, to), ...rows.slice(from)];
  },
  // Sent again while later ones arrive, row by row between those.
  (rows, random) => {
    const late = 1 + Math.floor(random() * 20);
    return rows.flatMap((row, i) => (i >= late ? [row, rows[i - late]] : [row]));
  },
  // Buffers that are sent again now and then.
  (rows, random) => {
    const size = 2 + Math.floor(random() * 30);
    const sent: Row[] = [];
    for (let from = 0; from < rows.length; from += size)
      for (let times = random() < 0.3 ? 2 : 1; times > 0; times--) sent.push(...rows.slice(from, from + size));
    return sent;
  },
  // Two blocks that change places.
  (rows, random) => {
    const [from, to] = stretch(rows, random);
    const size = Math.min(to - from, rows.length - to);
    return [...rows.slice(0, from), ...rows.slice(to, to + size), ...rows.slice(from, to), ...rows.slice(to + size)];
  },
  // Backwards.
  (rows) => [...rows].reverse(),
  // The same file once more behind it, as where a name is used twice.
  (rows) => [...rows, ...rows],
  // Two sensors row by row, told apart by a column or by nothing.
  (rows, random) => {
    const labels = random() < 0.5 ? ['', ''] : random() < 0.5 ? [',seat', ',base'] : [';1', ';2'];
    return rows.flatMap(({ stamp, rest }) => labels.map((label) => ({ stamp, rest: rest + label })));
  },
];

/** Stamps that are set anew, rounded, held, in another unit or form. */
const ofStamps: readonly Change[] = [
  // Set anew at some row.
  (rows, random) => {
    const [from] = stretch(rows, random);
    const back = pick([stampNumber(rows[from]), 1, 3600, -1e6, 0.5, 86_400_000], random);
    return rows.map((row, i) => (i < from ? row : withNumber(row, (value) => value - back)));
  },
  // Rounded or cut.
  (rows, random) => {
    const step = Math.abs(stampNumber(rows[rows.length - 1]) - stampNumber(rows[0])) / rows.length || 1;
    const quantum = step * 10 ** (3 * random() - 1.5);
    const cut = pick([Math.floor, Math.round, Math.ceil], random);
    return rows.map((row) => withNumber(row, (value) => cut(value / quantum) * quantum));
  },
  // In another unit from some row on, or all of them.
  (rows, random) => {
    const from = random() < 0.5 ? 0 : stretch(rows, random)[0];
    const by = pick([1000, 1e-3, 1 / 60, 60, 1 / 86_400, 1e9], random);
    return rows.map((row, i) => (i < from ? row : withNumber(row, (value) => value * by)));
  },
  // Written as a date from some row on, or now and then.
  (rows, random) => {
    const from = stretch(rows, random)[0];
    const always = random() < 0.5;
    return rows.map((row, i) =>
      (always ? i >= from : random() < 0.3) ? { stamp: isoOf(row.stamp), rest: row.rest } : row,
    );
  },
  // A few, or all from some row on, that no clock gives.
  (rows, random) => {
    const share = random() ** 3;
    const stamp = pick(odd, random);
    return rows.map((row) => (random() < share ? { stamp, rest: row.rest } : row));
  },
  // Standing still for a while, or for good.
  (rows, random) => {
    const [from, to] = stretch(rows, random);
    return rows.map((row, i) => (i > from && i < to ? { stamp: rows[from].stamp, rest: row.rest } : row));
  },
  // A counter that begins anew.
  (rows, random) => {
    const size = pick([256, 1000, 4096, 65_536, 60], random);
    return rows.map((row) => withNumber(row, (value) => ((value % size) + size) % size));
  },
  // Uneven, up to running back.
  (rows, random) => {
    const step = Math.abs(stampNumber(rows[rows.length - 1]) - stampNumber(rows[0])) / rows.length;
    const by = step * 10 ** (3 * random() - 2);
    return rows.map((row) => withNumber(row, (value) => value + by * (random() - 0.5)));
  },
  // Negative, or far from where a clock begins.
  (rows, random) => {
    const by = pick([-1e4, 1e15, -1e15, 1.7e9, 1.7e12, 2 ** 53], random);
    return rows.map((row) => withNumber(row, (value) => value + by));
  },
];

/** What goes wrong with the clock and the rows of a logger: a table of text with some such troubles; other bytes as they are. */
export function withClockTroubles(bytes: Uint8Array, random: Random): Uint8Array {
  const encoding = bytes.includes(0) ? 'utf16le' : 'latin1';
  const text = Buffer.from(bytes).toString(encoding);
  const end = /\r\n|\r|\n/.exec(text)?.[0] ?? '\n';
  const lines = text.split(end);
  const head = Math.min(lines.findIndex((line) => /^[-\d]/.test(line)) >>> 0, lines.length);
  let rows: readonly Row[] = lines.slice(head).map((line) => {
    const stamp = /^[^;\t|]*?(?=, |,(?!\d+[;\t|])|[;\t|]| (?!\d\d?:))/.exec(line)?.[0] ?? line;
    return { stamp, rest: line.slice(stamp.length) };
  });
  for (let left = 1 + Math.floor(random() * 3); left > 0 && rows.length > 2 && rows.length < 5000; left--)
    rows = pick(random() < 0.5 ? ofRows : ofStamps, random)(rows, random);
  const written = [...lines.slice(0, head), ...rows.map(({ stamp, rest }) => stamp + rest)].join(end);
  return new Uint8Array(Buffer.from(written, encoding));
}
