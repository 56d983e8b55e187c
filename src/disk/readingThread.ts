import { parentPort } from 'node:worker_threads';
import { reuseMemory, takeMemoryBack } from '../readers/reusedMemory.ts';
import { blocking } from './openedFile.ts';
import { readRecording, type Reading, type ReadingTask } from './readRecording.ts';
import { readBeside, type SharedPlan } from '../readers/text/rowsBeside.ts';
import { reasonOfException } from '../result/environment.ts';
import { welchDensity, type Density } from '../signal/welch.ts';
import type { WantedDensity } from '../values/ports.ts';

/** What a thread is asked. */
export type ThreadRequest = { readonly id: number } & (
  | ThreadTask
  /** To read rows beside another thread until it lets go. */
  | { readonly type: 'beside'; readonly rows: SharedArrayBuffer; readonly plan: SharedPlan }
);

/** To read a recording (`stop` is one shared integer, not 0 once nobody waits for the answer), or for a density. */
export type ThreadTask =
  | { readonly type: 'read'; readonly task: ReadingTask; readonly stop: SharedArrayBuffer }
  | { readonly type: 'density'; readonly wanted: WantedDensity };

export type ThreadReply =
  | { readonly id: number; readonly type: 'progress'; readonly fraction: number }
  | { readonly id: number; readonly type: 'read'; readonly reading: Reading }
  | { readonly id: number; readonly type: 'density'; readonly density: Density }
  | { readonly id: number; readonly type: 'let go' }
  | { readonly id: number; readonly type: 'failed'; readonly message: string };

const port = parentPort;
if (port === null) throw new Error('to be started as a worker');
reuseMemory();
const reply = (message: ThreadReply): void => port.postMessage(message);

port.on('message', (request: ThreadRequest) => {
  const { id } = request;
  switch (request.type) {
    case 'beside':
      readBeside(request.rows, request.plan);
      takeMemoryBack();
      return reply({ id, type: 'let go' });
    case 'read':
      return read(id, request);
    case 'density':
      return makeDensity(id, request.wanted);
  }
});

function makeDensity(id: number, { pieces, options }: WantedDensity): void {
  try {
    reply({ id, type: 'density', density: welchDensity(pieces, options) });
  } catch (error) {
    reply({ id, type: 'failed', message: reasonOfException(error) });
  }
}

function read(id: number, { task, stop }: Extract<ThreadTask, { type: 'read' }>): void {
  const flag = new Int32Array(stop);
  const watch = {
    cancelled: () => Atomics.load(flag, 0) !== 0,
    progress: (fraction: number) => reply({ id, type: 'progress', fraction }),
  };
  void readRecording(task, watch, blocking)
    .then(
      // By copy: an array that is handed over makes the engine look at every array before each use.
      (reading) => reply({ id, type: 'read', reading: tight(reading) }),
      (error: unknown) => reply({ id, type: 'failed', message: reasonOfException(error) }),
    )
    .finally(takeMemoryBack);
}

/** A reading whose arrays are no parts of larger ones, which would be copied whole. */
function tight(reading: Reading): Reading {
  const { recording } = reading;
  if (!recording.ok) return reading;
  const { channels, clock } = recording.value;
  const value = {
    ...recording.value,
    channels: channels.map((one) => ({ ...one, samples: tightArray(one.samples) })),
    clock: { ...clock, times: clock.times && tightArray(clock.times) },
  };
  return { ...reading, recording: { ok: true, value } };
}

const tightArray = (values: Float64Array): Float64Array =>
  values.byteLength === values.buffer.byteLength ? values : values.slice();
