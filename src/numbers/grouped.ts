/** Items of one key together, in the order in which the keys come first. */
export function grouped<Item>(items: readonly Item[], keyOf: (item: Item, at: number) => string | number): Item[][] {
  const groups = new Map<string | number, Item[]>();
  items.forEach((item, at) => {
    const key = keyOf(item, at);
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [item]);
    else group.push(item);
  });
  return [...groups.values()];
}
