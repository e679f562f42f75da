import assert from "node:assert/strict";
import { describe, expect, it } from "vitest";
import {
  DISCONNECTED_CIRCUITS,
  disconnectionTime,
} from "../../src/protection/disconnection-times.js";
import { citations } from "../../src/quantities/citations.js";

describe("disconnectionTime", () => {
  // IEC 60364-4-41:2005+A1:2017, Table 41.1, dc columns, and 411.3.2.3 and 411.3.2.4: all from memory.
  it.each([
    [121, "TN final", 1],
    [230, "TN final", 1],
    [230.1, "TN final", 0.4],
    [400, "TN final", 0.4],
    [400.1, "TN final", 0.1],
    [840, "TN final", 0.1],
    [230, "TT final", 0.4],
    [400, "TT final", 0.2],
    [401, "TT final", 0.1],
    [400, "TN distribution", 5],
    [840, "TN distribution", 5],
    [840, "TT distribution", 1],
  ] as const)("asks at %d V in a %s circuit for %d s", (volts, circuit, time) => {
    expect(disconnectionTime(volts, circuit).time).toBe(time);
  });

  it("asks for none against shock up to 120 V, and says that heat may", () => {
    for (const circuit of DISCONNECTED_CIRCUITS) {
      const { time, caveats } = disconnectionTime(120, circuit);
      expect(time).toBe(undefined);
      assert.match(caveats[0]?.text ?? "", /120 V dc no disconnection .* heat/);
      expect(disconnectionTime(120.001, circuit).time).toBeGreaterThan(0);
    }
  });

  it("never allows a final circuit more than a distribution one, nor a higher voltage more than a lower", () => {
    for (const volts of [121, 231, 401]) {
      const at = (circuit: (typeof DISCONNECTED_CIRCUITS)[number], v = volts) =>
        disconnectionTime(v, circuit).time ?? Number.NaN;
      for (const system of ["TN", "TT"] as const) {
        assert.ok(at(`${system} final`) < at(`${system} distribution`));
        assert.ok(at(`${system} final`, volts + 200) <= at(`${system} final`));
      }
    }
  });

  it("says that it is from memory and that only faults between poles are computed", () => {
    expect(citations["iec-60364-4-41-table-41-1"].standing).toBe("from memory");
    const { caveats } = disconnectionTime(400, "TN final");
    assert.match(caveats[0]?.text ?? "", /from memory.*fault to earth/);
    assert.throws(() => disconnectionTime(0, "TN final"), /voltage must be/);
  });
});
