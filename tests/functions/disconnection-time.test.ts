/** The cell function of disconnection times. */
import assert from "node:assert/strict";
import { describe, it } from "vitest";
import { evaluate } from "../../functions/runner.js";

describe("DISCONNECTION_TIME", () => {
  // IEC 60364-4-41:2005+A1:2017, Table 41.1 and 411.3.2.3, dc: from memory.
  it("gives the seconds of the table and what they leave out", () => {
    const found = evaluate("DISCONNECTION_TIME", [400, "TN final"]);
    assert.ok(found.ok);
    assert.equal(found.value, 0.4);
    assert.match(
      found.caveats.map(({ text }) => text).join(),
      /from memory.*second fault of an unearthed supply.*not computed/,
    );
  });

  it("has no answer up to 120 V, and says that none is asked for against shock", () => {
    const found = evaluate("DISCONNECTION_TIME", [120, "TT distribution"]);
    assert.ok(!found.ok);
    assert.equal(found.code, "#N/A");
    assert.match(found.message, /120 V dc no disconnection is asked for/);
  });

  it("refuses a circuit that is none of the table's", () => {
    const found = evaluate("DISCONNECTION_TIME", [400, "IT"]);
    assert.ok(!found.ok);
    assert.equal(found.code, "#VALUE!");
    assert.match(found.message, /TN final/);
  });
});
