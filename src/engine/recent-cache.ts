/** Results kept by what they depend on, and forgotten a few calculations after they were last wanted. */
export class RecentCache<V> {
  readonly #entries = new Map<string, { value: V; used: number }>();
  readonly #keep: number;
  #turn = 0;

  /** `keep`: calculations an unused entry outlives. */
  constructor(keep: number) {
    this.#keep = keep;
  }

  get(key: string, make: () => V): V {
    let entry = this.#entries.get(key);
    if (entry === undefined) {
      entry = { value: make(), used: this.#turn };
      this.#entries.set(key, entry);
    }
    entry.used = this.#turn;
    return entry.value;
  }

  /** Keeps an entry, if it is there, as if it had been asked for. */
  touch(key: string): void {
    const entry = this.#entries.get(key);
    if (entry !== undefined) entry.used = this.#turn;
  }

  values(): V[] {
    return [...this.#entries.values()].map(({ value }) => value);
  }

  /** One calculation is over. */
  turn(): void {
    this.#turn++;
    for (const [key, { used }] of this.#entries)
      if (this.#turn - used > this.#keep) this.#entries.delete(key);
  }
}
