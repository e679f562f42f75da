import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { operatingPoint } from "../../src/network/operating-point.js";
import { NameIndex } from "../../src/network/name-index.js";
import { feedItem, requireSolved } from "../helpers/feed.js";

// Pairs of words that one 32-bit FNV-1a hash stands for: I. Boyd, "Which hashing algorithm is best for uniqueness and
// speed?", softwareengineering.stackexchange.com 49550, from memory.
const SAME_HASH = [
  ["costarring", "liquid"],
  ["declinate", "macallums"],
  ["altarage", "zinke"],
] as const;

describe("rows by name", () => {
  it("are those of a Map, names that stand in several rows and names of no row too", () => {
    // Few letters, so that names often meet.
    const name = fc.string({ unit: fc.constantFrom("a", "b", "é", "1", " "), maxLength: 3 });
    fc.assert(
      fc.property(fc.array(name, { maxLength: 60 }), fc.array(name), (names, others) => {
        const index = new NameIndex(names);
        const rows = new Map(names.map((one, row) => [one, row]));
        const isTwice = (one: string) => names.indexOf(one) !== names.lastIndexOf(one);
        expect(index.hasTwice).toBe(rows.size < names.length);
        for (const one of [...names, ...others]) {
          expect(index.rowOf(one)).toBe(rows.get(one));
          expect(index.isTwice(one)).toBe(isTwice(one));
        }
      }),
    );
  });

  it.each(SAME_HASH)("tells %s from %s, whose hashes are equal", (one, other) => {
    const index = new NameIndex([one, other]);
    expect([index.rowOf(one), index.rowOf(other), index.hasTwice]).toEqual([0, 1, false]);
    expect(new NameIndex([one]).rowOf(other)).toBeUndefined();
  });

  it("feed each load from the run it names, where two runs' names have one hash", () => {
    const runs = SAME_HASH.flat();
    const { rows } = operatingPoint([
      feedItem("Bus", undefined, "supply", { voltage: 100 }),
      ...runs.map((run, at) => feedItem(run, "Bus", "run", { resistance: at + 1 })),
      ...runs.map((run) => feedItem(`Lamp on ${run}`, run, "current load", { load: 2 })),
    ]);
    // Ohm: 100 V less 2 A through the run's own resistance.
    runs.forEach((_, at) => {
      const lamp = requireSolved(rows[1 + runs.length + at]);
      expect(lamp.inputVoltage).toBeCloseTo(100 - 2 * (at + 1), 12);
    });
  });
});
