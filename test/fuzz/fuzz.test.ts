import { strict as assert } from 'node:assert';
import { fuzz } from './fuzz.ts';
import { mutated, randomOf } from './mutate.ts';

describe('mutated inputs of all formats, cells and notebooks', () => {
  it('give a sound answer or one sentence, in time and memory, without a byte lost', async function () {
    this.timeout(3_600_000);
    const falls = await fuzz(1, 0, 20_000);
    assert.deepEqual(
      falls.map(({ index, kind, reason }) => `${kind} ${index}: ${reason}`),
      [],
    );
  });

  it('are the same by the same seed', () => {
    const bytes = new TextEncoder().encode('t,x\n0,1\n1,2\n');
    const [one, again, other] = [7, 7, 8].map((seed) => mutated(bytes, bytes, randomOf(seed)));
    assert.deepEqual(one, again);
    assert.notDeepEqual(one, other);
  });
});
