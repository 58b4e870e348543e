/** Numbers from 0 in a sorted order that holds of each from when it is put in; of equals, those put in last come first. */
export class InSortedOrder {
  size = 0;
  private readonly items: Int32Array;

  /** @param compare below 0 where the first comes before the second */
  constructor(
    most: number,
    private readonly compare: (one: number, two: number) => number,
  ) {
    this.items = new Int32Array(most);
  }

  at(place: number): number {
    return this.items[place]!;
  }

  add(item: number): void {
    let [from, to] = [0, this.size];
    while (from < to) {
      const middle = (from + to) >>> 1;
      if (this.compare(this.items[middle]!, item) < 0) from = middle + 1;
      else to = middle;
    }
    this.items.copyWithin(from + 1, from, this.size++);
    this.items[from] = item;
  }
}
