/** Lets so many tasks run at a time; the others wait for their turn, in the order in which they came. */
export function inTurn(most: number): <T>(task: () => Promise<T>) => Promise<T> {
  const waiting: (() => void)[] = [];
  let running = 0;
  return async (task) => {
    if (running < most) running++;
    else await new Promise<void>((go) => waiting.push(go));
    try {
      return await task();
    } finally {
      // The one that is next takes the place, so that nobody slips in between.
      const next = waiting.shift();
      if (next === undefined) running--;
      else next();
    }
  };
}
