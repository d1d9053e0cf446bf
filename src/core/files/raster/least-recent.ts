/** Keeps what was used last; what was used least recently goes first when the budget is spent. */
export class LeastRecent<Item extends { readonly byteLength: number }> {
  readonly #items = new Map<string, Item>();
  #bytes = 0;

  constructor(readonly budgetBytes: number) {}

  get(key: string): Item | null {
    const item = this.#items.get(key);
    if (item === undefined) return null;
    this.#items.delete(key);
    this.#items.set(key, item); // a Map keeps the order of insertion: the last is the freshest
    return item;
  }

  /** Keeps the item, even one larger than the budget until the next comes. */
  set(key: string, item: Item): void {
    this.#drop(key);
    this.#items.set(key, item);
    this.#bytes += item.byteLength;
    for (const oldest of this.#items.keys()) {
      if (this.#bytes <= this.budgetBytes || oldest === key) break;
      this.#drop(oldest);
    }
  }

  #drop(key: string): void {
    const item = this.#items.get(key);
    if (item === undefined) return;
    this.#items.delete(key);
    this.#bytes -= item.byteLength;
  }
}
