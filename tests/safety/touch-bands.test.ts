import assert from "node:assert/strict";
import { describe, it } from "vitest";
import { citations } from "../../src/quantities/citations.js";
import { FRAMEWORKS, type FrameworkName, touchFrameworks } from "../../src/safety/touch-bands.js";

// Typed a second time from the works named; `standing` says whether somebody saw the figure there. Volts.
// Columns: band, dc dry, dc wet, ac dry, ac wet, clause, standing. undefined: no such limit.
type Row = readonly [
  string,
  number | undefined,
  number | undefined,
  number | undefined,
  number | undefined,
  string,
  string,
];
const none = undefined;
const PRINTED: Readonly<Record<FrameworkName, readonly Row[]>> = {
  // IEC 62368-1, editions of 2014 and 2018 alike, Table 4; ac up to 1 kHz. Seen in two extracts.
  "IEC 62368-1": [
    ["ES1", 60, none, 30, none, "5.2.2.2 Table 4", "seen second-hand"],
    ["ES2", 120, none, 50, none, "5.2.2.2 Table 4", "seen second-hand"],
    ["ES3", none, none, none, none, "5.2.2.2 Table 4", "seen second-hand"],
  ],
  // 414.4.5: 25 V ac / 60 V dc dry, 12 V ac / 30 V dc otherwise, as BS 7671 quotes it. 414.1 (the clause number from
  // memory): 50 V ac / 120 V dc. IEC 60038 and 61140, repeated by IEC 62257-7-1 3.55: 1000 V ac / 1500 V dc.
  "IEC 60364-4-41": [
    ["bare", 60, 30, 25, 12, "414.4.5", "seen second-hand"],
    ["extra-low", 120, 120, 50, 50, "414.1", "seen second-hand"],
    ["low", 1500, 1500, 1000, 1000, "IEC 60038", "seen second-hand"],
    ["high", none, none, none, none, "IEC 60038", "seen second-hand"],
  ],
  // ISO 6469-3:2021, from memory; UN R100 and FMVSS 305 draw "high voltage" at the same 60 V dc / 30 V ac.
  "ISO 6469-3": [
    ["A", 60, none, 30, none, "clause 4 Table 1", "from memory"],
    ["B", 1500, none, 1000, none, "clause 4 Table 1", "from memory"],
    ["above B", none, none, none, none, "clause 4 Table 1", "from memory"],
  ],
  // 29 CFR 1910.303(g)(2)(i): live parts operating at 50 V or more, ac or dc; interpretation letter 4 September 2015.
  "US workplace": [
    ["below 50 V", 50, none, 50, none, "29 CFR 1910.303(g)(2)(i)", "seen second-hand"],
    ["50 V or more", none, none, none, none, "29 CFR 1910.303(g)(2)(i)", "seen second-hand"],
  ],
};

describe("touchFrameworks against the published limits", () => {
  for (const name of FRAMEWORKS)
    it(name, () => {
      const held = touchFrameworks[name].bands.map((band) => [
        band.name,
        band.limits?.dc.dry,
        band.limits?.dc.wet,
        band.limits?.["ac rms"].dry,
        band.limits?.["ac rms"].wet,
        band.clause,
        citations[band.cite].standing,
      ]);
      assert.deepEqual(held, PRINTED[name]);
    });

  it("IEC 62368-1 Table 4: 42.4 V and 70.7 V peak beside 30 V and 50 V rms", () => {
    const peaks = touchFrameworks["IEC 62368-1"].bands.map(({ limits }) => limits?.acPeak);
    assert.deepEqual(peaks, [42.4, 70.7, undefined]);
  });

  it("IEV entry SELV: peaks of ripple-free dc 70 V for a 60 V and 140 V for a 120 V system", () => {
    const [bare, extraLow] = touchFrameworks["IEC 60364-4-41"].bands;
    assert.equal(bare?.limits?.ripplePeak?.dry, 70);
    assert.equal(extraLow?.limits?.ripplePeak?.dry, 140);
    // Computed: the same proportion for 30 V.
    assert.equal(bare?.limits?.ripplePeak?.wet, (30 * 70) / 60);
  });

  it("only the US workplace rule draws its line at the limit itself (OSHA: 50 volts or more)", () => {
    const exclusive = FRAMEWORKS.filter((name) => touchFrameworks[name].boundary === "exclusive");
    assert.deepEqual(exclusive, ["US workplace"]);
  });
});

describe("touchFrameworks", () => {
  it("have bands that rise and end in one without a limit", () => {
    for (const name of FRAMEWORKS) {
      const { bands } = touchFrameworks[name];
      const limits = bands.flatMap(({ limits }) => limits?.dc.dry ?? []);
      assert.equal(limits.length, bands.length - 1);
      assert.equal(bands.at(-1)?.limits, undefined);
      assert.deepEqual(
        limits,
        [...limits].sort((a, b) => a - b),
      );
    }
  });

  it("claim nothing: no text calls a band safe, or a circuit SELV", () => {
    for (const name of FRAMEWORKS)
      for (const { provided } of touchFrameworks[name].bands)
        assert.doesNotMatch(provided, /\bsafe\b|\bis SELV\b/i);
  });
});
