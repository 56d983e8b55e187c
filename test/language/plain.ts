/** A tree as JSON without places, so that two trees can be compared by what they say. */
export function withoutPlaces(node: unknown): unknown {
  if (Array.isArray(node)) return node.map(withoutPlaces);
  if (node === null || typeof node !== 'object') return node;
  const kept = Object.entries(node).filter(
    ([key]) =>
      !['place', 'number', 'pieces', 'line', 'from', 'to'].includes(key) ||
      (key === 'from' && typeof node === 'object' && 'type' in node) ||
      (key === 'to' && 'type' in node),
  );
  return Object.fromEntries(kept.map(([key, value]) => [key, withoutPlaces(value)]));
}
