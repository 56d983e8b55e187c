import { strict as assert } from 'node:assert';
import { inOneUnit } from '../../src/charts/oneUnit.ts';
import { present } from '../../src/charts/present.ts';
import { unit } from '../../src/units/parse.ts';
import type { Drawable } from '../../src/values/chart.ts';
import { descriptionOf } from '../../src/values/kinds.ts';
import { everyValue, plotOf } from './everyValue.ts';
import { foamSpectrum, gelSpectrum } from './madeUp.ts';

const asTold = <V extends Drawable>(value: V, symbol: string): V =>
  (descriptionOf(value).inUnit?.(value, unit(symbol)) as V | undefined) ?? assert.fail(`not in ${symbol}`);

const titles = (values: readonly Drawable[]): string[] =>
  present(plotOf([...values]), 'v', []).parts.flatMap((part) => (part.type === 'chart' ? [part.title] : []));

describe('what is drawn together', () => {
  it('is one picture in the first one’s unit, where it measures the same', () => {
    const inMg = asTold(gelSpectrum, 'mg');
    assert.equal(titles([foamSpectrum, inMg]).length, 1);
    const [first, second] = inOneUnit([foamSpectrum, inMg].map((value) => ({ name: undefined, value })));
    assert.equal(first.value, foamSpectrum);
    assert.ok(second.value.kind === 'spectrum');
    const [told, meant] = [second.value.entries[0], gelSpectrum.entries[0]];
    assert.equal(told.unit.symbol, meant.unit.symbol);
    told.level.forEach((level, bin) => assert.ok(Math.abs(level / meant.level[bin] - 1) < 1e-9));
  });

  it('goes by the first, whichever it is, for levels, bands and traces as well', () => {
    for (const value of [everyValue.levels, everyValue.bands, everyValue.runs, everyValue.running] as const) {
      const inMg = asTold<Drawable>(value, 'mg');
      for (const both of [
        [value, inMg],
        [inMg, value],
      ])
        assert.equal(titles(both).length, titles([value]).length, value.kind);
      const said = (both: readonly Drawable[]): string => present(plotOf([...both]), 'v', []).text;
      assert.match(said([inMg, value]), /\bmg\b/, value.kind);
      assert.doesNotMatch(said([value, inMg]), /\bmg\b/, value.kind);
    }
  });

  it('leaves what measures something else in its own picture', () => {
    const velocity = {
      ...gelSpectrum,
      entries: gelSpectrum.entries.map((entry) => ({
        ...entry,
        unit: unit('(mm/s)^2/Hz'),
        channel: { ...entry.channel, unit: unit('mm/s') },
      })),
    };
    assert.equal(titles([foamSpectrum, velocity]).length, 2);
  });
});
