import assert from "node:assert/strict";
import fc from "fast-check";
import { describe, it } from "vitest";
import { type ParallelConverters, parallelShare } from "../../src/parallel/parallel-share.js";
import { NGSPICE_OPTIONS, operatingPoint } from "../helpers/ngspice.js";
import { ALIKE, shareCases } from "./share-cases.js";

/** Each unit a voltage source and a resistor; behind an ideal diode, a current source that does not go below 0. */
function netlistOf(parallel: ParallelConverters): string {
  const { setVoltages, resistances, load, loadKind, reverseFlow } = parallel;
  const converters = setVoltages.flatMap((volts, index) => {
    const ohms = resistances[index] ?? 0;
    return reverseFlow === "allowed"
      ? [`v${index} u${index} 0 ${volts}`, `r${index} u${index} bus ${ohms}`]
      : [`b${index} 0 u${index} i=max(0,(${volts}-v(bus))/${ohms})`, `v${index} bus u${index} 0`];
  });
  const loads = {
    current: `iload bus 0 ${load}`,
    power: `bload bus 0 i=${load}/v(bus)`,
    resistance: `rload bus 0 ${load}`,
  };
  // Above the lowest set voltage a blocked unit has no slope, and ngspice may slide past to the lower root.
  const start = 0.95 * Math.min(...setVoltages);
  return [NGSPICE_OPTIONS, ...converters, loads[loadKind], `.nodeset v(bus)=${start}`].join("\n");
}

async function assertAgrees(parallel: ParallelConverters): Promise<void> {
  const share = parallelShare(parallel);
  const other = await operatingPoint(netlistOf(parallel));
  const bus = other["v(bus)"] ?? Number.NaN;
  assert.ok(
    Math.abs(share.busVoltage - bus) <= 1e-6 * bus,
    `${share.busVoltage} V, ngspice ${bus} V`,
  );
  // A positive current of a voltage source flows into its positive terminal.
  share.converters.forEach(({ current }, index) => {
    const theirs = -(other[`i(v${index})`] ?? Number.NaN);
    assert.ok(
      Math.abs(current - theirs) <= 1e-6 * share.loadCurrent,
      `unit ${index + 1}: ${current} A, ngspice ${theirs} A`,
    );
  });
}

describe("parallelShare against ngspice", () => {
  for (const reverseFlow of ["allowed", "blocked"] as const)
    for (const loadKind of ["current", "power", "resistance"] as const)
      it(`agrees to 1e-6 over 20 random cases: ${loadKind} load, reverse flow ${reverseFlow}`, async () => {
        const cases = fc.sample(shareCases(ALIKE, 0.75), {
          numRuns: 200,
          seed: 20,
        });
        const wanted = cases
          .filter((drawn) => drawn.loadKind === loadKind && drawn.reverseFlow === reverseFlow)
          .slice(0, 20);
        assert.equal(wanted.length, 20);
        for (const parallel of wanted) await assertAgrees(parallel);
      });

  it("agrees that a unit takes nothing, not a negative current, behind an ideal diode", async () => {
    await assertAgrees({
      setVoltages: [127, 120, 119],
      resistances: [0.1, 0.1, 0.1],
      load: 2,
      loadKind: "resistance",
      reverseFlow: "blocked",
    });
  });
});
