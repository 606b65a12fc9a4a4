/** The same function, worked out once for each object and kept as long as the object is. */
export function keptBy<K extends object, V>(work: (key: K) => V): (key: K) => V {
  const kept = new WeakMap<K, { readonly value: V }>();
  return (key) => {
    let found = kept.get(key);
    if (!found) {
      found = { value: work(key) };
      kept.set(key, found);
    }
    return found.value;
  };
}
