import { strict as assert } from 'node:assert';
import { alsoOf, together, type RunWarning } from '../../src/analysis/together.ts';
import { recordingOf, resultOf, sine } from '../verbs/notebook.ts';

describe('warnings about several runs', () => {
  it('are told once where they differ only in the run, with the others named', () => {
    const one = (of: string, code = 'a', sameFor = ''): RunWarning => ({
      code,
      of,
      sameFor,
      tell: (others) => ({ code, facts: { of }, message: `${of} is short.${alsoOf(others)}` }),
    });
    assert.deepEqual(together([one('r1'), one('r2'), one('r3'), one('r2', 'b'), one('r1', 'a', 'x')]), [
      {
        code: 'a',
        facts: { of: 'r1' },
        message: 'r1 is short. Much the same goes for r2 and r3.',
        about: { of: 'r1', sameFor: '', others: ['r2', 'r3'] },
      },
      {
        code: 'b',
        facts: { of: 'r2' },
        message: 'r2 is short.',
        about: { of: 'r2', sameFor: '', others: [] },
      },
      {
        code: 'a',
        facts: { of: 'r1' },
        message: 'r1 is short.',
        about: { of: 'r1', sameFor: 'x', others: [] },
      },
    ]);
    assert.deepEqual(together([]), []);
  });

  it('are so in a verb', async () => {
    const file = recordingOf({ z: sine(5) });
    const files = { 'a 1.csv': file, 'a 2.csv': file };
    const { warnings } = await resultOf('r = load "a *.csv" unit g\nresample r 400 Hz', files);
    assert.deepEqual(
      warnings.filter(({ code }) => code === 'resample.up').map(({ message }) => message),
      ['a 1 was sampled at 200 Hz: the higher rate adds nothing above 100 Hz. Much the same goes for a 2.'],
    );
  });
});
