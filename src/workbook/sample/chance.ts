/**
 * Numbers from 0 to 1 that look random and are the same each time: the multiplicative generator of Park and Miller,
 * modulus 2³¹ − 1, with its later multiplier.
 */
const MODULUS = 2_147_483_647;
const MULTIPLIER = 48_271;

export class Chance {
  private state: number;

  /** @param words two streams with different words have nothing to do with each other */
  constructor(words: string) {
    let seed = 1;
    for (const character of words) seed = (seed * 131 + character.charCodeAt(0)) % MODULUS;
    this.state = seed === 0 ? 1 : seed;
    // The first numbers of two seeds that lie near each other are near each other as well.
    for (let step = 0; step < 3; step++) this.next();
  }

  next(): number {
    this.state = (this.state * MULTIPLIER) % MODULUS;
    return this.state / MODULUS;
  }

  happens(share: number): boolean {
    return this.next() < share;
  }

  pick<Item>(items: readonly Item[]): Item {
    const item = items[Math.floor(this.next() * items.length)];
    if (item === undefined) throw new Error("There is nothing to pick from.");
    return item;
  }
}
