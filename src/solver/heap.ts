/** A binary heap: `pop` gives the item that `before` puts first. */
export class Heap<T> {
  private readonly items: T[] = [];

  constructor(private readonly before: (a: T, b: T) => boolean) {}

  get size(): number {
    return this.items.length;
  }

  peek(): T | undefined {
    return this.items[0];
  }

  /** Every item, in no order. */
  all(): readonly T[] {
    return this.items;
  }

  push(item: T): void {
    const { items } = this;
    let at = items.length;
    items.push(item);
    while (at > 0) {
      const up = (at - 1) >> 1;
      if (!this.before(item, items[up]!)) break;
      items[at] = items[up]!;
      at = up;
    }
    items[at] = item;
  }

  pop(): T | undefined {
    const { items } = this;
    const first = items[0];
    const last = items.pop();
    if (last === undefined || items.length === 0) return first;
    let at = 0;
    for (;;) {
      let down = 2 * at + 1;
      if (down >= items.length) break;
      if (down + 1 < items.length && this.before(items[down + 1]!, items[down]!)) down++;
      if (!this.before(items[down]!, last)) break;
      items[at] = items[down]!;
      at = down;
    }
    items[at] = last;
    return first;
  }
}
