import { Worker } from 'node:worker_threads';

// A thread beside the one that runs the tests: an endless loop lets nothing else be run there.
const thread = `
const { parentPort } = require('node:worker_threads');
const used = () => { const { user, system } = process.cpuUsage(); return (user + system) / 1e6; };
const idle = 60;
let most = Infinity;
let last = 0;
let quiet = 0;
const look = () => {
  const now = used();
  quiet = now - last < 0.05 ? quiet + 1 : 0;
  last = now;
  if (now > most || (most < Infinity && quiet >= idle)) process.kill(process.pid, 'SIGKILL');
};
setInterval(look, 1000);
parentPort.on('message', (seconds) => { quiet = 0; most = seconds === undefined ? Infinity : used() + seconds; });
`;

/** Ends the process where it computes for longer than it is let, or waits for a minute without computing. */
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
