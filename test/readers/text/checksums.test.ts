import { strict as assert } from 'node:assert';
import { findingOf, recordingOf, rows, samplesOf } from '../memory.ts';

const sum = (text: string): string =>
  [...text]
    .reduce((all, one) => all ^ one.charCodeAt(0), 0)
    .toString(16)
    .toUpperCase()
    .padStart(2, '0');
const row = (i: number): string => `${(i / 100).toFixed(3)},${Math.sin(i).toFixed(3)},1.00`;

describe('checksums behind the rows', () => {
  it('are held against them, with or without a $ and a name before', async () => {
    for (const [front, head] of [
      ['', ''],
      ['$', ''],
      ['$ACC,', 'id,'],
    ]) {
      const text =
        `${head}t (s),x (g),z (g)\n` + rows(200, (i) => [`${front}${row(i)}*${sum(front.slice(1) + row(i))}`]);
      const recording = await recordingOf(text);
      assert.equal(samplesOf(recording, 'z').length, 200, front);
      assert.deepEqual(recording.findings, []);
    }
  });

  it('that are wrong or missing cost their rows, which count as lost', async () => {
    const text =
      't (s),x (g),z (g)\n' +
      rows(200, (i) => [i === 7 ? `${row(i)}*00` : i === 90 ? row(i) : `${row(i)}*${sum(row(i))}`]);
    const recording = await recordingOf(text);
    assert.equal(samplesOf(recording, 'z').length, 198);
    assert.match(
      findingOf(recording, 'checksum')!.message,
      /^2 rows of 200 have a wrong checksum or none \(first at line 9\)/,
    );
    assert.equal(recording.clock.stretches.length, 3);
  });

  it('that is wrong once is told of one row', async () => {
    const text = 't (s),x (g),z (g)\n' + rows(200, (i) => [`${row(i)}*${i === 7 ? '00' : sum(row(i))}`]);
    const recording = await recordingOf(text);
    assert.equal(
      findingOf(recording, 'checksum')!.message,
      '1 row of 200 has a wrong checksum or none (first at line 9) and counts as a lost sample.',
    );
    assert.ok(recording.findings.some(({ message }) => message.startsWith('A gap leaves out 1 sample (')));
  });

  it('of another kind are taken off and told', async () => {
    const text =
      't (s),x (g),z (g)\n' + rows(200, (i) => [`${row(i)}*${((i * 37) % 256).toString(16).padStart(2, '0')}`]);
    const recording = await recordingOf(text);
    assert.equal(samplesOf(recording, 'z').length, 200);
    assert.ok(findingOf(recording, 'checksum-unknown'));
  });
});

describe('rows behind the mark of a comment', () => {
  const marked = 't (s),x (g),z (g)\n' + rows(200, (i) => [i % 50 === 30 ? `# ${row(i)}` : row(i)]);

  it('are told and left out, or read where the option says that there are no comments', async () => {
    const recording = await recordingOf(marked);
    assert.match(findingOf(recording, 'commented-rows')!.message, /^4 lines begin .*first at line 32.*comment none/);
    const all = await recordingOf(marked, { comment: 'none' });
    assert.equal(samplesOf(all, 'x').length, 200);
    assert.equal(all.clock.stretches.length, 1);
  });

  it('are rows where every row has one, and remarks are none', async () => {
    const every = await recordingOf('t (s),x (g),z (g)\n' + rows(200, (i) => [`#${row(i)}`]));
    assert.equal(samplesOf(every, 'x').length, 200);
    const remarks = await recordingOf(
      't (s),x (g),z (g)\n' + rows(200, (i) => [i === 20 ? '# battery, low, 3.3' : row(i)]),
    );
    assert.equal(findingOf(remarks, 'commented-rows'), undefined);
  });
});
