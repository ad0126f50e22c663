/** A value that others may watch; it is replaced, never changed in place. */
export class Store<T> {
  private readonly watchers = new Set<(value: T) => void>();

  constructor(private current: T) {}

  get value(): T {
    return this.current;
  }

  set(value: T): void {
    if (Object.is(value, this.current)) return;
    this.current = value;
    for (const watcher of [...this.watchers]) watcher(value);
  }

  /** Calls back after each replacement; the returned function ends that. */
  watch(watcher: (value: T) => void): () => void {
    this.watchers.add(watcher);
    return () => this.watchers.delete(watcher);
  }
}
