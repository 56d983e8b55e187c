import { strict as assert } from 'node:assert';
import type { VerdictValue } from '../../../src/values/verdict.ts';
import { errorOf, noise, recordingOf, valueOf } from '../notebook.ts';

/**
 * Two mounts on two floors: the level falls by 30 % on the first floor and by 5 % on the second in 10 to 30 Hz, and by
 * nothing in 50 to 90 Hz; runs scatter by about 1 %.
 */
function floors(): Record<string, string> {
  const files: Record<string, string> = {};
  const rows = ['file,condition,floor'];
  const [scatter, hiss] = [noise(5), noise(6)];
  for (const [floor, ratio] of [
    ['oak', 0.7],
    ['tile', 0.95],
  ] as const)
    for (const condition of ['rigid', 'cork'])
      for (let k = 1; k <= 4; k++) {
        const low = 0.3 * (condition === 'cork' ? ratio : 1) * Math.exp(0.01 * scatter());
        const high = 0.2 * Math.exp(0.01 * scatter());
        const name = `${condition}-${floor}-${k}.csv`;
        const z = (t: number): number =>
          1 + 0.03 * hiss() + low * Math.sin(2 * Math.PI * 20 * t) + high * Math.sin(2 * Math.PI * 70 * t);
        files[name] = recordingOf({ 'z (g)': z }, { seconds: 10 });
        rows.push(`${name},${condition},${floor}`);
      }
  return { ...files, 'runs.csv': rows.join('\n') + '\n' };
}

const study = floors();
const compared =
  'rigid = load sheet "runs.csv" where condition rigid\ncork = load sheet "runs.csv" where condition cork\nC = compare rigid with cork within floor primary 10..30 Hz over 50..90 Hz\n';
const verdictOf = (claim: string): Promise<VerdictValue> => valueOf('verdict', compared + claim, study);

describe('a claim of "up to"', () => {
  it('is supported where one change reaches it, and tells that it is not to be expected', async () => {
    const { verdict, row, because, claim, sentence } = await verdictOf('claim C reduction up-to 25 %');
    assert.equal(verdict, 'supported', sentence + because.join());
    assert.equal(row.stratum, 'oak');
    assert.equal(claim, 'a reduction of up to 25 %');
    assert.match(because.join(' '), /of 6 changes compared the whole interval of this one reaches it/i);
    assert.match(because.join(' '), /As something to be expected, a reduction of at least 25 % is contradicted/);
  });

  it('is contradicted only where every change falls short of it', async () => {
    const { verdict, sentence, row } = await verdictOf('claim C reduction up-to 45 %');
    assert.equal(verdict, 'contradicted');
    assert.equal(row.stratum, 'oak');
    assert.match(sentence, /The claim of a reduction of up to 45 % is contradicted/);
    const open = await verdictOf('claim C reduction up-to 30 %');
    assert.equal(open.verdict, 'not shown');
  });

  it('is about what it names: on the other floor the same figure is contradicted', async () => {
    assert.equal((await verdictOf('claim C reduction up-to 25 % stratum tile')).verdict, 'contradicted');
    assert.equal((await verdictOf('claim C reduction up-to 25 % over 50..90 Hz')).verdict, 'contradicted');
    const least = await verdictOf('claim C reduction 25 %');
    assert.equal(least.verdict, 'contradicted');
  });

  it('goes either way, in a plan as in a claim, and needs a figure', async () => {
    assert.equal((await verdictOf('claim C increase up-to 20 %')).verdict, 'contradicted');
    const plan = await valueOf(
      'plan',
      'plan "Is it quieter?" channel z, primary 10..30 Hz, claim reduction up-to 25 %',
      {},
    );
    assert.ok(plan.entries.some(({ text }) => text === 'a reduction of up to 25 %'));
    assert.equal((await errorOf(`${compared}claim C reduction up-to`, study)).code, 'claim.words');
  });

  it('of a stratum or a band that was not compared is told as of any other claim', async () => {
    assert.equal((await errorOf(`${compared}claim C reduction up-to 25 % stratum sand`, study)).code, 'claim.which');
  });
});
