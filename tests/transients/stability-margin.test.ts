import assert from "node:assert/strict";
import fc from "fast-check";
import { complex, eigs } from "mathjs";
import { describe, expect, it } from "vitest";
import { NoAnswerError } from "../../src/quantities/errors.js";
import {
  type ConstantPowerBus,
  stabilityMargin,
  stabilityMarginSteps,
} from "../../src/transients/stability-margin.js";
import { assertPrinted } from "../helpers/assert-printed.js";
import { assertSteps } from "../helpers/assert-steps.js";
import { transient } from "../helpers/ngspice.js";
import own from "../reference/cpl_rlc_A.json" with { type: "json" };
import filter from "../reference/em_input_filter.json" with { type: "json" };
import { type Pair, loadedBuses, rungeKutta } from "./random-circuits.js";

const given: ConstantPowerBus = {
  openCircuitVoltage: own.inputs.Vs,
  load: 400,
  resistance: own.inputs.R,
  inductance: own.inputs.L,
  capacitance: own.inputs.C,
  capacitorResistance: 0,
};

function operatingVoltage(at: ConstantPowerBus): number {
  const { openCircuitVoltage, resistance, load } = at;
  const part = (4 * resistance * load) / openCircuitVoltage ** 2;
  return (openCircuitVoltage * (1 + Math.sqrt(1 - part))) / 2;
}

/** Rates of current and capacitor voltage, with the bus voltage found from the load's own curve beside the last one. */
function ratesOf(at: ConstantPowerBus) {
  const { openCircuitVoltage, resistance, inductance, capacitance } = at;
  const { capacitorResistance, load } = at;
  const rest = operatingVoltage(at);
  return (current: number, held: number): Pair => {
    let bus = rest;
    for (let count = 0; count < 60; count++) {
      const miss = bus - held - capacitorResistance * (current - load / bus);
      bus -= miss / (1 - (capacitorResistance * load) / bus ** 2);
    }
    return [
      (openCircuitVoltage - resistance * current - bus) / inductance,
      (current - load / bus) / capacitance,
    ];
  };
}

/** The largest real part of the natural response, in 1/s, from the rates by differences, without any of the engine's algebra. */
function growth(at: ConstantPowerBus): number {
  const rates = ratesOf(at);
  const voltage = operatingVoltage(at);
  const rest = [at.load / voltage, voltage] as const;
  const [i, v] = rest.map((value) => value * 1e-6) as [number, number];
  const along = (di: number, dv: number, by: number) => {
    const up = rates(rest[0] + di, rest[1] + dv);
    const down = rates(rest[0] - di, rest[1] - dv);
    return up.map((rate, index) => (rate - (down[index] ?? 0)) / (2 * by));
  };
  const [byCurrent, byVoltage] = [along(i, 0, i), along(0, v, v)];
  const { values } = eigs([
    [byCurrent[0] ?? 0, byVoltage[0] ?? 0],
    [byCurrent[1] ?? 0, byVoltage[1] ?? 0],
  ]);
  const found = (values as number[]).map((value) => complex(value as never).re);
  return Math.max(...found);
}

describe("stabilityMargin against trace and determinant in another program", () => {
  it("finds 774.825 W at 26.5403 V for 28 V, 50 mΩ, 10 µH and 220 µF, 3920 W at collapse", () => {
    const { criticalPower, criticalVoltage, margin } = stabilityMargin(given);
    assertPrinted(criticalPower, "774.825");
    assertPrinted(criticalVoltage, "26.540284");
    assertPrinted(margin, "1.937063");
    const { criticalPower: most } = stabilityMargin({
      ...given,
      capacitance: 1,
    });
    assertPrinted(most, "3920.000");
  });

  // The reference case's own eigenvalues hold the check below it to account: −1317.75 1/s at half of it, 282.495 at 110 %.
  it("has the natural response of the reference at half and at 110 % of the critical power", () => {
    const at = (part: number) => growth({ ...given, load: part * own.expected.P_crit_W });
    assert.ok(Math.abs(at(0.5) + 1317.7542) < 0.01);
    assert.ok(Math.abs(at(1.1) - 282.4954) < 0.01);
  });
});

// R. W. Erickson and D. Maksimović, Fundamentals of Power Electronics, 3rd ed., sec. 17.3: a buck stage of duty cycle 0.5
// on 30 V with 3 Ω behind it has an incremental input resistance of −12 Ω, on a filter of 330 µH and 470 µF (text seen).
describe("stabilityMargin against Erickson and Maksimović's input filter", () => {
  const { Vg, D, R, Lf, Cf } = filter.inputs;
  const buck: ConstantPowerBus = {
    openCircuitVoltage: Vg,
    load: (D * Vg) ** 2 / R,
    resistance: 1e-9,
    inductance: Lf,
    capacitance: Cf,
    capacitorResistance: 0,
  };

  it("meets −12 Ω at the bus", () => {
    assertPrinted(stabilityMargin(buck).loadResistance, "-12");
  });

  it("grows without damping, as the filter has to be damped there", () => {
    assert.ok(stabilityMargin(buck).margin < 1);
  });
});

/** How far a push of 1 swings in the first and in the last quarter of some periods, by ngspice. */
async function swings(
  at: ConstantPowerBus,
  load: number,
): Promise<{ readonly early: number; readonly late: number }> {
  const { openCircuitVoltage, resistance, inductance, capacitance } = at;
  const { capacitorResistance } = at;
  const voltage = operatingVoltage({ ...at, load });
  const push = voltage * 1e-3;
  const start = voltage + push;
  const natural = Math.sqrt(inductance * capacitance);
  const end = 40 * natural;
  // Behind its resistance the capacitor alone does not say where the bus starts: a little on the bus itself does.
  const capacitor =
    capacitorResistance > 0
      ? `rc n q ${capacitorResistance}\nc1 q 0 ${capacitance} ic=${start}\nc2 n 0 ${capacitance / 1000} ic=${start}`
      : `c1 n 0 ${capacitance} ic=${start}`;
  const waves = await transient(
    `v1 a 0 ${openCircuitVoltage}\nr1 a m ${resistance}\nl1 m n ${inductance} ic=${load / voltage}\n${capacitor}\nb1 n 0 i=${load}/max(v(n),${0.2 * voltage})\n.options reltol=1e-8 abstol=1e-9 vntol=1e-9 chgtol=1e-18 method=trap`,
    `${natural / 60} ${end} 0 ${natural / 60} uic`,
    60_000,
  );
  const times = waves["time"] ?? [];
  const levels = waves["v(n)"] ?? [];
  assert.ok(levels.length > 100);
  const most = (from: number, to: number) =>
    levels.reduce((found, level, index) => {
      const time = (times[index] ?? 0) / end;
      const isWithin = time >= from && time <= to;
      return isWithin ? Math.max(found, Math.abs(level - voltage)) : found;
    }, 0) / push;
  return { early: most(0, 0.25), late: most(0.75, 1) };
}

async function growsInNgspice(at: ConstantPowerBus, load: number): Promise<boolean> {
  const { early, late } = await swings(at, load);
  return late > early;
}

/** The same by Runge-Kutta, while the push stays small. */
function integratedSwing(at: ConstantPowerBus, load: number): number {
  const loaded = { ...at, load };
  const rates = ratesOf(loaded);
  const voltage = operatingVoltage(loaded);
  const natural = Math.sqrt(at.inductance * at.capacitance);
  let state: Pair = [load / voltage, voltage * (1 + 1e-6)];
  const quarters = [0, 0, 0, 0];
  for (let count = 0; count < 4000; count++) {
    const quarter = Math.floor(count / 1000);
    const off = Math.abs(state[1] - voltage);
    quarters[quarter] = Math.max(quarters[quarter] ?? 0, off);
    state = rungeKutta(rates, state, natural / 100);
  }
  return (quarters[3] ?? 0) / (quarters[0] ?? 0);
}

/** With damping the first limit, and collapse well beyond it. */
function dampedBuses(): readonly ConstantPowerBus[] {
  return fc
    .sample(loadedBuses, { numRuns: 600, seed: 4 })
    .filter((at) => {
      const { limit, criticalConductance } = stabilityMargin(at);
      const { resistance, capacitorResistance } = at;
      const further = Math.max(resistance, capacitorResistance);
      return limit === "damping" && criticalConductance * further < 0.6;
    })
    .slice(0, 20);
}

describe("stabilityMargin against the circuit itself", () => {
  it("is above 1 just where every part of the natural response dies out, whatever limits it", () => {
    const limits = new Map<string, number>();
    fc.assert(
      fc.property(loadedBuses, (at) => {
        const { margin, limit } = stabilityMargin(at);
        if (Math.abs(margin - 1) < 1e-3) return;
        const side = `${limit}, ${margin > 1 ? "damped" : "growing"}`;
        limits.set(side, (limits.get(side) ?? 0) + 1);
        assert.equal(margin > 1, growth(at) < 0, JSON.stringify(at));
      }),
      { numRuns: 1000, seed: 11 },
    );
    // Loads beyond collapse have no operating point, so that limit is never passed.
    for (const side of [
      "damping, damped",
      "damping, growing",
      "capacitor resistance, damped",
      "capacitor resistance, growing",
      "collapse, damped",
    ])
      assert.ok((limits.get(side) ?? 0) >= 10, `${side}: ${limits.get(side)}`);
    expect(limits.get("collapse, growing")).toBe(undefined);
  });

  it("dies out at 700 W and grows at 850 W in ngspice, as it says", async () => {
    expect(await growsInNgspice(given, 700)).toBe(false);
    expect(await growsInNgspice(given, 850)).toBe(true);
    assert.ok(stabilityMargin({ ...given, load: 700 }).margin > 1);
    assert.ok(stabilityMargin({ ...given, load: 850 }).margin < 1);
  });

  it("is where oscillations turn from dying to growing, 20 random circuits, by ngspice and step by step", async () => {
    const buses = dampedBuses();
    expect(buses.length).toBe(20);
    expect(
      buses.filter(({ capacitorResistance }) => capacitorResistance > 0).length,
    ).toBeGreaterThan(5);
    for (const at of buses) {
      const { criticalPower } = stabilityMargin(at);
      const [under, over] = [0.95 * criticalPower, 1.05 * criticalPower];
      const said = JSON.stringify(at);
      expect(await growsInNgspice(at, under), said).toBe(false);
      expect(await growsInNgspice(at, over), said).toBe(true);
      assert.ok(integratedSwing(at, under) < 1, `below, integrated: ${said}`);
      assert.ok(integratedSwing(at, over) > 1, `above, integrated: ${said}`);
    }
  }, 120_000);

  // A capacitor of more resistance than the load's own: what little capacitance the bus has besides swings off at once.
  it("is where a bus behind its capacitor's resistance leaves its voltage in ngspice", async () => {
    const at = { ...given, capacitorResistance: 0.5 };
    const { criticalPower, limit } = stabilityMargin(at);
    expect(limit).toBe("capacitor resistance");
    expect((await swings(at, 0.95 * criticalPower)).late).toBeLessThan(0.1);
    expect((await swings(at, 1.05 * criticalPower)).late).toBeGreaterThan(10);
  });
});

describe("stabilityMargin", () => {
  it("falls with inductance and load, rises with capacitance and voltage", () => {
    fc.assert(
      fc.property(loadedBuses, (at) => {
        const margin = (over: Partial<ConstantPowerBus>) =>
          stabilityMargin({ ...at, ...over }).margin;
        const here = margin({});
        const { inductance, capacitance, openCircuitVoltage, load } = at;
        assert.ok(margin({ inductance: 1.3 * inductance }) <= here * (1 + 1e-12));
        assert.ok(Math.abs(margin({ load: load / 2 }) / here - 2) <= 1e-9);
        assert.ok(margin({ capacitance: 1.3 * capacitance }) >= here * (1 - 1e-12));
        assert.ok(margin({ openCircuitVoltage: 1.1 * openCircuitVoltage }) > here);
      }),
    );
  });

  it("is capped by the collapse, and says so", () => {
    const damped = stabilityMargin({ ...given, capacitance: 1 });
    expect(damped.limit).toBe("collapse");
    expect(damped.criticalPower).toBeCloseTo(28 ** 2 / 0.2, 9);
    expect(stabilityMarginSteps(damped)["criticalConductance"]?.label).toMatch(
      /where the voltage collapses/,
    );
    assert.throws(() => stabilityMargin({ ...given, load: 4000 }), NoAnswerError);
  });

  it("meets a load of −V²/P on the upper root, always more than the line's resistance", () => {
    fc.assert(
      fc.property(loadedBuses, (at) => {
        const { busVoltage, loadResistance } = stabilityMargin(at);
        const { openCircuitVoltage, resistance, load } = at;
        const balance = openCircuitVoltage - (resistance * load) / busVoltage - busVoltage;
        assert.ok(Math.abs(balance) <= 1e-12 * openCircuitVoltage);
        assert.ok(busVoltage > openCircuitVoltage / 2);
        assert.ok(-loadResistance > resistance);
      }),
    );
  });

  it("recomputes step by step, whatever limits it", () => {
    const limits = new Set<string>();
    fc.assert(
      fc.property(loadedBuses, (at) => {
        const record = stabilityMargin(at);
        limits.add(record.limit);
        assertSteps(stabilityMarginSteps(record), { ...at, ...record });
      }),
      { numRuns: 200 },
    );
    expect([...limits].sort()).toEqual(["capacitor resistance", "collapse", "damping"]);
  });
});
