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
  // A plain list of ready nodes, smallest first: notebooks hold hundreds of statements, not millions.
  const ready: number[] = [];
  waiting.forEach((count, node) => count === 0 && ready.push(node));
  while (ready.length > 0) {
    const node = ready.shift()!;
    order.push(node);
    done[node] = 1;
    for (const user of users[node]) {
      if (--waiting[user] > 0) continue;
      let at = ready.length;
      while (at > 0 && ready[at - 1] > user) at--;
      ready.splice(at, 0, user);
    }
  }
  uses.forEach((_, node) => done[node] === 0 && order.push(node));
  return order;
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
      const members = stack.splice(stack.indexOf(node));
      members.forEach((member) => (state.on[member] = 0));
      if (members.length > 1 || uses[node].includes(node)) found.push(members.sort((a, b) => a - b));
    }
  }
  return found;
}
