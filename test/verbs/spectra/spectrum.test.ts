import { strict as assert } from 'node:assert';
import { recordingOf, resultOf, sine } from '../notebook.ts';

const file = (seconds: number): ReturnType<typeof recordingOf> =>
  recordingOf({ x: sine(20), z: sine(10) }, { rate: 200, seconds });
const files = { 'foam.csv': file(9), 'gel-1.csv': file(60), 'gel-2.csv': file(4), 'gel-3.csv': file(12) };

describe('a spectrum of few averages', () => {
  const told = async (...names: string[]): Promise<(readonly [string, string])[]> => {
    const { warnings } = await resultOf(
      `r = load ${names.map((name) => `"${name}"`).join(', ')} unit g\nspectrum r using window hann 4 s`,
      files,
    );
    return warnings.map(({ code, message }) => [code, message]);
  };

  // Harris 1978, eq. 17: of K = 3 Hann segments at half overlap, correlated by 1/6, the variance is (1 + 2 (2/3)/36)/3 = 0.588².
  it('is told once of all its runs, and none with enough is named', async () => {
    assert.deepEqual(await told('*.csv'), [
      [
        'spectrum.few',
        'Only 3 segments go into the spectrum of foam, so each bin is uncertain by 59 %: use a shorter window or a longer stretch. Fewer than 8 independent averages go into those of gel-2 and gel-3, too.',
      ],
    ]);
    assert.match((await told('foam.csv', 'gel-2.csv'))[0][1], / go into that of gel-2, too\.$/);
    assert.match((await told('foam.csv'))[0][1], / or a longer stretch\.$/);
    assert.deepEqual(await told('gel-1.csv'), []);
  });
});
