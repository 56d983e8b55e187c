import { reuseMemory, takeMemoryBack } from '../readers/reusedMemory.ts';
import { reasonOfException } from '../result/environment.ts';
import { welchDensity } from '../signal/welch.ts';
import { blocking } from './openedFile.ts';
import { readRecording, type Reading } from './readRecording.ts';
import type { ThreadReply, ThreadTask } from './readingAsked.ts';

/** How often at most it is told how far a reading has come, in ms: of many short ones a message takes longer than it is worth. */
const pace = 100;

// One recording at a time is read here, and an answer goes by copy.
reuseMemory();

/** Does what a thread is asked for, and replies. */
export async function work(id: number, asked: ThreadTask, reply: (message: ThreadReply) => void): Promise<void> {
  if (asked.type === 'read') await read(id, asked, reply);
  else makeDensity(id, asked, reply);
}

function makeDensity(
  id: number,
  { wanted: { pieces, options } }: Extract<ThreadTask, { type: 'density' }>,
  reply: (message: ThreadReply) => void,
): void {
  try {
    reply({ id, type: 'density', density: welchDensity(pieces, options) });
  } catch (error) {
    reply({ id, type: 'failed', message: reasonOfException(error) });
  }
}

function read(
  id: number,
  { task, stop }: Extract<ThreadTask, { type: 'read' }>,
  reply: (message: ThreadReply) => void,
): Promise<void> {
  let told = performance.now();
  const flag = new Int32Array(stop);
  const watch = {
    cancelled: () => Atomics.load(flag, 0) !== 0,
    progress: (fraction: number) => {
      if (performance.now() - told < pace) return;
      told = performance.now();
      reply({ id, type: 'progress', fraction });
    },
  };
  return readRecording(task, watch, blocking)
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
