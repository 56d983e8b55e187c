import { strict as assert } from 'node:assert';
import type { Output } from '../../../src/charts/output.ts';
import { present } from '../../../src/charts/present.ts';
import { resultOf } from '../../verbs/notebook.ts';
import { loadMounts, mounts, wobble } from '../../verbs/mounts.ts';
import { loadPads, pads } from '../../verbs/pads.ts';

const levels = { a: [0.3, 0.302, 0.318, 0.316], b: [0.262, 0.261, 0.25, 0.252] };
const compared = `${loadPads}C = compare foam with gel over 10..30 Hz`;
const claimed = `${compared}\nclaim C reduction 10 %`;
const untold =
  'Whether the parts were fitted anew between runs is not recorded, so the intervals speak of the parts as they were fitted here.';

async function shown(text: string, files: Readonly<Record<string, string>>): Promise<Output> {
  const { value, error } = await resultOf(text, files);
  assert.equal(error?.message, undefined);
  return present(value!, undefined, []);
}

const reaches = ({ parts }: Output): string[] =>
  parts.flatMap((part) => (part.type === 'text' && part.style === 'reach' ? [part.text] : []));

describe('how far an interval reaches', () => {
  it('stands once with the sentences of a comparison and of a verdict where refits are not told', async () => {
    for (const text of [compared, claimed]) {
      const output = await shown(text, pads(levels));
      assert.deepEqual(reaches(output), [untold]);
      const opening = output.parts.findIndex(({ type }) => type !== 'text');
      assert.ok(output.parts.slice(0, opening).some((part) => part.type === 'text' && part.style === 'reach'));
    }
  });

  it('stands with a verdict where a part was fitted once, of which the comparison warns', async () => {
    const once = pads({ ...levels, facts: { refit: ['1', '1', '2', '2', '1', '1', '1', '1'] } });
    assert.deepEqual(reaches(await shown(compared, once)), []);
    assert.deepEqual(reaches(await shown(claimed, once)), [
      'Gel was fitted once, so the intervals speak of that fitting alone.',
    ]);
  });

  it('is not spoken of where parts were fitted anew, and where there is no interval', async () => {
    const refits = pads({ ...levels, facts: { refit: ['1', '1', '2', '2', '1', '1', '2', '2'] } });
    for (const text of [compared, claimed]) assert.deepEqual(reaches(await shown(text, refits)), []);
    assert.deepEqual(reaches(await shown(compared, pads({ a: [0.3, 0.31], b: [0.2, 0.21] }))), []);
  });

  it('names the conditions that it is not told of, and of a verdict its own alone', async () => {
    const names = ['rigid', 'rubber', 'cork'];
    const runs = Array.from({ length: 12 }, (_, k) => ({
      condition: names[k % 3],
      level: 0.3 * (1 + wobble(k)),
      facts: { refit: k % 3 === 2 ? '' : String(Math.floor(k / 6)) },
    }));
    const text = `${loadMounts(names)}C = compare rigid with rubber, cork over 10..30 Hz`;
    const cork =
      'Whether cork was fitted anew between runs is not recorded, so the intervals speak of it as it was fitted here.';
    assert.deepEqual(reaches(await shown(text, mounts({ runs }))), [cork]);
    assert.deepEqual(reaches(await shown(`${text}\nclaim C cork reduction 5 %`, mounts({ runs }))), [cork]);
    assert.deepEqual(reaches(await shown(`${text}\nclaim C rubber reduction 5 %`, mounts({ runs }))), []);
  });

  it('counts a fitting within the stratum that the row is of', async () => {
    const runs = Array.from({ length: 16 }, (_, k) => ({
      condition: ['rigid', 'rubber'][k % 2],
      level: 0.3 * (1 + wobble(k)),
      facts: { refit: k < 8 ? '1' : String(k % 4), flow: k < 8 ? 'low' : 'high' },
    }));
    const text = `${loadMounts(['rigid', 'rubber'])}C = compare rigid with rubber within flow over 10..30 Hz`;
    const once = 'Rigid and rubber were each fitted once, so the intervals speak of those fittings alone.';
    const claim = (stratum: string): Promise<Output> =>
      shown(`${text}\nclaim C reduction 5 %${stratum}`, mounts({ runs }));
    assert.deepEqual(reaches(await claim(' stratum low')), [once]);
    assert.deepEqual(reaches(await claim(' stratum high')), []);
    assert.deepEqual(reaches(await claim('')), [once]);
  });
});
