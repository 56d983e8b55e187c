/** `uses[i]` are the nodes that node i needs. */
export type Graph = readonly (readonly number[])[];

/**
 * An order in which every node comes after those it needs, as near to the given order as that allows. Members of
 * circles, and what only they lead to, come last.
 */
export function evaluationOrder(uses: Graph): readonly number[] {
  const waiting = uses.map((needs) => needs.length);
  const users = reverse(uses);
  const order: number[] = [];
  const done = new Uint8Array(uses.length);
  // Those that are ready in rising order are a heap already.
  const ready: number[] = [];
  waiting.forEach((count, node) => count === 0 && ready.push(node));
  for (let node = takeLeast(ready); node !== undefined; node = takeLeast(ready)) {
    order.push(node);
    done[node] = 1;
    for (const user of users[node]) if (--waiting[user] === 0) put(ready, user);
  }
  uses.forEach((_, node) => done[node] === 0 && order.push(node));
  return order;
}

/** Into a binary heap, whose least number stands first. */
function put(heap: number[], value: number): void {
  let at = heap.push(value) - 1;
  for (let above = (at - 1) >> 1; at > 0 && heap[above] > value; above = (at - 1) >> 1) {
    heap[at] = heap[above];
    at = above;
  }
  heap[at] = value;
}

/** The least number out of a binary heap; undefined of an empty one. */
function takeLeast(heap: number[]): number | undefined {
  const least = heap.at(0);
  const last = heap.pop();
  if (last === undefined || heap.length === 0) return least;
  let at = 0;
  for (let below = 1; below < heap.length; below = 2 * at + 1) {
    if (below + 1 < heap.length && heap[below + 1] < heap[below]) below++;
    if (heap[below] >= last) break;
    heap[at] = heap[below];
    at = below;
  }
  heap[at] = last;
  return least;
}

function reverse(uses: Graph): readonly (readonly number[])[] {
  const users: number[][] = uses.map(() => []);
  uses.forEach((needs, node) => needs.forEach((need) => users[need].push(node)));
  return users;
}

/** Groups of nodes that each need all the others of their group: strongly connected components (Tarjan 1972). */
export function circles(uses: Graph): readonly (readonly number[])[] {
  const state = {
    index: new Int32Array(uses.length),
    low: new Int32Array(uses.length),
    on: new Uint8Array(uses.length),
  };
  const found: number[][] = [];
  const stack: number[] = [];
  let counter = 0;
  for (let root = 0; root < uses.length; root++) {
    if (state.index[root] > 0) continue;
    // An own stack of (node, next need): a chain of a thousand names must not exhaust the call stack.
    const path: [number, number][] = [];
    const enter = (node: number): void => {
      state.index[node] = state.low[node] = ++counter;
      state.on[node] = 1;
      stack.push(node);
      path.push([node, 0]);
    };
    enter(root);
    while (path.length > 0) {
      const top = path[path.length - 1];
      const [node, at] = top;
      if (at < uses[node].length) {
        top[1]++;
        const need = uses[node][at];
        if (state.index[need] === 0) enter(need);
        else if (state.on[need]) state.low[node] = Math.min(state.low[node], state.index[need]);
        continue;
      }
      path.pop();
      const parent = path.at(-1)?.[0];
      if (parent !== undefined) state.low[parent] = Math.min(state.low[parent], state.low[node]);
      if (state.low[node] < state.index[node]) continue;
      const members = stack.splice(stack.lastIndexOf(node));
      members.forEach((member) => (state.on[member] = 0));
      if (members.length > 1 || uses[node].includes(node)) found.push(members.sort((a, b) => a - b));
    }
  }
  return found;
}
