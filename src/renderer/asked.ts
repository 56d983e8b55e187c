/** Pauses between two askings, in ms, and how many there are: whoever is to answer may still be starting. */
const pause = 700;
const most = 100;

/** Asks now, and again until it is told that there was an answer. */
export function asked(ask: () => void): () => void {
  let left = most;
  const timer = setInterval(() => {
    ask();
    if (--left === 0) clearInterval(timer);
  }, pause);
  ask();
  return () => clearInterval(timer);
}
