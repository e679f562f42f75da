import assert from "node:assert/strict";
import fc from "fast-check";
import { describe, it } from "vitest";
import {
  type DistributedRun,
  distributedDrop,
  distributedSteps,
} from "../../src/conductors/distributed-load.js";
import { ownMaterial } from "../../src/conductors/conductor-materials.js";
import { assertPrinted } from "../helpers/assert-printed.js";
import { assertSteps } from "../helpers/assert-steps.js";

/** Of which the source states the resistance per metre of the conductors that it counts. */
const run = (
  ohmsPerMetre: number,
  length: number,
  currentPerMetre: number,
  more: Partial<DistributedRun> = {},
): DistributedRun => ({
  size: { sizing: "bare metal", areaMm2: 1 },
  material: ownMaterial(ohmsPerMetre * 1e-6, 0),
  build: undefined,
  conductors: 1,
  parallel: 1,
  temperatureC: 20,
  length,
  currentPerMetre,
  ends: undefined,
  place: undefined,
  ...more,
});
const ends = (nearVoltage: number, farVoltage: number) => ({ ends: { nearVoltage, farVoltage } });

// Books' examples as a volunteer's notebooks work them (FOSSEE, Python-Textbook-Companions, commit d34b2ae7); the books
// were not seen.
describe("uniformly loaded runs as printed", () => {
  it("Theraja 40.2: 2 A/m over 200 m, 0.3 Ω/km of one wire, from one end and from both", () => {
    const one = run(0.3e-3, 200, 2);
    assertPrinted(distributedDrop(one).drop, "12");
    assertPrinted(distributedDrop({ ...one, ...ends(240, 240) }).drop, "3");
  });

  it("Mehta 13.5: 2 A/m over 200 m, 0.3 Ω/km of each wire, at 150 m and at the end", () => {
    const both = run(0.3e-3, 200, 2, { conductors: 2 });
    assertPrinted(distributedDrop({ ...both, place: 150 }).drop, "22.5");
    assertPrinted(distributedDrop(both).drop, "24");
  });

  it("Mehta 13.9: 0.75 A/m over 300 m, 0.00018 Ω/m of the loop, 250 V", () => {
    const loaded = run(0.00018, 300, 0.75);
    assertPrinted(250 - distributedDrop({ ...loaded, place: 200 }).drop, "244.6");
    assertPrinted(distributedDrop(loaded).loss, "911.25");
  });

  it("Mehta 13.15: 1 A/m over 500 m from 255 V and 250 V, 0.1 Ω/km of each wire", () => {
    const found = distributedDrop(run(0.1e-3, 500, 1, { conductors: 2, ...ends(255, 250) }));
    assertPrinted(found.voltage!, "246");
    assertPrinted(found.place, "300");
    assertPrinted(found.nearCurrent, "300");
    assertPrinted(found.farCurrent!, "200");
  });

  it("Mehta 13.16: 1.25 A/m over 800 m, 0.05 Ω/km of each wire, lowest 220 V at 450 m", () => {
    const found = distributedDrop(
      run(0.05e-3, 800, 1.25, { conductors: 2, ...ends(232.66, 227.66) }),
    );
    assertPrinted(found.voltage!, "220.0");
    assertPrinted(found.place, "450");
  });
});

const random = fc
  .record({
    resistance: fc.double({ min: 1e-5, max: 0.01, noNaN: true }),
    length: fc.double({ min: 1, max: 5000, noNaN: true }),
    currentPerMetre: fc.double({ min: 1e-3, max: 5, noNaN: true }),
    near: fc.double({ min: 24, max: 1000, noNaN: true }),
    apart: fc.double({ min: -0.2, max: 0.2, noNaN: true }),
    share: fc.double({ min: 0.01, max: 1, noNaN: true }),
    isOneEnd: fc.boolean(),
  })
  .map(({ resistance, length, currentPerMetre, near, apart, share, isOneEnd }) => ({
    ...run(resistance, length, currentPerMetre, isOneEnd ? {} : ends(near, near * (1 + apart))),
    share,
  }));

/** The same current drawn at many points: Kirchhoff's laws over a ladder, by the currents of its sections alone. */
function ladder(loaded: DistributedRun, points: number) {
  const section = (loaded.material.resistivity * 1e6 * loaded.length) / points;
  const each = (loaded.currentPerMetre * loaded.length) / points;
  /** Drop at each point and the loss, with so much from the near end. */
  const walk = (nearCurrent: number) => {
    const drops = [0];
    let drop = 0;
    let loss = 0;
    // Half of a section's current is drawn at either of its ends.
    for (let at = 0; at < points; at += 1) {
      const current = nearCurrent - each * (at + 0.5);
      drop += section * current;
      loss += section * current ** 2;
      drops.push(drop);
    }
    return { drops, loss };
  };
  const total = each * points;
  const far = walk(total).drops.at(-1)!;
  const wanted = loaded.ends ? loaded.ends.nearVoltage - loaded.ends.farVoltage : far;
  return walk(total + (wanted - far) / (section * points));
}

describe("any uniformly loaded run", () => {
  it("is what a ladder of 1 000 points tends to", () => {
    fc.assert(
      fc.property(random, (loaded) => {
        const found = distributedDrop(loaded);
        const { drops, loss } = ladder(loaded, 1000);
        const scale = loaded.material.resistivity * 1e6 * loaded.length * found.totalCurrent;
        const close = (one: number, other: number, what: string) =>
          assert.ok(
            Math.abs(one - other) <= 1e-6 * (scale + Math.abs(other)),
            `${what}: ${one}, ${other}`,
          );
        close(found.drop, Math.max(...drops), "greatest drop");
        close(found.loss, loss, "loss");
        const at = Math.round(1000 * loaded.share) || 1;
        close(
          distributedDrop({ ...loaded, place: (loaded.length * at) / 1000 }).drop,
          drops[at]!,
          "drop at a place",
        );
      }),
    );
  });

  it("drops a quarter as much from both ends as from one", () => {
    fc.assert(
      fc.property(random, (loaded) => {
        const one = distributedDrop({ ...loaded, ends: undefined }).drop;
        const both = distributedDrop({ ...loaded, ...ends(400, 400) }).drop;
        assert.ok(Math.abs(both / one - 0.25) <= 1e-12);
      }),
    );
  });

  it("has steps that give its numbers", () => {
    fc.assert(
      fc.property(random, fc.boolean(), ({ share, ...loaded }, isAsked) => {
        const asked = { ...loaded, place: isAsked ? loaded.length * share : undefined };
        const { loop, ...found } = distributedDrop(asked);
        assertSteps(distributedSteps(asked), {
          ...asked,
          ...asked.ends,
          resistance: loop.resistance,
          ...found,
        });
      }),
    );
  });
});

describe("current into an end", () => {
  it("is told, and the lowest voltage is then at that end", () => {
    const into = (near: number, far: number) =>
      distributedDrop(run(1e-3, 100, 0.1, ends(near, far)));
    const nearer = into(100, 104);
    assert.equal(nearer.place, 0);
    assert.equal(nearer.drop, 0);
    assert.match(nearer.caveats.at(-1)!.text, /into the near end/);
    const farther = into(104, 100);
    assert.equal(farther.place, 100);
    assert.ok(Math.abs(farther.voltage! - 100) <= 1e-9);
    assert.match(farther.caveats.at(-1)!.text, /into the far end/);
    assert.ok(into(100, 100.4).caveats.every(({ code }) => code !== "current-into-end"));
  });
});
