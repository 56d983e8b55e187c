/**
 * The circles of a graph: its strongly connected components of more than one node, or of one that leads to itself,
 * each sorted, by Tarjan's method (SIAM Journal on Computing 1 (1972), 146–160).
 */
export function circlesOf(graph: ReadonlyMap<string, readonly string[]>): string[][] {
  const circles: string[][] = [];
  const order = new Map<string, number>();
  const stack: string[] = [];
  const visit = (node: string): number => {
    const at = order.size;
    order.set(node, at);
    let low = at;
    stack.push(node);
    for (const next of graph.get(node) ?? []) {
      if (!order.has(next)) low = Math.min(low, visit(next));
      else if (stack.includes(next)) low = Math.min(low, order.get(next) ?? at);
    }
    if (low === at) {
      const circle = stack.splice(stack.indexOf(node));
      if (circle.length > 1 || graph.get(node)?.includes(node)) circles.push(circle.sort());
    }
    return low;
  };
  for (const node of graph.keys()) if (!order.has(node)) visit(node);
  return circles.sort((a, b) => (a[0] < b[0] ? -1 : 1));
}
