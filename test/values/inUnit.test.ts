import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { toJson, type Json } from '../../src/values/json.ts';
import { hasUnits, inUnit } from '../../src/values/inUnit.ts';
import { kindNames } from '../../src/values/kinds.ts';
import { runsOf } from '../../src/values/kinds.ts';
import { signalsOf } from '../../src/values/run.ts';
import type { Value } from '../../src/values/value.ts';
import { unit } from '../../src/units/parse.ts';
import { everyValue } from '../charts/everyValue.ts';
import { errorOf, near, noise, recordingOf, sine, valueOf } from '../verbs/notebook.ts';

const files = (scale: number, name: string): Record<string, string> => {
  const random = noise(7);
  return Object.fromEntries(
    ['1', '2', '3'].map((k) => [
      `${name}${k}.csv`,
      recordingOf({ [`z (${scale === 1 ? 'g' : 'mg'})`]: (t) => scale * (sine(20, 0.4, 1)(t) + 0.1 * random()) }, {}),
    ]),
  );
};

const both = { ...files(1, 'a'), ...files(1000, 'b') };
const loaded = 'a = load "a*.csv"\nb = load "b*.csv"\n';

async function same(one: string, other: string): Promise<void> {
  const [left, right] = await Promise.all([resultJson(one), resultJson(other)]);
  compareJson(left, right, one);
}

async function resultJson(text: string): Promise<Json> {
  const { Engine } = await import('../../src/engine/engine.ts');
  const { MemoryHost, quietWatch } = await import('../engine/memoryFiles.ts');
  const report = await new Engine(new MemoryHost({ ...both })).run(
    { cells: [loaded + text], wanted: 'all' },
    quietWatch,
  );
  const { value, error } = report.results[report.results.length - 1];
  assert.equal(error?.message, undefined);
  return toJson(value!);
}

/** Alike but for rounding in the last digits, and for what a run is told to have been. */
function compareJson(left: Json, right: Json, path: string): void {
  if (typeof left === 'number' && typeof right === 'number') {
    assert.ok(Math.abs(left - right) <= 1e-9 * (Math.abs(left) + 1e-6), `${path}: ${left} and ${right}`);
    return;
  }
  if (typeof left !== 'object' || left === null || typeof right !== 'object' || right === null) {
    assert.equal(left, right, path);
    return;
  }
  assert.deepEqual(Object.keys(left), Object.keys(right), path);
  for (const [key, part] of Object.entries(left)) {
    if (key !== 'unit_from') compareJson(part, (right as Readonly<Record<string, Json>>)[key], `${path} ${key}`);
  }
}

describe('inUnit', () => {
  it('tells runs in another unit of what they measure, sample by sample, and says from which', async () => {
    const told = await valueOf('runs', `${loaded}a in m/s^2`, both);
    const own = await valueOf('runs', `${loaded}a`, both);
    const [[signal], [before]] = [signalsOf(told.runs[0]), signalsOf(own.runs[0])];
    assert.equal(signal.unit.symbol, 'm/s^2');
    assert.equal(signal.unitFrom, 'g, the header');
    signal.samples.forEach((value, k) => near(value, 9.80665 * before.samples[k], 1e-12));
  });

  for (const [verb, rest] of [
    ['levels', ''],
    ['running', 'over 1 s'],
    ['spectrum', ''],
    ['spectrum', 'as amplitude'],
    ['spectrogram', ''],
  ] as const)
    it(`tells ${verb} ${rest} as if its runs had been told so`, async () => {
      for (const other of ['m/s^2', 'mg', 'mm/s^2']) {
        await same(`${verb} (a in ${other}) ${rest}`, `${verb} a ${rest} in ${other}`);
        await same(`x = a in ${other}\n${verb} x ${rest}`, `x = ${verb} a ${rest}\nx in ${other}`);
      }
    });

  it('tells bands, peaks, orders, profiles and tables so, too', async () => {
    const S = 'S = spectrum a\nT = spectrum (a in mm/s^2)\n';
    await same(`${S}band T 5..50 Hz`, `${S}band S 5..50 Hz in mm/s^2`);
    await same(`${S}peaks T 5..50 Hz`, `${S}peaks S 5..50 Hz in mm/s^2`);
    await same(`${S}orders T by 5 m/s`, `${S}orders S by 5 m/s in mm/s^2`);
    await same(`${S}orders T by 300 rpm`, `${S}orders S by 300 rpm in mm/s^2`);
    await same(`${S}table (band T 5..50 Hz)`, `${S}table (band S 5..50 Hz) in mm/s^2`);
    await same(
      'profile 5 Hz 0.01 g^2/Hz, 50 Hz 0.04 g^2/Hz',
      'x = profile 5 Hz 0.01 g^2/Hz, 50 Hz 0.04 g^2/Hz in m/s^2\nx in g',
    );
  });

  it('compares sets in g and in mg without a word, in the unit of the baseline or the one asked for', async () => {
    const C = await valueOf('comparison', `${loaded}compare a with b over 10..30 Hz`, both);
    assert.equal(C.rows[0].unit.symbol, 'g');
    near(C.rows[0].b, C.rows[0].a, 0.01);
    await same('C = compare a with b over 10..30 Hz\nC in m/s^2', 'compare a with b over 10..30 Hz in m/s^2');
    const told = await valueOf('comparison', `${loaded}compare a with b over 10..30 Hz in m/s^2`, both);
    near(told.rows[0].b, 9.80665 * C.rows[0].b, 1e-12);
    assert.equal(told.rows[0].changePercent, C.rows[0].changePercent);
    assert.equal(told.b.spectrum?.entries[0].unit.symbol, '(m/s^2)^2/Hz');
  });

  it('refuses a unit of something else, and says how to get there', async () => {
    const { code, message } = await errorOf(`${loaded}levels a in mm/s`, both);
    assert.equal(code, 'unit.other');
    assert.match(message, /levels, in g, can be told in mm\/s, which is for a speed: .*"integrate … to velocity"/);
    assert.match((await errorOf(`${loaded}levels a in kg`, both)).message, /for a mass\.$/);
  });

  it('gives every kind with a unit back as it was, there and back again', () => {
    fc.assert(
      fc.property(fc.constantFrom(...kindNames.filter(hasUnits)), (kind) => {
        const value: Value = everyValue[kind];
        for (const symbol of ['mg', 'mm/s^2']) {
          const there = inUnit(value, unit(symbol));
          if (!there.ok) continue;
          const [own] = [
            ...runsOf(value).flatMap(({ channels }) => channels.map(({ unit: { symbol } }) => symbol)),
            'g',
          ];
          const back = inUnit(there.value, unit(own));
          assert.ok(back.ok);
          compareJson(toJson(back.value), toJson(value), kind);
        }
      }),
    );
  });
});
