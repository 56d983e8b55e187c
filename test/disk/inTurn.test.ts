import { strict as assert } from 'node:assert';
import { inTurn } from '../../src/disk/inTurn.ts';

/** A task that goes on until it is let go. */
function held<T>(): { readonly promise: Promise<T>; readonly end: (value: T) => void; readonly fail: () => void } {
  let [end, fail] = [(_: T): void => undefined, (): void => undefined];
  const promise = new Promise<T>((resolve, reject) => {
    end = resolve;
    fail = () => reject(new Error('failed'));
  });
  return { promise, end: (value) => end(value), fail: () => fail() };
}
const settle = (): Promise<void> => new Promise((resolve) => setImmediate(resolve));

describe('tasks that take turns', () => {
  it('are so many at a time, in the order in which they came', async () => {
    const begun: number[] = [];
    const tasks = Array.from({ length: 6 }, () => held<number>());
    const run = inTurn(2);
    const results = tasks.map(({ promise }, i) =>
      run(() => {
        begun.push(i);
        return promise;
      }),
    );
    await settle();
    assert.deepEqual(begun, [0, 1]);
    tasks[1].end(10);
    await settle();
    assert.deepEqual(begun, [0, 1, 2]);
    tasks[2].end(20);
    // One that comes as a place becomes free waits behind those that were there.
    const late = run(() => Promise.resolve(begun.push(9)));
    await settle();
    assert.deepEqual(begun, [0, 1, 2, 3]);
    [0, 3, 4, 5].forEach((i) => tasks[i].end(10 * i));
    assert.deepEqual(await Promise.all(results), [0, 10, 20, 30, 40, 50]);
    await late;
    assert.deepEqual(begun, [0, 1, 2, 3, 4, 5, 9]);
  });

  it('leave their place when they fail, and fail themselves', async () => {
    const run = inTurn(1);
    const first = held<void>();
    const failed = run(() => first.promise);
    const second = run(() => Promise.resolve('done'));
    first.fail();
    await assert.rejects(failed, /failed/);
    assert.equal(await second, 'done');
    assert.equal(await run(() => Promise.resolve('again')), 'again');
  });
});
