import { strict as assert } from 'node:assert';
import { Engine } from '../../src/engine/engine.ts';
import { Service, type Reply } from '../../src/engine/service.ts';
import { MemoryHost, quietWatch, recording } from './memoryFiles.ts';

const refusal = Object.assign(new Error('EMFILE: too many open files'), {
  code: 'EMFILE',
  syscall: 'open',
  path: 'a.csv',
});

/** A host whose files can be found and not opened. */
function hostThatThrows(error: Error): MemoryHost {
  const host = new MemoryHost({ 'a.csv': recording() });
  host.files.open = () => Promise.reject(error);
  return host;
}

async function errorOf(error: Error): Promise<{ code: string; message: string } | undefined> {
  const { results } = await new Engine(hostThatThrows(error)).run(
    { cells: ['load "a.csv"'], wanted: 'all' },
    quietWatch,
  );
  return results[0].error;
}

describe('what is thrown while a cell runs', () => {
  it("is the machine's where the machine refused", async () => {
    const refused = await errorOf(refusal);
    assert.equal(refused?.code, 'machine.refused');
    assert.match(refused.message, /^The system refused "a.csv": it says EMFILE; .*\.$/);
    const memory = await errorOf(new RangeError('Array buffer allocation failed'));
    assert.equal(memory?.code, 'machine.memory');
    assert.match(memory.message, /^The memory of this machine ran out: .*\.$/);
  });

  it('is a fault of ours else, in one line', async () => {
    const ours = await errorOf(new TypeError('x is not a function'));
    assert.equal(ours?.code, 'internal');
    assert.match(ours.message, /fault of Washboard itself.*TypeError: x is not a function\.$/);
  });

  it('reaches who asked an engine elsewhere as a sentence, without the way through the program', async () => {
    for (const error of [refusal, new TypeError('x is not a function')]) {
      const reply = await new Promise<Reply>((done) => {
        const service = new Service(() => hostThatThrows(error), done);
        service.receive({ type: 'look', id: 1, notebook: { folder: '/a', root: '/a' }, paths: ['a.csv'] });
      });
      assert.ok(reply.type === 'failed');
      assert.match(reply.message, /^[^\n]*\.$/);
      assert.ok(!/\bat .*:\d+/.test(reply.message), reply.message);
    }
  });
});
