import assert from "node:assert/strict";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  parallelShareGivens,
  parallelShareSteps,
  parallelShareValues,
} from "../../src/parallel/parallel-share-steps.js";
import { type ParallelConverters, parallelShare } from "../../src/parallel/parallel-share.js";
import { InputError, NoAnswerError } from "../../src/quantities/errors.js";
import { fieldsOf } from "../../src/quantities/formulas.js";
import { assertPrinted } from "../helpers/assert-printed.js";
import { assertSteps } from "../helpers/assert-steps.js";
import kosow from "../reference/kosow_7_3.json" with { type: "json" };
import spare from "../reference/n_plus_1_droop.json" with { type: "json" };
import robertson from "../reference/robertson_2_9.json" with { type: "json" };
import verma from "../reference/verma_2_1.json" with { type: "json" };
import { ALIKE, UNLIKE, currentTolerance, shareCases } from "./share-cases.js";

interface Case {
  readonly network: {
    readonly sources: readonly { readonly V: number; readonly R_ohm: number }[];
    readonly loads: readonly {
      readonly I_A?: number;
      readonly R_ohm?: number;
    }[];
  };
}

function convertersOf(
  { network: { sources, loads } }: Case,
  reverseFlow: "blocked" | "allowed",
): ParallelConverters {
  const [load] = loads;
  return {
    setVoltages: sources.map(({ V }) => V),
    resistances: sources.map(({ R_ohm }) => R_ohm),
    load: load?.I_A ?? load?.R_ohm ?? Number.NaN,
    loadKind: load?.I_A === undefined ? "resistance" : "current",
    reverseFlow,
  };
}

function assertCurrents(parallel: ParallelConverters, printed: readonly string[]): void {
  const { converters } = parallelShare(parallel);
  assert.equal(converters.length, printed.length);
  converters.forEach(({ current }, index) => assertPrinted(current, printed[index] ?? ""));
}

// I. L. Kosow, Electric Machinery and Transformers, example 7-3: as computed in a public companion notebook
// (github.com/FOSSEE/Python-Textbook-Companions, commit d34b2ae7, seen; the page not seen).
describe("parallelShare against Kosow 7-3: 127, 120 and 119 V behind 0.1 Ω each on 2 Ω", () => {
  it("gives 70, 0 and −10 A at 120 V where reverse flow is allowed", () => {
    const parallel = convertersOf(kosow, "allowed");
    assertPrinted(parallelShare(parallel).busVoltage, "120.0");
    assertPrinted(parallelShare(parallel).loadCurrent, "60.0");
    assertCurrents(parallel, ["70.0", "0.0", "-10.0"]);
  });

  it("names the unit that is fed backwards", () => {
    const { caveats } = parallelShare(convertersOf(kosow, "allowed"));
    assert.ok(caveats.some(({ text }) => text === "unit 3 is fed backwards with 10 A"));
  });

  // By hand: only the 127 V unit is above the bus, 127 V · 2/2.1 = 120.952 V, 127 V / 2.1 Ω = 60.476 A.
  it("gives 0 to the −10 A unit, and all the load to the highest, where it is blocked", () => {
    const parallel = convertersOf(kosow, "blocked");
    assertPrinted(parallelShare(parallel).busVoltage, "120.952");
    assertCurrents(parallel, ["60.476", "0", "0"]);
    assert.equal(parallelShare(parallel).converters[2]?.current, 0);
  });

  // By hand: (127 − V)/0.1 + (120 − V)/0.1 = 100 gives V = 118.5 without the third unit, below its 119 V; with it
  // 366 − 3V = 10, V = 118.667 V: 83.333, 13.333 and 3.333 A.
  it("brings every unit in at a load of 100 A", () => {
    const parallel = {
      ...convertersOf(kosow, "blocked"),
      load: 100,
      loadKind: "current",
    } as const;
    assertCurrents(parallel, ["83.333", "13.333", "3.333"]);
  });
});

// M. Verma and V. Ahuja, Electrical Machines I, example 2.1: as computed in the same companion (seen; the page not seen).
describe("parallelShare against Verma and Ahuja 2.1: droops of 6 % and 4 %, 250 A", () => {
  for (const reverseFlow of ["blocked", "allowed"] as const)
    it(`gives 62.5 and 187.5 A at 481.25 V, reverse flow ${reverseFlow}`, () => {
      const parallel = convertersOf(verma, reverseFlow);
      assertPrinted(parallelShare(parallel).busVoltage, "481.25");
      assertCurrents(parallel, ["62.5", "187.5"]);
    });
});

// C. R. Robertson, Fundamental Electrical and Electronic Principles, example 2.9: the same companion (seen).
describe("parallelShare against Robertson 2.9: 10 V behind 3 Ω and 4 V behind 2 Ω on 10 Ω", () => {
  it("gives 1.429 and −0.857 A at 5.71 V where reverse flow is allowed", () => {
    const parallel = convertersOf(robertson, "allowed");
    assertPrinted(parallelShare(parallel).busVoltage, "5.71");
    assertPrinted(parallelShare(parallel).loadCurrent, "0.571");
    assertCurrents(parallel, ["1.429", "-0.857"]);
  });

  // By hand: 10 V · 10/13.
  it("gives 0.769 and 0 A at 7.692 V where it is blocked", () => {
    const parallel = convertersOf(robertson, "blocked");
    assertPrinted(parallelShare(parallel).busVoltage, "7.692");
    assertCurrents(parallel, ["0.769", "0"]);
  });
});

// Own numbers, solved as a linear circuit in Python.
describe("parallelShare of three units and a spare", () => {
  const parallel: ParallelConverters = {
    setVoltages: spare.inputs.V0,
    resistances: spare.inputs.Rd_ohm,
    load: spare.inputs.I_load_A,
    loadKind: "current",
    reverseFlow: "blocked",
  };
  it("gives the circuit's currents with all four and with the best lost", () => {
    const lost = {
      ...parallel,
      setVoltages: parallel.setVoltages.slice(0, 3),
      resistances: parallel.resistances.slice(0, 3),
    };
    for (const [given, expected, volts] of [
      [parallel, spare.expected.I_4, spare.expected.V_bus_4],
      [lost, spare.expected.I_3, spare.expected.V_bus_3],
    ] as const) {
      const { converters, busVoltage } = parallelShare(given);
      assert.ok(Math.abs(busVoltage - volts) < 1e-11);
      converters.forEach(({ current }, index) =>
        assert.ok(Math.abs(current - (expected[index] ?? 0)) < 1e-9),
      );
    }
  });
});

// By hand: V² − V₀V + RP = 0. A unit of 100 V behind 10 Ω gives 250 W at most, at 50 V; one of 50 V behind 0.01 Ω helps
// below 50 V only, so V·ΣI(V) has two peaks.
describe("parallelShare at constant power", () => {
  const two = (load: number): ParallelConverters => ({
    setVoltages: [50, 100],
    resistances: [0.01, 10],
    load,
    loadKind: "power",
    reverseFlow: "blocked",
  });

  it("is at the upper root: 400 V behind 4 Ω carries 5 kW at 341.421356 V", () => {
    const { busVoltage } = parallelShare({
      ...two(5000),
      setVoltages: [400],
      resistances: [4],
    });
    assertPrinted(busVoltage, "341.421356");
  });

  it("is on the upper peak as long as that carries the load: 240 W at 60 V", () => {
    assertPrinted(parallelShare(two(240)).busVoltage, "60.000000000");
    assert.equal(parallelShare(two(250)).busVoltage, 50);
  });

  it("falls to the next unit where it does not: 260 W just below 50 V", () => {
    const { busVoltage, converters } = parallelShare(two(260));
    assert.ok(busVoltage < 50 && busVoltage > 49.99);
    assert.ok(converters.every(({ current }) => current > 0));
  });

  // By hand: together (50/0.01 + 100/10)² / (4 · (100 + 0.1)) = 5010²/400.4 = 62 687.56 W, on the lower peak.
  it("measures a refusal against the greater of the peaks", () => {
    assert.throws(() => parallelShare(two(62_700)), /62700 W is 12\.44 W more than the 62690 W/);
    assert.ok(parallelShare(two(62_687)).busVoltage > 25);
  });

  it("is refused beyond the most that the units can deliver, saying by how much", () => {
    const one = { ...two(10_001), setVoltages: [400], resistances: [4] };
    assert.throws(
      () => parallelShare(one),
      new NoAnswerError(
        "load",
        "no operating point, the bus collapses: a load of 10001 W is 1 W more than the 10000 W that the units can deliver",
      ),
    );
    assert.equal(parallelShare({ ...one, load: 10_000 }).busVoltage, 200);
  });
});

describe("parallelShare of a current that no bus voltage is left for", () => {
  it("is refused, saying by how much", () => {
    const parallel: ParallelConverters = {
      setVoltages: [48, 50],
      resistances: [0.5, 1],
      load: 150,
      loadKind: "current",
      reverseFlow: "blocked",
    };
    assert.throws(
      () => parallelShare(parallel),
      new NoAnswerError(
        "load",
        "no operating point: a load of 150 A is 4 A more than the 146 A that the units drive into a short circuit",
      ),
    );
    assert.throws(() => parallelShare({ ...parallel, load: 146 }), /146 A is 0 A more/);
    assert.ok(parallelShare({ ...parallel, load: 145.9 }).busVoltage > 0);
  });
});

describe("parallelShare without a load", () => {
  const idle: ParallelConverters = {
    setVoltages: [12, 10],
    resistances: [1, 3],
    load: 0,
    loadKind: "current",
    reverseFlow: "allowed",
  };

  // By hand: 2 V across 4 Ω.
  it("has half an ampere circulate between 12 V behind 1 Ω and 10 V behind 3 Ω", () => {
    for (const loadKind of ["current", "power"] as const) {
      const { converters, busVoltage } = parallelShare({ ...idle, loadKind });
      assertPrinted(busVoltage, "11.500000000");
      assertPrinted(converters[0]?.current ?? 0, "0.500000000");
      assertPrinted(converters[1]?.current ?? 0, "-0.500000000");
      assert.ok(converters.every(({ share }) => share === undefined));
    }
  });

  it("rests at the highest set voltage where reverse flow is blocked", () => {
    const blocked = parallelShare({ ...idle, reverseFlow: "blocked" });
    assert.equal(blocked.busVoltage, 12);
    assert.deepEqual(
      blocked.converters.map(({ current }) => current),
      [0, 0],
    );
  });

  it("is refused as a resistance of 0 Ω", () => {
    assert.throws(
      () => parallelShare({ ...idle, loadKind: "resistance" }),
      new InputError("load", 0, "above 0"),
    );
  });
});

describe("parallelShare over random units", () => {
  for (const [name, spread] of Object.entries({ ALIKE, UNLIKE })) {
    const cases = shareCases(spread, 0.999);

    it(`balances, ${name}: the currents are the load's, shares make one, the record carries what is left over`, () => {
      fc.assert(
        fc.property(cases, (parallel) => {
          const share = parallelShare(parallel);
          const tolerance = currentTolerance(parallel);
          const sum = share.converters.reduce((all, { current }) => all + current, 0);
          assert.ok(Math.abs(sum - loadCurrentOf(parallel, share.busVoltage)) <= tolerance);
          assert.ok(Math.abs(share.residual) <= tolerance);
          const shares = share.converters.reduce((all, unit) => all + (unit.share ?? 0), 0);
          assert.ok(Math.abs(shares - 1) <= 1e-9);
        }),
      );
    });

    // Together with the balance this is all that ideal diodes say.
    it(`lets a unit carry only by its own voltage, ${name}: none runs backwards, an idle one is not above the bus`, () => {
      fc.assert(
        fc.property(cases, (drawn) => {
          const parallel = { ...drawn, reverseFlow: "blocked" } as const;
          const { converters, busVoltage } = parallelShare(parallel);
          converters.forEach(({ current }, index) => {
            const volts = parallel.setVoltages[index] ?? 0;
            const drop = current * (parallel.resistances[index] ?? 0);
            assert.ok(current >= 0);
            if (current === 0) assert.ok(volts <= busVoltage);
            else assert.ok(Math.abs(volts - drop - busVoltage) <= 1e-12 * volts);
          });
        }),
      );
    });

    it(`finds the highest voltage at which the power balances, ${name}`, () => {
      fc.assert(
        fc.property(cases, (drawn) => {
          const parallel = { ...drawn, loadKind: "power" } as const;
          const load = sureWatts(parallel, 0.7);
          const { busVoltage } = parallelShare({ ...parallel, load });
          for (const volts of above(busVoltage, parallel))
            assert.ok(volts * convertersCurrent(parallel, volts) < load * (1 + 1e-9));
        }),
      );
    });

    it(`refuses a power only where no bus voltage would do, ${name}`, () => {
      const times = fc.double({ min: 0.5, max: 30, noNaN: true });
      fc.assert(
        fc.property(cases, times, (drawn, part) => {
          const load = sureWatts(drawn, part);
          const parallel = { ...drawn, loadKind: "power", load } as const;
          try {
            parallelShare(parallel);
          } catch (error) {
            assert.ok(error instanceof NoAnswerError);
            for (const volts of above(0, parallel))
              assert.ok(volts * convertersCurrent(parallel, volts) < load);
          }
        }),
      );
    });
  }

  const cases = shareCases(UNLIKE, 0.999);

  it("does not depend on the order of the units", () => {
    fc.assert(
      fc.property(cases, (parallel) => {
        const turned = {
          ...parallel,
          setVoltages: [...parallel.setVoltages].reverse(),
          resistances: [...parallel.resistances].reverse(),
        };
        const share = parallelShare(parallel);
        const other = parallelShare(turned);
        const near = 1e-12 * share.busVoltage;
        assert.ok(Math.abs(share.busVoltage - other.busVoltage) <= near);
      }),
    );
  });

  it("keeps the bus where a unit is split into two of twice its resistance", () => {
    fc.assert(
      fc.property(cases, (parallel) => {
        const [volts = 0, ...otherVolts] = parallel.setVoltages;
        const [ohms = 0, ...otherOhms] = parallel.resistances;
        const split = {
          ...parallel,
          setVoltages: [volts, volts, ...otherVolts],
          resistances: [2 * ohms, 2 * ohms, ...otherOhms],
        };
        const share = parallelShare(parallel);
        const near = 1e-11 * share.busVoltage;
        assert.ok(Math.abs(parallelShare(split).busVoltage - share.busVoltage) <= near);
      }),
    );
  });

  it("holds the bus at least as high with reverse flow blocked as with it allowed", () => {
    fc.assert(
      fc.property(cases, (parallel) => {
        const blocked = parallelShare({ ...parallel, reverseFlow: "blocked" });
        const allowed = parallelShare({ ...parallel, reverseFlow: "allowed" });
        assert.ok(blocked.busVoltage >= allowed.busVoltage * (1 - 1e-12));
      }),
    );
  });

  it("sinks as the current grows, and the blocked units never carry more than the load", () => {
    fc.assert(
      fc.property(cases, fc.double({ min: 0.01, max: 0.99, noNaN: true }), (drawn, part) => {
        const parallel = {
          ...drawn,
          loadKind: "current",
          reverseFlow: "blocked",
        } as const;
        const load = convertersCurrent(parallel, 0) * 0.99;
        const full = parallelShare({ ...parallel, load });
        const lighter = parallelShare({ ...parallel, load: load * part });
        assert.ok(lighter.busVoltage > full.busVoltage);
        const most = load + currentTolerance(parallel);
        assert.ok(full.converters.every(({ current }) => current <= most));
      }),
    );
  });

  // By superposition: the worst of n units of one resistance, at V(1 + t) among others at V(1 − t), carries
  // I/n + 2tV(n − 1)/(nR).
  it("gives the worst-placed unit the load of superposition", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 2, max: 100 }),
        fc.double({ min: 0, max: 0.05, noNaN: true }),
        (count, mismatch) => {
          const volts = 48;
          const ohms = 0.02;
          const load = 20 * count;
          const { converters } = parallelShare({
            setVoltages: Array.from(
              { length: count },
              (_, index) => volts * (1 + (index === 0 ? mismatch : -mismatch)),
            ),
            resistances: Array.from({ length: count }, () => ohms),
            load,
            loadKind: "current",
            reverseFlow: "allowed",
          });
          const worst = load / count + (2 * mismatch * volts * (count - 1)) / (count * ohms);
          assert.ok(Math.abs((converters[0]?.current ?? 0) - worst) <= 1e-9 * worst);
        },
      ),
    );
  });

  for (const count of [64, 1000])
    it(`shares alike between ${count} alike`, () => {
      const { converters, caveats } = parallelShare({
        setVoltages: Array.from({ length: count }, () => 54),
        resistances: Array.from({ length: count }, () => 0.01),
        load: 10 * count,
        loadKind: "current",
        reverseFlow: "blocked",
      });
      for (const { share } of converters) assert.ok(Math.abs((share ?? 0) - 1 / count) <= 1e-12);
      assert.deepEqual(caveats, []);
    });
});

// A second opinion that shares nothing with the closed forms: halving, from the highest voltage down.
describe("parallelShare against bisection", () => {
  it("agrees at constant power to 1e-9 of the bus voltage", () => {
    for (const drawn of fc.sample(shareCases(ALIKE, 0.95), {
      numRuns: 200,
      seed: 4711,
    })) {
      const parallel = { ...drawn, loadKind: "power" } as const;
      const load = sureWatts(parallel, 0.7);
      const { busVoltage } = parallelShare({ ...parallel, load });
      const other = bisected(parallel, load);
      assert.ok(Math.abs(busVoltage - other) <= 1e-9 * other);
    }
  });
});

describe("resistances that leave no digits of the currents", () => {
  const at = (resistance: number, load = 10): ParallelConverters => ({
    setVoltages: [12, 12],
    resistances: [resistance, resistance],
    load,
    loadKind: "current",
    reverseFlow: "blocked",
  });

  // 10 A through 0.5e-12 Ω are 5e-12 V beside 12 V, of which a double keeps 1.8e-15 V: three digits of the current.
  it("are refused, by how much", () => {
    assert.throws(
      () => parallelShare(at(1e-12)),
      (error) =>
        error instanceof NoAnswerError &&
        error.field === "resistances" &&
        /currents to be told: added up they are 0\.00\d+ A off/.test(error.message),
    );
  });

  it("are taken from 1 nΩ on, and with a load that is small beside what circulates", () => {
    assert.ok(Math.abs(parallelShare(at(1e-8)).totalCurrent / 10 - 1) < 1e-6);
    const circulating = {
      ...at(0.01, 1e-12),
      setVoltages: [12.1, 12],
      reverseFlow: "allowed" as const,
    };
    expect(parallelShare(circulating).converters[0]?.current).toBeCloseTo(5, 9);
  });
});

describe("the working of a share", () => {
  it("is followed by another engine, and names only what it has", () => {
    fc.assert(
      fc.property(shareCases(ALIKE, 0.9), (parallel) => {
        const share = parallelShare(parallel);
        const values = parallelShareValues(parallel, share);
        const steps = parallelShareSteps(parallel);
        // A residual in A: relative to the currents that it is the difference of.
        assertSteps(steps, values);
        const known = new Set(Object.keys(parallelShareGivens(parallel)));
        for (const [field, step] of Object.entries(steps)) {
          known.add(field);
          assert.ok(field in values, field);
          const text =
            step.kind === "formula" ? step.formula : step.kind === "solved" ? step.residual : "";
          for (const name of fieldsOf(text)) assert.ok(known.has(name), name);
        }
      }),
      { numRuns: 50 },
    );
  });

  it("catches a bus voltage that is not the answer", () => {
    const parallel = convertersOf(verma, "blocked");
    const values = parallelShareValues(parallel, parallelShare(parallel));
    assert.throws(() => assertSteps(parallelShareSteps(parallel), { ...values, busVoltage: 481 }));
  });
});

describe("parallelShare refuses", () => {
  const converters = convertersOf(verma, "blocked");
  const refused: readonly (readonly [Partial<ParallelConverters>, InputError])[] = [
    [
      { setVoltages: [], resistances: [] },
      new InputError("setVoltages", 0, "a list of one or more voltages"),
    ],
    [
      { resistances: [1] },
      new InputError("resistances", "1 of them", "as many as the set voltages, 2"),
    ],
    [{ setVoltages: [500, -1] }, new InputError("setVoltages", -1, "above 0 (unit 2)")],
    [{ resistances: [0, 1] }, new InputError("resistances", 0, "above 0 (unit 1)")],
    [{ resistances: [1, Infinity] }, new InputError("resistances", Infinity, "above 0 (unit 2)")],
    [{ load: -1 }, new InputError("load", -1, "0 or more")],
    [{ load: Number.NaN }, new InputError("load", Number.NaN, "0 or more")],
  ];
  for (const [change, error] of refused)
    it(error.message, () => {
      assert.throws(() => parallelShare({ ...converters, ...change }), error);
    });
});

function loadCurrentOf({ load, loadKind }: ParallelConverters, volts: number): number {
  if (loadKind === "current") return load;
  return loadKind === "power" ? load / volts : volts / load;
}

/** What the units deliver at a bus voltage, from what they are. */
function convertersCurrent(parallel: ParallelConverters, volts: number): number {
  return parallel.setVoltages.reduce((sum, set, index) => {
    const current = (set - volts) / (parallel.resistances[index] ?? 0);
    return sum + (parallel.reverseFlow === "blocked" && current < 0 ? 0 : current);
  }, 0);
}

/** Times the V²/4R of all units as one at the lowest of their set voltages. */
function sureWatts(parallel: ParallelConverters, times: number): number {
  const lowest = Math.min(...parallel.setVoltages);
  const conductance = parallel.resistances.reduce((sum, ohms) => sum + 1 / ohms, 0);
  return (times * lowest ** 2 * conductance) / 4;
}

/** Voltages between one and the highest set voltage. */
function above(volts: number, { setVoltages }: ParallelConverters): number[] {
  const highest = Math.max(...setVoltages);
  return Array.from(
    { length: 2000 },
    (_, index) => volts + ((highest - volts) * (index + 1)) / 2000,
  );
}

function bisected(parallel: ParallelConverters, load: number): number {
  const surplus = (volts: number) => volts * convertersCurrent(parallel, volts) - load;
  let high = Math.max(...parallel.setVoltages);
  let low =
    above(0, parallel)
      .reverse()
      .find((volts) => surplus(volts) > 0) ?? Number.NaN;
  for (let halving = 0; halving < 200; halving++) {
    const middle = (low + high) / 2;
    if (surplus(middle) > 0) low = middle;
    else high = middle;
  }
  return low;
}
