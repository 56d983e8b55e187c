/** Finds something of an array once: arrays are long, asked about more than once, and not changed any more. */
export function oncePerArray<Found>(find: (values: Float64Array) => Found): (values: Float64Array) => Found {
  const known = new WeakMap<Float64Array, { readonly found: Found }>();
  return (values) => {
    let one = known.get(values);
    if (one === undefined) known.set(values, (one = { found: find(values) }));
    return one.found;
  };
}
