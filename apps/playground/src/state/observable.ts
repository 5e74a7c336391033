/** A value that tells its listeners when it is replaced. Knows nothing of views. */
export interface Observable<T> {
  get(): T;
  set(next: T): void;
  update(change: (value: T) => T): void;
  subscribe(listener: () => void): () => void;
}

/** Listeners are told at once and only when the value is a different one. */
export function observable<T>(initial: T): Observable<T> {
  let value = initial;
  const listeners = new Set<() => void>();
  const set = (next: T): void => {
    if (Object.is(next, value)) return;
    value = next;
    for (const listener of [...listeners]) listener();
  };
  return {
    get: () => value,
    set,
    update: (change) => set(change(value)),
    subscribe: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
  };
}
