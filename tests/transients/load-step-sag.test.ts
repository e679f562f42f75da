import assert from "node:assert/strict";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { loadStepSagSteps } from "../../src/transients/load-step-sag-steps.js";
import { type SteppedLoad, loadStepSag } from "../../src/transients/load-step-sag.js";
import { assertPrinted } from "../helpers/assert-printed.js";
import { assertSteps } from "../helpers/assert-steps.js";
import { transient } from "../helpers/ngspice.js";
import filter from "../reference/em_input_filter.json" with { type: "json" };
import { TIGHT, rungeKutta, steppedLoads } from "./random-circuits.js";

const PLACES = ["ringing", "at rest", "at the step"] as const;

/** √(L/C) is 1 Ω. */
const unit: SteppedLoad = {
  currentStep: 10,
  resistance: 1,
  inductance: 1e-4,
  capacitance: 1e-4,
  capacitorResistance: 0,
};

function sagOf(over: Partial<SteppedLoad>): number {
  return loadStepSag({ ...unit, ...over }).sag;
}

/** The deepest sag by Runge-Kutta on current and capacitor voltage. */
function byIntegration(load: SteppedLoad): number {
  const { currentStep, resistance, inductance, capacitance } = load;
  const { capacitorResistance } = load;
  const slope = (i: number, v: number) =>
    [
      (-resistance * i - v - capacitorResistance * (i - currentStep)) / inductance,
      (i - currentStep) / capacitance,
    ] as const;
  const natural = 1 / Math.sqrt(inductance * capacitance);
  const whole = resistance + capacitorResistance;
  const step = 0.01 / Math.max(natural, whole / inductance);
  const slowest = Math.min(natural, 1 / (whole * capacitance));
  const steps = Math.min(400_000, Math.ceil(12 / slowest / step));
  let at: readonly [number, number] = [0, 0];
  let deepest = 0;
  for (let count = 0; count <= steps; count++) {
    const [i, v] = at;
    deepest = Math.max(deepest, -(v + capacitorResistance * (i - currentStep)));
    at = rungeKutta(slope, at, step);
  }
  return deepest;
}

// R. W. Erickson and D. Maksimović, Fundamentals of Power Electronics, 3rd ed., sec. 17.3: the input filter of 330 µH and
// 470 µF has a wave resistance of 0.84 Ω and resonates at 400 Hz (text seen; the frequency is printed to two figures).
describe("loadStepSag against Erickson and Maksimović's input filter", () => {
  const record = loadStepSag({
    currentStep: 1,
    resistance: 1e-9,
    inductance: filter.inputs.Lf,
    capacitance: filter.inputs.Cf,
    capacitorResistance: 0,
  });

  it("sags 0.84 V by 1 A with next to no resistance", () => {
    assertPrinted(record.sag, "0.84");
    assertPrinted(record.waveResistance, "0.84");
  });

  it("is deepest a quarter of a period of 400 Hz after the step", () => {
    assert.ok(record.deepest === "ringing");
    assertPrinted(1 / (4 * record.deepestTime) / 100, "4.0");
  });
});

describe("loadStepSag against other methods", () => {
  it("is what a step-by-step integration finds, for every damping", () => {
    const places = new Set<string>();
    fc.assert(
      fc.property(steppedLoads, (load) => {
        const record = loadStepSag(load);
        places.add(record.deepest);
        const integrated = byIntegration(load);
        assert.ok(
          Math.abs(integrated - record.sag) <= 2e-4 * record.sag,
          `${record.deepest}: ${record.sag}, integrated ${integrated}`,
        );
      }),
      { numRuns: 120, seed: 20261125 },
    );
    expect([...places].sort()).toEqual([...PLACES].sort());
  });

  it("is what ngspice finds, ringing, at rest and at the step", async () => {
    const wanted = { ringing: 10, "at rest": 5, "at the step": 5 };
    for (const load of fc.sample(steppedLoads, { numRuns: 400, seed: 8 })) {
      const { sag, deepest } = loadStepSag(load);
      const theirs = wanted[deepest] > 0 ? await byNgspice(load) : undefined;
      if (theirs === undefined) continue;
      wanted[deepest] -= 1;
      assert.ok(Math.abs(theirs / sag - 1) < 1e-3, `${theirs} ${sag} ${JSON.stringify(load)}`);
    }
    expect(wanted).toEqual({ ringing: 0, "at rest": 0, "at the step": 0 });
  }, 120_000);
});

/** Deviations from before the step: a source of 0 V behind R and L, the sag counted upward. Undefined where it is too stiff. */
async function byNgspice(load: SteppedLoad): Promise<number | undefined> {
  const { currentStep, resistance, inductance, capacitance } = load;
  const { capacitorResistance } = load;
  const natural = Math.sqrt(inductance * capacitance);
  const whole = resistance + capacitorResistance;
  const end = 10 * Math.max(natural, whole * capacitance);
  const step = Math.min(natural, inductance / whole) / 40;
  if (end / step > 60_000) return undefined;
  const capacitor =
    capacitorResistance > 0
      ? `rc n q ${capacitorResistance}\nc1 q 0 ${capacitance} ic=0`
      : `c1 n 0 ${capacitance} ic=0`;
  const waves = await transient(
    `r1 0 m ${resistance}\nl1 m n ${inductance} ic=0\n${capacitor}\ni1 0 n ${currentStep}\n${TIGHT}`,
    `${step} ${end} 0 ${step} uic`,
    60_000,
  );
  const levels = waves["v(n)"] ?? [];
  assert.ok(levels.length > 100);
  return levels.reduce((most, level) => Math.max(most, level), -Infinity);
}

describe("loadStepSag near where the case changes", () => {
  const OFF = [1e-1, 1e-2, 1e-3, 1e-5, 1e-7, 1e-9, 1e-11, 1e-13, 1e-14, 1e-15];

  // R + r = 2 √(L/C) is critical; with 1.6 Ω in the capacitor the step itself is deepest, with less the rest.
  for (const capacitorResistance of [0, 0.3, 0.8, 1, 1.6])
    it(`goes smoothly through critical damping, r = ${capacitorResistance} Ω, and recomputes`, () => {
      const at = (resistance: number) => {
        const load = { ...unit, resistance, capacitorResistance };
        const record = loadStepSag(load);
        assertSteps(loadStepSagSteps(record), { ...load, ...record });
        return record.sag;
      };
      const resistance = 2 - capacitorResistance;
      const critical = at(resistance);
      const below = OFF.map((off) => at(resistance * (1 - off)));
      const above = OFF.map((off) => at(resistance * (1 + off)));
      OFF.forEach((off, index) => {
        // At rest ΔI·R moves with R itself; what ringing adds within 10 % of critical is below a millionth.
        for (const sag of [below[index] ?? 0, above[index] ?? 0])
          assert.ok(
            Math.abs(sag / critical - 1) <= off * (1 + 1e-4) + 1e-14,
            `${off}: ${sag}, ${critical}`,
          );
      });
    });

  it("goes smoothly to where the capacitor has the wave resistance, and recomputes there", () => {
    for (const off of [0, ...OFF])
      for (const capacitorResistance of [1 - off, 1 + off]) {
        const load = { ...unit, resistance: 0.5, capacitorResistance };
        const record = loadStepSag(load);
        assertSteps(loadStepSagSteps(record), { ...load, ...record });
        // Just below, it goes on for a moment after the step: by y′²/2y″ = (2 · off)²/(2 · 0.5) of the step, by hand.
        const beyond = record.sag / 10 - capacitorResistance;
        assert.ok(beyond >= -1e-14, `${off}: ${beyond}`);
        assert.ok(beyond <= 4 * off ** 2 + 1e-14, `${off}: ${beyond}`);
      }
  });

  it("is ΔI·√(L/C) with next to no resistance, by hand", () => {
    assert.ok(Math.abs(sagOf({ resistance: 1e-9 }) - 10) < 1e-6);
  });

  // By hand: tan(θ/2) = √3, so θ = 2π/3; 10 V at rest and 10 · e^(−(π/3)·2/√3) = 2.98436 V.
  it("is 12.98436 V at half of critical damping, by hand", () => {
    assertPrinted(sagOf({}), "12.98436");
  });

  it("is ΔI·R without ringing and ΔI·r where that is more, by hand", () => {
    expect(sagOf({ resistance: 3 })).toBe(30);
    expect(sagOf({ resistance: 0.5, capacitorResistance: 1.2 })).toBe(12);
    expect(sagOf({ resistance: 2, capacitorResistance: 3 })).toBe(30);
  });
});

describe("loadStepSag", () => {
  it("is in proportion to the step, falls as capacitance grows, and never lies above the static drop or the step's own", () => {
    fc.assert(
      fc.property(steppedLoads, (load) => {
        const { sag, staticSag, stepSag } = loadStepSag(load);
        const { currentStep, capacitance } = load;
        const doubled = loadStepSag({ ...load, currentStep: 2 * currentStep });
        assert.ok(Math.abs(doubled.sag / sag - 2) <= 1e-9);
        assert.ok(sag >= Math.max(staticSag, stepSag));
        const more = loadStepSag({ ...load, capacitance: 1.5 * capacitance });
        assert.ok(more.sag <= sag * (1 + 1e-9));
      }),
    );
  });

  it("recomputes step by step wherever it is deepest", () => {
    const places = new Set<string>();
    fc.assert(
      fc.property(steppedLoads, (load) => {
        const record = loadStepSag(load);
        places.add(record.deepest);
        assertSteps(loadStepSagSteps(record), { ...load, ...record });
      }),
      { numRuns: 300 },
    );
    expect([...places].sort()).toEqual([...PLACES].sort());
  });

  it("notes a capacitor without series resistance, and that it is linear", () => {
    const codes = (capacitorResistance: number) =>
      loadStepSag({ ...unit, capacitorResistance }).caveats.map(({ code }) => code);
    expect(codes(0)).toEqual(["linear", "ideal-capacitor"]);
    expect(codes(0.1)).toEqual(["linear"]);
  });
});
