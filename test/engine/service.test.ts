import { strict as assert } from 'node:assert';
import { Service, type Reply } from '../../src/engine/service.ts';
import { MemoryHost } from './memoryFiles.ts';

/** A second of a ramp at 100 Hz. */
const recording = `t (s),x (g)\n${Array.from({ length: 100 }, (_, n) => `${n / 100},${n % 7}`).join('\n')}\n`;

describe('an engine that is told by messages', () => {
  it('lets one in between two recordings of a statement, so that it stops', async () => {
    const files = Object.fromEntries(Array.from({ length: 10 }, (_, n) => [`ride-${n}.csv`, recording]));
    let breaths = 0;
    const breathe = async (): Promise<void> => {
      // The first is before the statement.
      if (++breaths === 4) setTimeout(() => service.receive({ type: 'stop', id: 1 }));
      await new Promise((go) => setTimeout(go));
    };
    let told: (reply: Reply) => void;
    const reply = new Promise<Reply>((done) => (told = done));
    const service = new Service(
      () => Object.assign(new MemoryHost(files), { breathe }),
      (said) => void (said.type === 'done' && told(said)),
    );
    const notebook = { folder: '/', root: '/' };
    const cells = ['levels (load "ride-*.csv")'];
    service.receive({ type: 'run', id: 1, notebook, cells, numbers: [1], wanted: [0], keyed: [], stop: undefined });
    const end = await reply;
    assert.ok(end.type === 'done' && end.cancelled);
    assert.ok(breaths < 10, `${breaths} breaths`);
  });
});
