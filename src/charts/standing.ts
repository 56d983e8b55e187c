/** What stands while something is made that all of it asks for, down to where a name is put: no parameter of each of its parts. */
export interface Standing<T> {
  now(): T;
  /** Lets something else stand while `make` runs, which nothing comes between. */
  during<Made>(wanted: T, make: () => Made): Made;
}

export function standing<T>(usual: T): Standing<T> {
  let current = usual;
  return {
    now: () => current,
    during(wanted, make) {
      const before = current;
      current = wanted;
      try {
        return make();
      } finally {
        current = before;
      }
    },
  };
}
