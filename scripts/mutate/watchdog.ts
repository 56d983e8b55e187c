import { Worker } from 'node:worker_threads';

// A thread beside the one that runs the tests: an endless loop lets nothing else be run there.
const thread = `
const { parentPort } = require('node:worker_threads');
const used = () => { const { user, system } = process.cpuUsage(); return (user + system) / 1e6; };
let most = Infinity;
let [since, then] = [0, 0];
const begin = () => { [since, then] = [Date.now(), used()]; };
setInterval(() => {
  const now = used();
  if (now - then > 0.05) begin();
  const waits = Date.now() - since > 180_000;
  if (most < Infinity && (now > most || waits)) process.kill(process.pid, 'SIGKILL');
}, 2000);
parentPort.on('message', (seconds) => { begin(); most = seconds === undefined ? Infinity : used() + seconds; });
`;

/** Ends the process where it computes for longer than it is let, or waits for three minutes without computing. */
export class Watchdog {
  readonly #thread = new Worker(thread, { eval: true });

  constructor() {
    this.#thread.unref();
  }

  /** @param seconds of the processor, of which a busy machine takes none away; not watched any more if undefined */
  watch(seconds: number | undefined): void {
    this.#thread.postMessage(seconds);
  }
}

/** Seconds of the processor that this process has used. */
export function used(): number {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1e6;
}
