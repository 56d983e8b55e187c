import { strict as assert } from 'node:assert';
import { resultOf, valueOf } from '../../verbs/notebook.ts';
import { loadPads, pads } from '../../verbs/pads.ts';

const over = 'compare foam with gel over 10..30 Hz';
const four = { a: [0.3, 0.312, 0.305, 0.309], b: [0.262, 0.255, 0.27, 0.26], order: [1, 4, 6, 7, 2, 3, 5, 8] };

/** What is told of a sheet with these columns, four cells a side. */
async function told(facts: Readonly<Record<string, string>>, line = over, prefix = ''): Promise<string> {
  const columns = Object.fromEntries(Object.entries(facts).map(([header, cells]) => [header, cells.split(' ')]));
  const { warnings, error } = await resultOf(loadPads + prefix + line, pads({ ...four, facts: columns }));
  assert.equal(error?.message, undefined);
  return warnings.flatMap(({ code, message }) => (/apart|speeds|mixed/.test(code) ? message : [])).join('\n');
}

describe('a figure of the run sheet that tells the sides apart', () => {
  it('is named with what it was on either side, whatever the column is called', async () => {
    assert.equal(
      await told({ pace: '4 4.1 4.2 4.1 5 5.3 5.1 5.2' }),
      'No run of foam has the pace of a run of gel (4 to 4.2 against 5 to 5.3): unless it is a part of what is compared, what it does cannot be told from the change. Give both sides the same range of it, or state its power, as in "adjust pace exponent 1".',
    );
    assert.match(await told({ v: '20 20 20 20 25 25 25 25' }), /has the v of a run of gel \(20 against 25\):/);
    assert.match(
      await told({ 'temperature (°C)': '-2 -1.5 -1 0 4 3 5 6' }),
      /the temperature of a run of gel \(−2 to 0 against 3 to 6 °C\):.*Give both sides the same range of it\.$/,
    );
    assert.match(await told({ 'wind (m/s)': '1 1.5 2 1 3 4 3 5' }), /has the wind of .*\(1 to 2 against 3 to 5 m\/s\)/);
  });

  it('is none where they overlap, lie close, or are no figures of every run', async () => {
    assert.equal(await told({ pace: '4 4.1 4.2 5.05 5 5.3 5.1 5.2' }), '');
    assert.equal(await told({ pace: '4 4.01 4 4.02 4.03 4.04 4.05 4.06' }), '');
    assert.equal(await told({ temperature: '10.0 10.1 10.2 10.2 10.8 10.9 10.8 10.7' }), '');
    assert.equal(await told({ part: 'a a a a b b b b' }), '');
    assert.equal(await told({ pace: '4 4.1 4.2 ? 5 5.3 5.1 5.2' }), '');
  });

  it('is none in columns that name a run or say when it was made', async () => {
    for (const column of ['run', 'no', 'id', 'time', 'start', 'label', 'note', 'pair'])
      assert.equal(await told({ [column]: '1 2 3 4 11 12 13 14' }), '', column);
    assert.equal(await told({ run: '1 2 3 4 1 2 3 4' }), '');
  });

  it('is none where the comparison takes it out', async () => {
    const pace = { pace: '4 4.1 4.2 4.1 5 5.3 5.1 5.2' };
    assert.equal(await told(pace, `${over} adjust pace exponent 1`), '');
  });

  it('is none of so few runs that figures lie apart by chance', async () => {
    const two = { a: [0.3, 0.312], b: [0.262, 0.255], facts: { pace: ['4', '4.1', '5', '5.1'] } };
    const { warnings } = await resultOf(loadPads + over, pads(two));
    assert.deepEqual(
      warnings.filter(({ code }) => code === 'compare.apart'),
      [],
    );
  });
});

describe('a word of the run sheet that tells the sides apart', () => {
  it('is named with what it was on either side, where the column is of the circumstances', async () => {
    assert.equal(
      await told({ 'road surface': 'wet wet wet wet dry dry dry dry' }),
      'No run of foam has the road surface of a run of gel (wet against dry): unless it is a part of what is compared, what it does cannot be told from the change. Make runs of both with each, and compare "within road surface".',
    );
    assert.match(await told({ Rider: 'Ann Ann Ann Ann Bob Bob Bob Bob' }), /has the rider .*\(Ann against Bob\)/);
    assert.match(await told({ flow: 'a a a a b b b b' }), /has the flow .*\(a against b\)/);
  });

  it('is none in a column that names what is compared in other words', async () => {
    for (const column of ['part', 'pad', 'serial', 'mount', 'version'])
      assert.equal(await told({ [column]: 'P1 P1 P1 P1 Q2 Q2 Q2 Q2' }), '', column);
    assert.equal(await told({ setting: 'FOAM FOAM FOAM FOAM gel gel gel gel' }), '');
  });

  it('is none where a word is of both, every run has its own, or one has none', async () => {
    assert.equal(/cannot be told/.test(await told({ rider: 'Ann Ann Ann Bob Bob Bob Bob Bob' })), false);
    assert.equal(await told({ position: 'p1 p2 p3 p4 p5 p6 p7 p8' }), '');
    assert.equal(await told({ rider: 'Ann Ann Ann - Bob Bob Bob Bob'.replace('-', '') }), '');
  });

  it('is what is compared where the runs are of one condition', async () => {
    const made = pads({ ...four, facts: { surface: [...'ppppqqqq'], rider: [...'uuuuvvvv'] } });
    const sheet = made['runs.csv'].replaceAll(',gel,', ',foam,');
    const sides = (text: string): string =>
      text.replace(/condition (foam|gel)/g, (_, pad) => `surface ${pad === 'foam' ? 'p' : 'q'}`);
    const codesOf = async (runs: string): Promise<string[]> =>
      (await resultOf(sides(loadPads) + over, { ...made, 'runs.csv': runs })).warnings.map(({ code }) => code);
    const apart = (codes: string[]): number => codes.filter((code) => code === 'compare.apart').length;
    assert.equal(apart(await codesOf(sheet)), 2);
    assert.equal(apart(await codesOf(sheet.replaceAll(/,[uv]$/gm, ',u'))), 0);
  });
});

describe('a column in a unit of speed or of turning', () => {
  it('is held to the rule for speeds, whatever it is called', async () => {
    assert.match(
      await told({ 'pace (km/h)': '15 15.1 15 14.9 15.8 15.7 15.8 15.7' }),
      /^By the run sheet the mean pace was 15 km\/h with foam and 15\.8 km\/h with gel \(\+5\.0 %\): vibration grows with speed\. At equal pace/,
    );
    for (const header of ['cadence (rpm)', 'v (mph)', 'v (m/s)', 'engine (rad/s)']) {
      const facts = { [header]: ['80', '80', '80', '80', '95', '95', '95', '95'] };
      const { guards } = await valueOf('comparison', loadPads + over, pads({ ...four, facts }));
      assert.match(
        guards?.map(({ message }) => message).join() ?? '',
        new RegExp(`^the means of ${header.split(' ')[0]} differ by 18\\.8 %, so the sides are not comparable$`),
      );
    }
  });

  it('is no fault where the sides went alike', async () => {
    assert.equal(await told({ 'pace (km/h)': '15 15.1 15 14.9 15.1 15 14.9 15.2' }), '');
    assert.equal(
      await told({ 'pace (km/h)': '15 15.1 15 14.9 15.8 15.7 15.8 15.7' }, `${over} adjust pace exponent 1`),
      '',
    );
  });
});
