import { strict as assert } from 'node:assert';
import { resultOf, valueOf, warningsOf } from '../notebook.ts';
import { loadPads, pads } from '../pads.ts';

const levels = { a: [0.3, 0.302, 0.318, 0.316], b: [0.262, 0.261, 0.25, 0.252], order: [1, 2, 5, 6, 3, 4, 7, 8] };
const study = (refit: readonly string[]): Record<string, string> => pads({ ...levels, facts: { refit } });
const text = `${loadPads}C = compare foam with gel over 10..30 Hz`;

describe('compare with refits in the run sheet', () => {
  it('takes the scatter from refit to refit, and says so', async () => {
    const { methodCode, rows } = await valueOf('comparison', text, study(['1', '1', '2', '2', '1', '1', '2', '2']));
    assert.equal(methodCode, 'refits');
    assert.match(rows[0].sentence, /, with the scatter from refit to refit/);
    const runs = await valueOf('comparison', text, study(['1', '2', '3', '4', '1', '2', '3', '4']));
    const width = ({ lowPercent = NaN, highPercent = NaN }: (typeof rows)[number]): number => highPercent - lowPercent;
    assert.ok(width(rows[0]) > 2 * width(runs.rows[0]));
  });

  it('draws no change bin by bin, whose interval takes every run for one of its own', async () => {
    const nested = await valueOf('comparison', text, study(['1', '1', '2', '2', '1', '1', '2', '2']));
    const alone = await valueOf('comparison', text, study(['1', '2', '3', '4', '1', '2', '3', '4']));
    assert.deepEqual([nested.ratio === undefined, alone.ratio === undefined], [true, false]);
  });

  it('says what may not be claimed where a part was fitted once', async () => {
    const once = study(Array.from({ length: 8 }, () => '1'));
    assert.ok((await warningsOf(text, once)).includes('compare.fitted-once'));
    const { warnings } = await resultOf(text, once);
    const { message } = warnings.find(({ code }) => code === 'compare.fitted-once')!;
    assert.match(message, /^Foam and gel were each fitted once: .* of these two fittings alone, not of the parts/);
    const other = await resultOf(text, study(['1', '1', '2', '2', '1', '1', '1', '1']));
    assert.match(other.warnings.map((one) => one.message).join(), /Gel was fitted once: .* of this fitting alone/);
  });

  it('has a claim’s sentence say of which fittings it holds, where it shows anything', async () => {
    const claimed = async (claim: string, refit: readonly string[]): Promise<string> =>
      (await valueOf('verdict', `${text}\nclaim C ${claim}`, study(refit))).sentence;
    const [each, gelOnce] = [Array.from({ length: 8 }, () => '1'), ['1', '1', '2', '2', '1', '1', '1', '1']];
    const both = /\. For these single fittings of foam and gel alone, the claim of a reduction is supported: /;
    assert.match(await claimed('reduction', each), both);
    assert.match(await claimed('increase', each), /For these single .*, the claim of an increase is contradicted; a/);
    assert.match(
      await claimed('reduction 1 %', gelOnce),
      /\. For this one fitting of gel alone, the claim of .* is supp/,
    );
    assert.match(await claimed('reduction 1 %', ['1', '2', '3', '4', '1', '2', '3', '4']), /\. The claim of a/);
    const alike = pads({ a: [0.3, 0.302, 0.318, 0.316], b: [0.301, 0.319, 0.299, 0.317], facts: { refit: each } });
    const open = await valueOf('verdict', `${text}\nclaim C reduction 1 %`, alike);
    assert.match(open.sentence, /\. The claim of a reduction of at least 1 % is not shown: /);
  });

  it('tells the method in the methods paragraph with its source', async () => {
    const { parts } = await valueOf('methods', `${text}\nmethods C`, study(['1', '1', '2', '2', '1', '1', '2', '2']));
    assert.match(parts.map((part) => part.text).join(' '), /means of the refits, .*Montgomery/);
  });

  it('says in the methods paragraph, once, how far the intervals reach where no refits were made or told', async () => {
    const statistics = async (files: Readonly<Record<string, string>>): Promise<string> => {
      const { parts } = await valueOf('methods', `${text}\nmethods C`, files);
      return parts.flatMap((part) => (part.about === 'statistics' ? part.text : [])).join(' ');
    };
    const untold =
      'Whether the parts were fitted anew between runs is not recorded, so the intervals speak of the parts as they were fitted here.';
    const plain = await statistics(pads(levels));
    assert.equal(plain.split(untold).length, 2);
    assert.match(
      await statistics(study(Array.from({ length: 8 }, () => '1'))),
      /Foam and gel were each fitted once, so the intervals speak of those fittings alone\.$/,
    );
    assert.match(
      await statistics(study(['1', '1', '2', '2', '1', '1', '1', '1'])),
      /Gel was fitted once, so the intervals speak of that fitting alone\.$/,
    );
    assert.doesNotMatch(await statistics(study(['1', '1', '2', '2', '1', '1', '2', '2'])), /speak of/);
    const two = pads({ a: [0.3, 0.31], b: [0.2, 0.21] });
    assert.doesNotMatch(await statistics(two), /speak of/);
  });
});
