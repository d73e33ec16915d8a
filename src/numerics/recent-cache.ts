/** Results kept by what they depend on, and forgotten a few calculations after they were last asked for. */
export class RecentCache<V> {
  readonly #entries = new Map<string, { value: V; used: number }>();
  readonly #keep: number;
  #turn = 0;

  readonly #least: number;

  /** `keep`: calculations an unused entry outlives; so many of the latest as `least` are not forgotten at all. */
  constructor(keep: number, least = 0) {
    this.#keep = keep;
    this.#least = least;
  }

  get(key: string, make: () => V): V {
    let entry = this.#entries.get(key);
    if (entry === undefined) entry = { value: make(), used: this.#turn };
    else this.#entries.delete(key);
    entry.used = this.#turn;
    // Set anew, so that entries stand in the order of their last use.
    this.#entries.set(key, entry);
    return entry.value;
  }

  /** Keeps an entry, if it is there, as if it had been asked for. */
  touch(key: string): void {
    const entry = this.#entries.get(key);
    if (entry === undefined) return;
    entry.used = this.#turn;
    this.#entries.delete(key);
    this.#entries.set(key, entry);
  }

  get size(): number {
    return this.#entries.size;
  }

  values(): V[] {
    return [...this.#entries.values()].map(({ value }) => value);
  }

  /** One calculation is over. */
  turn(): void {
    this.#turn++;
    for (const [key, { used }] of this.#entries) {
      if (this.#entries.size <= this.#least || this.#turn - used <= this.#keep) return;
      this.#entries.delete(key);
    }
  }
}
