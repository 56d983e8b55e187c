import { strict as assert } from 'node:assert';
import { answerTo, AskedFiles, type FilesAsk } from '../../src/disk/asked.ts';
import { MemoryFiles } from './memoryFiles.ts';

describe('the file systems of an editor, asked for by messages', () => {
  it('answer as they do themselves, whichever answer comes first', async () => {
    const disk = new MemoryFiles();
    disk.write('/a/b.csv', 'one');
    const asks: FilesAsk[] = [];
    const asked = new AskedFiles((ask) => asks.push(ask));
    const files = asked.at('memfs://x/');
    const answers = Promise.all([
      files.stat('/a/b.csv'),
      files.list('/a'),
      files.read('/a/b.csv'),
      files.stat('/none'),
    ]);
    assert.ok(asks.every(({ base }) => base === 'memfs://x/'));
    for (const ask of [...asks].reverse()) asked.receive(structuredClone(await answerTo(ask, disk)));
    assert.deepEqual(
      await answers,
      await Promise.all([disk.stat('/a/b.csv'), disk.list('/a'), disk.read('/a/b.csv'), undefined]),
    );
  });

  it('fail whoever asked where the editor fails', async () => {
    const disk = new MemoryFiles();
    disk.stat = () => Promise.reject(new Error('no connection'));
    const asked: AskedFiles = new AskedFiles((ask) => void answerTo(ask, disk).then((answer) => asked.receive(answer)));
    await assert.rejects(asked.at('memfs://x/').stat('/a'), /no connection/);
  });
});
