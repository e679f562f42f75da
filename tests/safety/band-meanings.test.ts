import assert from "node:assert/strict";
import { describe, it } from "vitest";
import { BAND_MEANINGS } from "../../src/safety/band-meanings.js";
import { bandNames } from "../../src/safety/touch-bands.js";

describe("BAND_MEANINGS", () => {
  it("has a sentence for every band, each name once", () => {
    assert.equal(new Set(bandNames).size, bandNames.length);
    assert.deepEqual([...BAND_MEANINGS.keys()], bandNames);
    for (const sentence of BAND_MEANINGS.values()) assert.match(sentence, /[^.]\.$/);
  });

  // IEC 60364-4-41 414.4.5 (60 V dry, 30 V otherwise, as BS 7671 quotes it) and 414.1 (120 V); IEC 60038: 1500 V.
  it.each([
    ["bare", "up to 60 V dc dry, 30 V dc wet, live parts may be bare, if fed as SELV or PELV"],
    ["extra-low", "up to 120 V dc, live parts enclosed or insulated"],
    ["low", "up to 1500 V dc, full protection against shock"],
    ["high", "above every limit of IEC 60364-4-41."],
  ])("tells the limits for dc of IEC 60364-4-41 and what goes with them: %s", (name, meaning) => {
    assert.ok(BAND_MEANINGS.get(name)?.startsWith(`IEC 60364-4-41 ${name}: ${meaning}`));
  });

  it("tells of limits that are for dry only, and of one that no longer belongs to its band", () => {
    // IEC 62368-1 Table 4; 29 CFR 1910.303(g)(2)(i): live parts at 50 V or more are guarded.
    assert.match(BAND_MEANINGS.get("ES2") ?? "", /^IEC 62368-1 ES2: up to 120 V dc dry, /);
    assert.match(BAND_MEANINGS.get("below 50 V") ?? "", /: below 50 V dc dry, /);
  });
});
