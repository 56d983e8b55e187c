import { Worker } from 'node:worker_threads';
import { begunAhead } from './readingAsked.ts';
import { keptSmall } from './youngMemory.ts';

/**
 * MB of a thread's short-lived objects: it makes few, and its memory is one of several. The arrays that go with them are
 * let go when these are collected, so that the fewer there may be the sooner.
 */
const young = 1;

/** Threads that nobody has asked for yet, by their program. */
const begun = new Map<string, Worker[]>();

/** Begins a thread, which is no reason for the process to go on. @param script absolute path of its program */
export function beginWorker(script: string): void {
  const worker = started(script, begunAhead);
  worker.unref();
  begun.set(script, [...(begun.get(script) ?? []), worker]);
  // Of one that can't be had nothing is told until another is asked for.
  const forget = (): void =>
    void begun.set(
      script,
      (begun.get(script) ?? []).filter((other) => other !== worker),
    );
  worker.on('error', forget);
  worker.on('exit', forget);
}

/** One of those that were begun, else a fresh thread. @param script absolute path of its program */
export function startedWorker(script: string): Worker {
  const worker = begun.get(script)?.pop();
  worker?.ref();
  return worker ?? started(script);
}

function started(script: string, workerData?: typeof begunAhead): Worker {
  const worker = new Worker(script, { workerData, resourceLimits: { maxYoungGenerationSizeMb: young } });
  worker.on('online', keptSmall);
  return worker;
}
