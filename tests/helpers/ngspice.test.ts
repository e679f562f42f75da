import assert from "node:assert/strict";
import { describe, it } from "vitest";
import { NGSPICE_OPTIONS, operatingPoint, transient } from "./ngspice.js";

const line = (watts: number, nodeset = "") => `
${NGSPICE_OPTIONS}
vs a 0 400
r1 a b 4
b1 b 0 i=${watts}/v(b)
${nodeset}`;

// V² − 400 V + 4 Ω · 5 kW = 0 has the roots 200 ± √20 000 V.
describe("operatingPoint", () => {
  it("carries full double precision and follows .nodeset to the upper root", async () => {
    const { "v(b)": bus, "i(vs)": supply } = await operatingPoint(line(5000, ".nodeset v(b)=400"));
    assert.ok(Math.abs((bus ?? 0) - (200 + Math.sqrt(20_000))) < 1e-8);
    assert.ok(Math.abs((supply ?? 0) + (200 - Math.sqrt(20_000)) / 4) < 1e-8);
  });

  it("finds the lower root where no .nodeset stands", async () => {
    const { "v(b)": bus } = await operatingPoint(line(5000));
    assert.ok(Math.abs((bus ?? 0) - (200 - Math.sqrt(20_000))) < 1e-8);
  });

  it("follows .options", async () => {
    const rough = line(5000, ".nodeset v(b)=400").replace(
      NGSPICE_OPTIONS,
      ".options reltol=1e-2 vntol=1",
    );
    const { "v(b)": bus } = await operatingPoint(rough);
    assert.ok(Math.abs((bus ?? 0) - (200 + Math.sqrt(20_000))) > 1e-8);
  });

  it("never hands over the run before where there is no operating point", async () => {
    await operatingPoint(line(5000));
    await assert.rejects(
      operatingPoint(line(10_001, ".nodeset v(b)=400")),
      /could not be simulated/,
    );
  });

  it("refuses a netlist of which ngspice passes over a line", async () => {
    await assert.rejects(
      operatingPoint("vs a 0 400\nr1 a b"),
      /not a valid resistor instance line/,
    );
  });

  it("ends a thread that ngspice has stopped, and works again", async () => {
    await assert.rejects(
      operatingPoint("vs a 0 400\nr1 a 0 4\nb1 a 0 i=5000/foo(a)", 2000),
      /gave no answer|ended with|failed/,
    );
    const values = await operatingPoint("vs a 0 400\nr1 a 0 4");
    assert.deepEqual(values, { "v(a)": 400, "i(vs)": -100 });
  });

  it("answers many calls made at once, each with its own figures", async () => {
    const many = Array.from({ length: 300 }, (_, index) => index + 1);
    const answers = await Promise.all(
      many.map((volts) => operatingPoint(`vs a 0 ${volts}\nr1 a 0 1`)),
    );
    assert.deepEqual(
      answers.map((answer) => answer["v(a)"]),
      many,
    );
  });
});

// 1 kΩ and 1 µF: after one time constant of 1 ms a part of 1 − 1/e is reached.
describe("transient", () => {
  const charging = (options: string) =>
    transient(`v1 a 0 10\nr1 a b 1k\nc1 b 0 1u ic=0\n${options}`, "1u 1m 0 1u uic");

  it("runs over the whole time, from the start given to the end asked for", async () => {
    const { time, "v(b)": levels } = await charging(
      ".options reltol=1e-7 abstol=1e-12 vntol=1e-9 chgtol=1e-18",
    );
    assert.ok(time && levels && time.length === levels.length);
    assert.ok(time.every((at, index) => at > (time[index - 1] ?? -1)));
    assert.ok(Math.abs((time.at(-1) ?? 0) - 1e-3) < 1e-12);
    const reached = (levels.at(-1) ?? 0) / 10;
    assert.ok(Math.abs(reached / (1 - Math.exp(-1)) - 1) < 1e-6, `${reached}`);
  });

  it("says so where it does not come to the end: a load of constant power that empties its capacitor", async () => {
    // 50 J in the capacitor last half of the time at 1 kW.
    await assert.rejects(
      transient("c1 a 0 10m ic=100\nb1 a 0 i=1000/v(a)", "100u 100m 0 100u uic"),
      /Timestep too small; time = 0\.04999/,
    );
    const waves = await transient("c1 a 0 10m ic=100\nb1 a 0 i=1000/v(a)", "100u 25m 0 10u uic");
    const left = waves["v(a)"]?.at(-1) ?? 0;
    assert.ok(Math.abs(left / Math.sqrt(5000) - 1) < 1e-3, `${left}`);
  });

  it("takes turns with operating points asked for at once", async () => {
    const [waves, point] = await Promise.all([
      charging(""),
      operatingPoint("vs a 0 400\nr1 a 0 4"),
    ]);
    assert.ok((waves["time"]?.length ?? 0) > 100);
    assert.deepEqual(point, { "v(a)": 400, "i(vs)": -100 });
  });
});
