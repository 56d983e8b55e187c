import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { noise, recordingOf, sine, valueOf } from '../notebook.ts';
import { loadPads, pads, stopped, type Pads } from '../pads.ts';
import { agrees, holdsTogether, isShown, isWithheld } from './agree.ts';

const bands = ['10..30 Hz', '12..28 Hz', '15..25 Hz'];
const orders: Readonly<Record<number, readonly (readonly number[] | undefined)[]>> = {
  2: [undefined],
  3: [undefined, [1, 4, 5, 2, 3, 6], [1, 2, 3, 4, 5, 6]],
  4: [undefined, [1, 4, 6, 7, 2, 3, 5, 8], [1, 2, 4, 5, 3, 6, 7, 8]],
};

const doubts = ['none', 'fault', 'speeds', 'floor', 'rounding', 'other channel planned', 'other band planned'] as const;

/** Two pads that differ by some percent, with scatter, in a known order, a bad one or none. */
const study = fc
  .record({
    runs: fc.constantFrom(2, 3, 3, 4, 4, 4),
    change: fc.constantFrom(-30, -12, -4, 0, 4, 12),
    scatter: fc.constantFrom(0.2, 1, 4),
    levels: fc.uniqueArray(fc.integer({ min: -1000, max: 1000 }), { minLength: 8, maxLength: 8 }),
    order: fc.nat(2),
    layout: fc.constantFrom('alone', 'alone', 'pairs', 'days', 'other days'),
    over: fc.constantFrom(1, 3),
    primary: fc.boolean(),
    margin: fc.boolean(),
    doubt: fc.constantFrom(...doubts),
  })
  .map(({ runs, change, scatter, levels, order, layout, over, primary, margin, doubt }) => {
    const level = (k: number, factor: number): number => 0.3 * factor * (1 + (scatter * levels[k]) / 100_000);
    const places = orders[runs][order % orders[runs].length];
    const made: Pads = {
      a: Array.from({ length: runs }, (_, k) => level(k, 1)),
      b: Array.from({ length: runs }, (_, k) => level(k + 4, 1 + change / 100)),
      seconds: 4,
      ...(places === undefined ? {} : { order: places }),
      ...(layout === 'alone' ? {} : { facts: laidOut(layout, runs) }),
    };
    const first = primary ? ` primary ${bands[0]}` : '';
    const others = bands.slice(primary ? 1 : 0, over);
    const text = `compare foam with gel${first}${others.length > 0 ? ` over ${others.join(', ')}` : ` over ${bands[0]}`}${margin ? ' margin 5 %' : ''}`;
    return { made, text, doubt, layout };
  });

/** A column of the sheet by which the k-th run of each side makes a pair, or two runs of each a day, or the sides have days of their own. */
function laidOut(layout: 'pairs' | 'days' | 'other days', runs: number): Record<string, readonly string[]> {
  if (layout === 'other days') return { day: Array.from({ length: 2 * runs }, (_, k) => (k < runs ? 'Mon' : 'Tue')) };
  const side = Array.from({ length: runs }, (_, k) =>
    layout === 'pairs' ? String(k + 1) : `2026-05-0${1 + Math.floor(k / 2)}`,
  );
  return { [layout === 'pairs' ? 'pair' : 'day']: [...side, ...side] };
}

/** What stands against a verdict: words before the comparison and after it, and other files, or what the sheet says. */
function withDoubt(
  doubt: (typeof doubts)[number],
  made: Pads,
): { readonly before: string; readonly after: string; readonly files: Record<string, string> } {
  const none = { before: '', after: '', files: pads(made) };
  switch (doubt) {
    case 'none':
      return none;
    case 'fault':
      return { ...none, files: { ...none.files, ...stopped(made) } };
    case 'speeds': {
      const speed = [...made.a.map(() => '1.2'), ...made.b.map(() => '1.5')];
      return { ...none, files: pads({ ...made, facts: { ...made.facts, speed } }) };
    }
    case 'floor': {
      const still = recordingOf({ z: sine(20, 0.3, 1) }, { seconds: made.seconds ?? 10 });
      return {
        before: 'rest = load "still.csv" unit g\n',
        after: ' above rest',
        files: { ...none.files, 'still.csv': still },
      };
    }
    case 'rounding': {
      const coarse = Object.entries(none.files).map(([name, text], k) => [
        name,
        name === 'runs.csv' ? text : inSteps(text, k),
      ]);
      return { ...none, files: Object.fromEntries(coarse) as Record<string, string> };
    }
    case 'other channel planned':
      return { ...none, before: 'p = plan "Less?" channel x repeats 4\n', after: ' plan p' };
    case 'other band planned':
      return { ...none, before: 'p = plan "Less?" channel z primary 30..40 Hz repeats 4\n', after: ' plan p' };
  }
}

/** A recording with some noise, whose readings are written in steps of 0.4 g. */
function inSteps(text: string, seed: number): string {
  const random = noise(seed);
  const written = (value: number): string => (0.4 * Math.round((value + 0.1 * random()) / 0.4)).toFixed(1);
  return text.replace(/,(-?\d+\.\d+)$/gm, (_, value: string) => `,${written(Number(value))}`);
}

describe('what is said of a study', () => {
  it('never contradicts itself in row, sentence, chart, table, JSON and claims', async () => {
    await fc.assert(
      fc.asyncProperty(study, async ({ made, text: comparison, doubt, layout }) => {
        const { before, after, files } = withDoubt(doubt, made);
        const load = loadPads + before;
        const text = comparison + after;
        const value = await valueOf('comparison', load + text, files);
        if (['fault', 'speeds', 'other channel planned', 'other band planned'].includes(doubt))
          assert.ok(
            value.rows.every((row) => isWithheld(value, row)),
            doubt,
          );
        if (layout === 'other days') assert.ok(value.rows.every((row) => row.outcome === 'not shown'));
        if (layout === 'pairs')
          assert.ok(
            value.rows.every(({ sentence, lowPercent }) => (lowPercent === undefined) !== / in pairs/.test(sentence)),
          );
        value.rows.forEach((row, index) => holdsTogether(value, row, index));
        isShown(value);
        const [row] = value.rows;
        const claims = ['reduction', 'increase', 'reduction 10 %', 'reduction at-most 10 %', 'no-worse 3 %'];
        const verdicts = await Promise.all(
          claims.map((claim) => valueOf('verdict', `${load}c = ${text}\nclaim c ${claim} over ${bands[0]}`, files)),
        );
        for (const verdict of verdicts) agrees(verdict, row);
        const [less, more, least, most] = verdicts.map(({ verdict }) => verdict);
        const both = (one: string, other: string): boolean => one === 'supported' && other === 'supported';
        assert.ok(!both(less, more) && !both(least, most) && !both(least, more));
        const moved = await valueOf('verdict', `${load}c = ${text}\nclaim c reduction over 10.1..30 Hz`, files);
        assert.deepEqual([moved.verdict, moved.row.outcome], ['not shown', 'not shown']);
      }),
      { numRuns: 20, seed: 20, endOnFailure: true },
    );
  }).timeout(300_000);
});
