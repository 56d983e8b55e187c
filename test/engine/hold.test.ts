import { strict as assert } from 'node:assert';
import { recording } from './memoryFiles.ts';
import { errorOf, resultOf } from '../verbs/notebook.ts';

const files = { 'raw/a.csv': recording() };
const bound = 'a = load "raw/a.csv" | channel z\nL = levels a\n';

/** The refusal of a line whose arguments are known only once the lines above it have run. */
async function of(line: string): Promise<{ readonly code: string; readonly message: string }> {
  const { code, message } = await errorOf(`${bound}${line}`, files);
  return { code, message };
}

describe('a computed argument', () => {
  it('is held against the bounds of the form as a literal is, in the same words', async () => {
    const computed = await of('spectrum a confidence 14 % * a.count');
    const literal = await of('spectrum a confidence 14 %');
    assert.deepEqual(computed, literal);
    assert.deepEqual(literal, {
      code: 'value.least',
      message: 'The option `confidence` of `spectrum` has to be at least 50 %, not `14 %`.',
    });
    const { code, message } = await of('spectrum a confidence a.count + 94');
    assert.equal(code, 'value.most');
    assert.match(message, /at most 99.99 %, not `95`; did you mean `95 %`\?/);
  });

  it('has to lie above a bound that is not itself allowed', async () => {
    for (const line of ['running a over 0 s - a.duration', 'window hann a.duration * 0', 'trim a length 0 s * a.count'])
      assert.equal((await of(line)).code, 'value.above', line);
    assert.match((await of('running a over -a.duration')).message, /above 0 s, not `-20 s`/);
    assert.match((await of('resample a 0 * a.rate')).message, /RATE has to be above 0 Hz/);
  });

  it('is a whole number where something is counted', async () => {
    assert.deepEqual(await of('load "raw/a.csv" skip a.count / 2'), {
      code: 'value.integer',
      message: 'The option `skip` of `load` has to be a whole number, not `0.5`.',
    });
    assert.equal((await of('order a.count / 2')).code, 'value.integer');
    assert.match((await of('order (0.1 + 0.2) * 10 * a.count')).message, /not `3.0000000000000004`/);
  });

  it('measures what the form asks for', async () => {
    const { code, message } = await of('window hann L.rms');
    assert.equal(code, 'unit.dimension');
    assert.match(
      message,
      /^What `window` takes as LENGTH has to be a time, in s for example, but `0\.\d+ g` is an acc/,
    );
    assert.equal((await of('orders (spectrum a) by L.rms')).code, 'unit.dimension');
  });

  it('is held within the parts of an option, too', async () => {
    assert.equal((await of('plot a mark 0 s - a.duration "start"')).code, 'value.least');
    assert.equal((await of('plot a mark L.rms "level"')).code, 'unit.dimension');
  });

  it('is blamed at its own place', async () => {
    const { error } = await resultOf(`${bound}trim a from 2 s length 0 * a.duration`, files);
    assert.equal(error?.line, 3);
    assert.deepEqual([error?.from, error?.to], [24, 37]);
  });

  it('may stand at a bound that is allowed', async () => {
    for (const line of ['window hann 2 s overlap 95 % * a.count', 'spectrum a confidence 50 % * a.count'])
      assert.equal((await resultOf(`${bound}${line}`, files)).error, undefined, line);
  });
});
