/**
 * Rows by the names of their items. In a Map of a hundred thousand names nearly every look-up waits for memory, so that
 * finding who feeds whom took longer than solving; the few bytes that a name takes here stay in the processor's cache.
 */
export class NameIndex {
  private readonly twice = new Set<string>();
  /** A row + 1 at the place that its name's hash gives, or at the next one that was free; 0 is free. */
  private readonly slots: Int32Array;
  private readonly hashes: Int32Array;

  constructor(readonly names: readonly string[]) {
    // At least half of them stay free, so that the next free one is near; a power of two, so that a mask wraps around.
    this.slots = new Int32Array(2 ** Math.ceil(Math.log2(2 * names.length + 1)));
    this.hashes = new Int32Array(names.length);
    for (let row = 0; row < names.length; row++) {
      const name = names[row]!;
      const hash = hashOf(name);
      const slot = this.slotOf(name, hash);
      if (this.slots[slot] !== 0) this.twice.add(name);
      this.hashes[row] = hash;
      this.slots[slot] = row + 1;
    }
  }

  /** Whether some name stands in more than one row. */
  get hasTwice(): boolean {
    return this.twice.size > 0;
  }

  isTwice(name: string): boolean {
    return this.hasTwice && this.twice.has(name);
  }

  /** The last row of that name. */
  rowOf(name: string): number | undefined {
    const row = this.slots[this.slotOf(name, hashOf(name))]! - 1;
    return row < 0 ? undefined : row;
  }

  /** Where a name stands, or the free place where it would. */
  private slotOf(name: string, hash: number): number {
    const { slots, hashes, names } = this;
    const mask = slots.length - 1;
    let slot = hash & mask;
    for (;;) {
      const row = slots[slot]! - 1;
      if (row < 0 || (hashes[row] === hash && names[row] === name)) return slot;
      slot = (slot + 1) & mask;
    }
  }
}

/** FNV-1a: Fowler, Noll, Vo, "The FNV non-cryptographic hash algorithm", 32 bits, over the name's code units. */
function hashOf(name: string): number {
  let hash = 0x811c9dc5;
  for (let at = 0; at < name.length; at++) hash = Math.imul(hash ^ name.charCodeAt(at), 0x01000193);
  return hash | 0;
}
