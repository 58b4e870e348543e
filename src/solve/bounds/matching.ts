/**
 * A largest set of pairs of neighbours in a graph, no vertex in two pairs (Edmonds 1965). Vertices can be switched off;
 * the pairs of the last call are the start of the next, so that a call after a small change is cheap.
 */
export class Matching {
  /** The partner of each vertex, or -1; may be exchanged for the partners of an earlier call. */
  partner: Int32Array;
  /** 0 for vertices that are switched off; set by the caller. */
  readonly present: Uint8Array;
  /** Vertices of searches that failed: no later search can gain by them while the pairs stay. */
  private readonly settled: Uint8Array;
  private readonly parent: Int32Array;
  /** The vertex that stands for the blossom a vertex is in. */
  private readonly base: Int32Array;
  private readonly reached: Uint8Array;
  private readonly marked: Uint8Array;
  private readonly queue: Int32Array;
  private queueEnd = 0;
  private readonly singles: Int32Array;
  private singleCount = 0;

  constructor(private readonly neighbours: readonly Int32Array[]) {
    const size = neighbours.length;
    this.partner = new Int32Array(size).fill(-1);
    this.present = new Uint8Array(size).fill(1);
    this.settled = new Uint8Array(size);
    this.parent = new Int32Array(size);
    this.base = new Int32Array(size);
    this.reached = new Uint8Array(size);
    this.marked = new Uint8Array(size);
    this.queue = new Int32Array(size);
    this.singles = new Int32Array(size);
  }

  /** Whether the vertices present can be covered by at most `most` pairs and single vertices. */
  coversWith(most: number): boolean {
    return this.fewestParts(most, most) <= most;
  }

  /**
   * The fewest pairs and single vertices that cover the vertices present. Stops early at `enough` or fewer, and when
   * more than `tooMany` must be left.
   */
  fewestParts(enough = 0, tooMany = Number.POSITIVE_INFINITY): number {
    let parts = this.dropAbsent() + this.singleCount;
    this.settled.fill(0);
    for (let at = 0; at < this.singleCount && parts > enough; at++) {
      // Each path found takes two of the single vertices.
      if (parts - Math.floor((this.singleCount - at) / 2) > tooMany) break;
      const vertex = this.singles[at]!;
      if (this.partner[vertex] === -1 && this.augment(vertex)) parts--;
    }
    return parts;
  }

  /** Separates pairs with an absent vertex and lists the single ones; gives the number of pairs. */
  private dropAbsent(): number {
    const { partner, present } = this;
    let paired = 0;
    this.singleCount = 0;
    for (let vertex = 0; vertex < partner.length; vertex++) {
      if (present[vertex] === 0) {
        partner[vertex] = -1;
        continue;
      }
      if (partner[vertex]! >= 0 && present[partner[vertex]!] === 0) partner[vertex] = -1;
      if (partner[vertex]! >= 0) paired++;
      else this.singles[this.singleCount++] = vertex;
    }
    return paired / 2;
  }

  /** Looks for an alternating path from a single vertex to another one and turns it round. */
  private augment(root: number): boolean {
    const { partner, parent, base, reached, present, settled } = this;
    parent.fill(-1);
    reached.fill(0);
    for (let vertex = 0; vertex < base.length; vertex++) base[vertex] = vertex;
    reached[root] = 1;
    this.queue[0] = root;
    this.queueEnd = 1;
    for (let at = 0; at < this.queueEnd; at++) {
      const from = this.queue[at]!;
      for (const to of this.neighbours[from]!) {
        if (present[to] === 0 || settled[to] === 1 || base[from] === base[to] || partner[from] === to)
          continue;
        const other = partner[to]!;
        if (to === root || (other >= 0 && parent[other]! >= 0)) {
          this.contract(from, to);
        } else if (parent[to] === -1) {
          parent[to] = from;
          if (other === -1) {
            this.turnRound(to);
            return true;
          }
          this.reach(other);
        }
      }
    }
    for (let vertex = 0; vertex < parent.length; vertex++) {
      if (reached[vertex] === 1 || parent[vertex]! >= 0) settled[vertex] = 1;
    }
    return false;
  }

  private reach(vertex: number): void {
    if (this.reached[vertex] === 1) return;
    this.reached[vertex] = 1;
    this.queue[this.queueEnd++] = vertex;
  }

  /** The edge closes an odd cycle: all its vertices stand for one from now on. */
  private contract(one: number, two: number): void {
    const base = this.commonBase(one, two);
    this.marked.fill(0);
    this.markPath(one, base, two);
    this.markPath(two, base, one);
    for (let vertex = 0; vertex < this.base.length; vertex++) {
      if (this.marked[this.base[vertex]!] === 0) continue;
      this.base[vertex] = base;
      this.reach(vertex);
    }
  }

  private commonBase(one: number, two: number): number {
    const { base, partner, parent, marked } = this;
    marked.fill(0);
    for (let vertex = base[one]!; ; vertex = base[parent[partner[vertex]!]!]!) {
      marked[vertex] = 1;
      if (partner[vertex] === -1) break;
    }
    let vertex = base[two]!;
    while (marked[vertex] === 0) vertex = base[parent[partner[vertex]!]!]!;
    return vertex;
  }

  private markPath(start: number, base: number, child: number): void {
    const { partner, parent, marked } = this;
    let [vertex, below] = [start, child];
    while (this.base[vertex] !== base) {
      const other = partner[vertex]!;
      marked[this.base[vertex]!] = 1;
      marked[this.base[other]!] = 1;
      parent[vertex] = below;
      below = other;
      vertex = parent[other]!;
    }
  }

  private turnRound(end: number): void {
    for (let vertex = end; vertex !== -1; ) {
      const before = this.parent[vertex]!;
      const next = this.partner[before]!;
      this.partner[vertex] = before;
      this.partner[before] = vertex;
      vertex = next;
    }
  }
}
