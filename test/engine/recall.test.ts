import { strict as assert } from 'node:assert';
import { Engine } from '../../src/engine/engine.ts';
import { Service, type FactsRequest, type NotebookFacts, type Reply } from '../../src/engine/service.ts';
import { MemoryHost, quietWatch, recording } from './memoryFiles.ts';

const cells = [
  'foam = load "raw/a*.csv" channel z',
  'part = trim foam 2..12 s\nS = spectrum part using window hann 1 s',
  'k = series(40 N/mm, 100 N/mm) in N/mm',
];
const host = (): MemoryHost =>
  new MemoryHost({ 'raw/a1.csv': recording({ seed: 1 }), 'raw/a2.csv': recording({ seed: 2 }) });

describe('what an engine recalls of a notebook', () => {
  it('is what takes little to make: small files, stretches of them, sums; no spectrum', async () => {
    const { values, failures, complete } = await new Engine(host()).recall(cells, quietWatch);
    assert.deepEqual([...values.keys()], ['foam', 'part', 'k']);
    assert.deepEqual(failures, []);
    assert.ok(complete);
  });

  it('is all that was run before, and what was made for it is not made again by a run', async () => {
    const memory = host();
    const engine = new Engine(memory);
    await engine.recall(cells, quietWatch);
    const read = memory.opened.length;
    const report = await engine.run({ cells, wanted: 'all' }, quietWatch);
    assert.ok(report.ok);
    assert.equal(memory.opened.length, read);
    const { values } = await engine.recall(cells, quietWatch);
    assert.deepEqual([...values.keys()], ['foam', 'part', 'S', 'k']);
  });

  it('leaves large files alone until they are asked for by a run', async () => {
    const memory = new MemoryHost({ 'raw/long.csv': recording({ seconds: 700 }) });
    assert.ok((memory.contents.get('raw/long.csv') ?? '').length > 4e6);
    const { values, failures } = await new Engine(memory).recall(['r = load "raw/long.csv"'], quietWatch);
    assert.deepEqual([[...values.keys()], failures, memory.opened], [[], [], []]);
  });

  it('tells what is certain to fail, and where', async () => {
    const { failures } = await new Engine(host()).recall([cells[0], 'levels foam\ntrim foam 5..50 s'], quietWatch);
    assert.deepEqual(
      failures.map(({ cell, code, place }) => [cell, code, place.from, place.to]),
      [[1, 'trim.outside', 22, 29]],
    );
  });

  it('is given up at once when the watch says so', async () => {
    const { values, complete } = await new Engine(host()).recall(cells, { ...quietWatch, cancelled: () => true });
    assert.deepEqual([values.size, complete], [0, false]);
  });
});

describe('the facts that a service gives', () => {
  const place = { folder: '/', root: '/' };
  const request = (id: number, rest: Partial<FactsRequest> = {}): FactsRequest => ({
    type: 'facts',
    id,
    notebook: place,
    cells,
    files: [],
    ...rest,
  });

  /** Sends requests at once and waits for so many answers. */
  function answers(requests: readonly FactsRequest[], memory = host()): Promise<readonly Reply[]> {
    const replies: Reply[] = [];
    return new Promise((resolve) => {
      const service = new Service(
        () => memory,
        (reply) => {
          if (replies.push(reply) === requests.length) resolve(replies);
        },
      );
      requests.forEach((one) => service.receive(one));
    });
  }
  const facts = (reply: Reply): NotebookFacts => (reply.type === 'facts' ? reply : assert.fail(JSON.stringify(reply)));

  it('say each name’s value in short', async () => {
    const [reply] = await answers([request(1)]);
    const { names, complete } = facts(reply);
    assert.equal(names['foam'].summary, '2 runs · z in g · 200 Hz · 20 s');
    assert.deepEqual(names['foam'].headers, ['z (g)']);
    assert.equal(names['part'].duration, 10);
    assert.equal(names['k'].summary, '28.57 N/mm');
    assert.ok(complete);
  });

  it('name the channels of a file, and pass over one that can’t be read', async () => {
    const memory = host();
    memory.contents.set('raw/other.bin', '%PDF');
    const [reply] = await answers([request(1, { cells: [], files: ['raw/a1.csv', 'raw/other.bin'] })], memory);
    assert.deepEqual(facts(reply).files, {
      'raw/a1.csv': ['x', 'y', 'z'].map((name) => ({ name, header: `${name} (g)`, unit: 'g' })),
      'raw/other.bin': [],
    });
  });

  it('give way to whatever was asked after them', async () => {
    const [first, second] = await answers([request(1), request(2)]);
    assert.deepEqual([facts(first).complete, Object.keys(facts(first).names)], [false, []]);
    assert.deepEqual([facts(second).complete, Object.keys(facts(second).names).length], [true, 3]);
  });
});
