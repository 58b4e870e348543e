/** Puts a value behind those of its key; to copy the list each time takes the square of its length. */
export function addTo<Key, Value>(lists: Map<Key, Value[]>, key: Key, value: Value): void {
  const known = lists.get(key);
  if (known === undefined) lists.set(key, [value]);
  else known.push(value);
}
