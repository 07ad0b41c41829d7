/** Draws that are the same for the same seed. */

/** Numbers that look random and are the same for the same seed. Mulberry32, public domain. */
export class Draw {
  private state: number;

  constructor(seed: number) {
    this.state = seed | 0;
  }

  next(): number {
    this.state = (this.state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(this.state ^ (this.state >>> 15), 1 | this.state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  }

  whole(least: number, most: number): number {
    return least + Math.floor(this.next() * (most - least + 1));
  }

  chance(share: number): boolean {
    return this.next() < share;
  }

  of<Item>(items: readonly Item[]): Item {
    const found = items[Math.floor(this.next() * items.length)];
    if (found === undefined) throw new Error("Nothing to draw from.");
    return found;
  }
}
