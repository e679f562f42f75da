/** Warnings of a small budget written out by hand; figures invented. */
import assert from "node:assert/strict";
import { describe, it } from "vitest";
import type {
  FoundBudget,
  ReadArea,
  ReadValue,
  Warning,
} from "../../src/warnings/warning.js";
import { warningsOf } from "../../src/warnings/warnings.js";

const SOLVED_HEAD = ["Item", "Input V", "Output V", "Loading", "Note"] as const;

function area(
  sheet: string,
  address: string,
  values: readonly (readonly ReadValue[])[],
): ReadArea {
  return { sheet, address, values };
}

interface Parts {
  readonly feed?: readonly (readonly ReadValue[])[];
  readonly solved?: readonly (readonly ReadValue[])[];
  readonly bands?: readonly (readonly ReadValue[])[];
  readonly closing?: readonly [ReadValue, ReadValue];
  readonly altitude?: number;
  readonly without?: string;
}

// As a budget of 0.2 has them; the newer sheet holds the names alone.
const LOW = "bare · 24.0 V ≤ 30 V dc wet · if …";
const MIDDLE = "extra-low · 56.1 V > 30 V, ≤ 120 V dc wet · if …";
const HIGH = "low · 440.0 V > 120 V, ≤ 1500 V dc wet · if …";
const UNKNOWN = "not determined";

function budget({
  feed = [["Run", "run", "", ""]],
  solved = [["Run", 48, 47, 0.5, ""]],
  bands = [["Run", 24, 24, LOW, LOW]],
  closing = [1e-12, 1e-6],
  altitude = 100,
  without,
}: Parts): FoundBudget {
  const areas = {
    Feed: area("Budget", "A10:D20", [
      ["Item", "Kind", "Lowest V (V)", "Highest V"],
      ...feed,
    ]),
    Solved: area("Budget", "A30:E40", [
      [...SOLVED_HEAD],
      ...solved,
      ["", "", "", "", ""],
    ]),
    Bands: area("Bands", "B5:F9", [
      [
        "Item",
        "In service (V)",
        "After one fault (V)",
        "Band in service",
        "Band after one fault",
      ],
      ...bands,
    ]),
    Closing: area("Budget", "A3:B4", [
      ["Closing error", closing[0]],
      ["Closing error allowed", closing[1]],
    ]),
    Limits: area("Budget", "H1:J9", [
      ["Limit", "", "Value"],
      ["Largest drop of a run", "", 0.05],
      ["Largest loading", "", 1],
      ["Framework", "", "IEC 60364-4-41"],
      ["Place", "", "wet"],
      ["Band asked for", "", "bare"],
      ["Band above it", "", "extra-low"],
      ["Limit of the band asked for", "", 30],
      ["Limit of the band above it", "", 120],
      ["Altitude", "", altitude],
      ["Clearances as printed up to", "", 2000],
    ]),
    About: area("Notes", "A1:C1", [["ridge-top-observatory", "1", "0.1.0"]]),
  };
  return {
    stem: "Ridge",
    areas: Object.fromEntries(
      Object.entries(areas).filter(([name]) => name !== without),
    ),
  };
}

function only(parts: Parts): Warning {
  const found = warningsOf(budget(parts));
  assert.equal(found.length, 1, JSON.stringify(found));
  return found[0]!;
}

describe("warningsOf", () => {
  it("finds nothing in a budget within its limits", () => {
    assert.deepEqual(warningsOf(budget({})), []);
  });

  it("finds an input below and above its window, at its cell", () => {
    const load = (volts: number) => ({
      feed: [["Lamp", "power load", 36, 58]],
      solved: [["Lamp", volts, "–", "–", ""]],
      bands: [["Lamp", 24, 24, LOW, LOW]],
    });
    assert.deepEqual(warningsOf(budget(load(36))), []);
    assert.deepEqual(warningsOf(budget(load(58))), []);
    const below = only(load(35.9));
    assert.equal(below.severity, "warning");
    assert.deepEqual([below.value, below.limit, below.unit], [35.9, 36, "V"]);
    assert.deepEqual(below.at, { sheet: "Budget", address: "B31" });
    const above = only(load(58.1));
    assert.equal(above.severity, "danger");
    assert.equal(above.limit, 58);
  });

  it("takes a supply's window for what it may be", () => {
    const supply = {
      feed: [["Bus", "supply", 360, 440]],
      solved: [["Bus", 350, 349, 0.2, ""]],
      bands: [["Bus", 24, 24, LOW, LOW]],
    };
    assert.deepEqual(warningsOf(budget(supply)), []);
  });

  it("finds a run that drops too much, and only a run", () => {
    // 48 V less 5 % is 45.6 V.
    const run = (kind: string, output: number) => ({
      feed: [["Run", kind, "", ""]],
      solved: [["Run", 48, output, 0.5, ""]],
    });
    assert.deepEqual(warningsOf(budget(run("run", 45.61))), []);
    assert.deepEqual(warningsOf(budget(run("series", 40))), []);
    const drop = only(run("run", 45.5));
    assert.match(drop.text, /2\.5 V, 5\.208 % of its input; 5 % is asked/);
    assert.deepEqual(drop.at, { sheet: "Budget", address: "C31" });
  });

  it("finds a loading above the one asked for", () => {
    const loaded = only({ solved: [["Run", 48, 47, 1.12, ""]] });
    assert.match(loaded.text, /112 % of its rated current/);
    assert.deepEqual(loaded.at, { sheet: "Budget", address: "D31" });
    assert.deepEqual(
      warningsOf(budget({ solved: [["Run", 48, 47, 1, ""]] })),
      [],
    );
  });

  it("passes notes on, but not those that say again what it found itself", () => {
    const [latch, ideal, ...more] = warningsOf(
      budget({
        solved: [
          [
            "Run",
            48,
            47,
            0.5,
            "2 V below its window: would switch off; may latch at 40 V on start; ideal: no losses given",
          ],
        ],
      }),
    );
    assert.deepEqual(more, []);
    assert.equal(latch?.severity, "warning");
    assert.equal(latch?.text, "May latch at 40 V on start.");
    assert.equal(ideal?.severity, "note");
  });

  it("gives the reason of a row that is not solved", () => {
    const error: ReadValue = { error: "#N/A" };
    const refused = only({
      solved: [["Run", error, error, error, "no operating point: 12 kW"]],
    });
    assert.equal(refused.severity, "danger");
    assert.match(refused.text, /no operating point: 12 kW/);
  });

  it("gives one warning where nothing is solved", () => {
    const found = budget({});
    const solved = area("Budget", "A30:E40", [
      [{ error: "#SPILL!" }, "", "", "", ""],
    ]);
    const [blocked, ...more] = warningsOf({
      ...found,
      areas: { ...found.areas, Solved: solved },
    });
    assert.deepEqual(more, []);
    assert.match(blocked?.text ?? "", /#SPILL!.*cells below are not free/);
    assert.deepEqual(blocked?.at, { sheet: "Budget", address: "A30" });
  });

  it("finds powers that do not close, and a closing error that is no number", () => {
    const open = only({ closing: [-0.5, 1e-6] });
    assert.equal(open.severity, "danger");
    assert.match(open.text, /miss the supply power by 0\.5 W/);
    assert.deepEqual(open.at, { sheet: "Budget", address: "B3" });
    assert.match(
      only({ closing: [{ error: "#N/A" }, 1] }).text,
      /not a number/,
    );
  });

  it("notes an altitude above the one that clearances are printed for", () => {
    assert.deepEqual(warningsOf(budget({ altitude: 2000 })), []);
    const high = only({ altitude: 2600 });
    assert.equal(high.severity, "note");
    assert.deepEqual(high.at, { sheet: "Budget", address: "J10" });
  });

  for (const part of ["Feed", "Solved", "Bands", "Closing", "Limits"]) {
    it(`says that the name ${part} is gone, and goes on with the rest`, () => {
      const missing = only({ without: part });
      assert.equal(missing.severity, "warning");
      assert.match(missing.text, new RegExp(`Ridge_${part} is not there`));
    });
  }

  it("says so of a check that it does not know, instead of passing it over", () => {
    const found = budget({});
    const [unknown, ...more] = warningsOf({
      ...found,
      areas: {
        ...found.areas,
        Checks: area("Checks", "A4:G6", [
          ["Item", "Check", "Found", "Asked", "Limit", "Unit", "Verdict"],
          ["Run", "Stored energy", 5, "at most", 20, "J", "✔ holds"],
          ["Run", "Stored enegry", 50, "at most", 20, "J", "▲ above"],
        ]),
      },
    });
    assert.deepEqual(more, []);
    assert.match(unknown?.text ?? "", /“Stored enegry” is not known here/);
    assert.deepEqual(unknown?.at, { sheet: "Checks", address: "B6" });
  });

  it("gives each warning an id of its own", () => {
    const found = warningsOf(
      budget({
        feed: [
          ["Run", "run", "", ""],
          ["Lamp", "power load", 36, 58],
        ],
        solved: [
          ["Run", 48, 30, 1.5, "one; two"],
          ["Lamp", 30, "–", "–", "one"],
        ],
        altitude: 3000,
        closing: [1, 0],
      }),
    );
    assert.equal(new Set(found.map(({ id }) => id)).size, found.length);
    assert.ok(found.length >= 8);
  });
});

describe("the bands' warnings", () => {
  const node = (
    inService: ReadValue,
    afterFault: ReadValue,
    volts: readonly [ReadValue, ReadValue] = [24, 56],
  ) => ({ bands: [["Run", ...volts, inService, afterFault]] });

  const CASES: readonly (readonly [
    string,
    ReadValue,
    ReadValue,
    Warning["severity"],
    RegExp,
  ])[] = [
    [
      "in service above the band asked for",
      MIDDLE,
      MIDDLE,
      "warning",
      /In service it is above band "bare" of IEC 60364-4-41, wet/,
    ],
    [
      "in service above both bands",
      HIGH,
      HIGH,
      "warning",
      /above band "extra-low"/,
    ],
    [
      "after one fault above the band asked for",
      LOW,
      MIDDLE,
      "warning",
      /After one fault it is above band "bare"/,
    ],
    [
      "after one fault above both bands",
      LOW,
      HIGH,
      "danger",
      /One fault lifts it above band "extra-low"/,
    ],
    [
      "lifted from the middle band above both",
      MIDDLE,
      HIGH,
      "danger",
      /One fault lifts it/,
    ],
    [
      "not determined in service",
      UNKNOWN,
      UNKNOWN,
      "warning",
      /treat it as live/,
    ],
    [
      "not determined after one fault",
      LOW,
      UNKNOWN,
      "warning",
      /after one fault is not determined/,
    ],
    ["not read", { error: "#NAME?" }, LOW, "danger", /not known \(#NAME\?\)/],
  ];
  for (const [what, inService, afterFault, severity, text] of CASES) {
    it(`tell of a node ${what}`, () => {
      const warning = only(node(inService, afterFault));
      assert.equal(warning.severity, severity);
      assert.match(warning.text, text);
      assert.equal(warning.at.sheet, "Bands");
    });
  }

  it("are the same of a spill of CHAIN_BANDS, and name its fault and its reasons", () => {
    const spill = (...row: readonly ReadValue[]) => {
      const found = budget({});
      return warningsOf({
        ...found,
        areas: {
          ...found.areas,
          Bands: area("Bands", "A12:K14", [
            [
              "Item",
              "In service V",
              "After one fault V",
              "Band in service",
              "Band after one fault",
              "Limit V",
              "Margin in service",
              "Margin after one fault",
              "Which fault",
              "Isolation to the supply",
              "Note",
            ],
            ["Run", ...row],
            ["", "", "", "", "", "", "", "", "", "", ""],
          ]),
        },
      });
    };
    assert.deepEqual(
      spill(
        24,
        24,
        "bare",
        "bare",
        30,
        0.2,
        0.2,
        "–",
        "–",
        "no ripple counted",
      ),
      [],
    );
    const [lifted, ...more] = spill(
      ...[24, 440, "bare", "low", 30, 0.2, -13.7],
      ...["Up: input and output joined", "–", ""],
    );
    assert.deepEqual(more, []);
    assert.equal(lifted?.severity, "danger");
    assert.match(
      lifted?.text ?? "",
      /above band "extra-low" \(Up: input and output joined\)/,
    );
    assert.deepEqual([lifted?.value, lifted?.limit], [440, 120]);
    assert.deepEqual(lifted?.at, { sheet: "Bands", address: "C13" });
    const unknown = "not determined";
    const [open] = spill(
      ...[24, unknown, "bare", unknown, 30, 0.2, unknown, unknown],
      ...["–", "Trip V must be given, got nothing"],
    );
    assert.match(open?.text ?? "", /\(Trip V must be given, got nothing\)/);
  });

  it("say once that the bands are not judged where their one call has no answer", () => {
    const found = budget({});
    const failed = area("Bands", "A12:K14", [[{ error: "#NAME?" }, "", ""]]);
    const [warning, ...more] = warningsOf({
      ...found,
      areas: { ...found.areas, Bands: failed },
    });
    assert.deepEqual(more, []);
    assert.equal(warning?.severity, "danger");
    assert.match(warning?.text ?? "", /not judged \(#NAME\?\)/);
    assert.deepEqual(warning?.at, { sheet: "Bands", address: "A12" });
  });

  it("cite the framework's clause, and give voltage and limit", () => {
    const warning = only(node(MIDDLE, MIDDLE, [56.1, 56.1]));
    assert.equal(warning.cite, "iec-60364-4-41");
    assert.deepEqual([warning.value, warning.limit], [56.1, 30]);
    assert.deepEqual(warning.at, { sheet: "Bands", address: "C6" });
  });

  it("tell of an item that is in the feed and not among the bands", () => {
    const added = only({
      feed: [
        ["Run", "run", "", ""],
        ["Lamp", "power load", "", ""],
      ],
    });
    assert.match(added.text, /its band is not judged/);
    assert.deepEqual(added.at, { sheet: "Budget", address: "A12" });
  });
});
