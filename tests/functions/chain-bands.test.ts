import assert from "node:assert/strict";
import fc from "fast-check";
import { describe, it } from "vitest";
import type { Argument, Cell, CellTable } from "../../functions/cells.js";
import { evaluate } from "../../functions/runner.js";
import { assertSteps } from "../helpers/assert-steps.js";

// Invented feeds; voltages and margins by hand beside them. The rule of one fault is IEC 60364-4-41 411.7.4 and
// IEC 62368-1 5.2.1 worked out for chains, the limits those of touch-bands.test.ts.
const HEADERS = [
  "Item",
  "Fed from",
  "Kind",
  "Voltage",
  "Ratio",
  "Highest V",
  "Tolerance",
  "Isolation",
  "Trip V",
  "Ripple V rms",
  "Ripple V peak",
] as const;
type Figures = Partial<Record<(typeof HEADERS)[number], Cell>>;

function table(...rows: readonly Figures[]): CellTable {
  return [[...HEADERS], ...rows.map((row) => HEADERS.map((header) => row[header] ?? null))];
}

const asked = (framework: Cell, place: Cell): CellTable => [
  ["Framework", framework],
  ["Place", place],
];
const DRY = asked("IEC 62368-1", "dry");

type Row = Readonly<Record<string, Cell>>;

function bands(feed: CellTable, askedFor: Argument = DRY): Row[] {
  const outcome = evaluate("CHAIN_BANDS", [feed, askedFor]);
  assert.ok(outcome.ok, JSON.stringify(outcome));
  const [headings = [], ...rows] = outcome.value as CellTable;
  return rows.map((row) => Object.fromEntries(row.map((cell, at) => [String(headings[at]), cell])));
}

function refusal(askedFor: Argument): string {
  const outcome = evaluate("CHAIN_BANDS", [FERRY, askedFor]);
  assert.ok(!outcome.ok);
  assert.equal(outcome.argument, "asked for");
  return outcome.message;
}

function near(cell: Cell | undefined, expected: number): void {
  assert.ok(
    typeof cell === "number" && Math.abs(cell - expected) < 5e-5,
    `${String(cell)}, ${expected}`,
  );
}

const PACK = { Item: "Pack", Kind: "supply", Voltage: 700, "Highest V": 706 };
const STAGE = {
  Item: "Bus stage",
  "Fed from": "Pack",
  Kind: "ratio",
  Ratio: 1 / 12,
  Tolerance: 0.01,
  Isolation: "reinforced",
};
const LAMP = { Item: "Lamp", "Fed from": "Bus stage", Kind: "power load" };
const FERRY = table(PACK, STAGE, LAMP);

describe("CHAIN_BANDS", () => {
  it("counts the ripple of the nearest stage: 59.42 V are within ES1, with 0.35 V rms they are not", () => {
    const [, stage, lamp] = bands(FERRY);
    near(stage?.["In service V"], 59.4217);
    assert.equal(lamp?.["Band in service"], "ES1");
    near(lamp["Margin in service"], 1 - 59.42167 / 60);
    assert.match(String(lamp["Note"]), /^no ripple counted; ES1: if within/);
    const [, , rippled] = bands(table(PACK, { ...STAGE, "Ripple V rms": 0.35 }, LAMP));
    assert.equal(rippled?.["Band in service"], "ES2");
    // Peak √3 · 0.35 V = 0.6062 V: 59.42167/60 + 0.6062/42.4 = 1.00466.
    near(rippled["Margin in service"], -0.00466);
    assert.equal(rippled["Limit V"], 60);
    assert.doesNotMatch(String(rippled["Note"]), /no ripple/);
  });

  it("passes ripple on through a ratio stage that has no figure of its own, but not through a regulated one", () => {
    const rippled = { ...PACK, "Ripple V rms": 12, "Ripple V peak": 12 };
    const lights = {
      Item: "Lights",
      "Fed from": "Bus stage",
      Kind: "regulated",
      Voltage: 24,
      Tolerance: 0.05,
      Isolation: "reinforced",
      "Trip V": 30,
    };
    const [, stage, lamp, light] = bands(table(rippled, STAGE, LAMP, lights));
    // 12 V · 1.01/12 = 1.01 V: 59.42167/60 + 1.01/30 = 1.02403.
    near(stage?.["Margin in service"], -0.02403);
    near(lamp?.["Margin in service"], -0.02403);
    assert.match(String(stage?.["Note"]), /ripple of what feeds it counted/);
    near(light?.["Margin in service"], 1 - 25.2 / 60);
    assert.match(String(light?.["Note"]), /no ripple counted/);
  });

  it("lifts all that shares the input of a step-up that is not reinforced, and says which fault does", () => {
    const rows = bands(
      table(
        { Item: "Battery", Kind: "supply", Voltage: 48, "Highest V": 57 },
        { Item: "Bus load", "Fed from": "Battery", Kind: "power load" },
        {
          Item: "Up",
          "Fed from": "Battery",
          Kind: "ratio",
          Ratio: 8,
          Tolerance: 0.02,
          Isolation: "basic",
        },
      ),
    );
    for (const { Item, ...row } of rows.slice(0, 2)) {
      near(row["In service V"], 57);
      near(row["After one fault V"], 465.12);
      assert.equal(row["Band after one fault"], "ES3", String(Item));
      assert.equal(row["Which fault"], "Up: input and output joined");
      near(row["Margin after one fault"], 1 - 465.12 / 60);
    }
    assert.equal(rows[2]?.["Which fault"], "–");
    assert.deepEqual(
      rows.map((row) => row["Isolation to the supply"]),
      ["–", "–", "basic"],
    );
  });

  it("says what is not determined and which row lacks what, and answers for the rest", () => {
    const rows = bands(
      table(
        PACK,
        { ...STAGE, Isolation: "basic" },
        {
          Item: "Boost",
          "Fed from": "Bus stage",
          Kind: "regulated",
          Voltage: 80,
          Tolerance: 0.05,
          Isolation: "none",
        },
        LAMP,
        { Item: "Alone", Kind: "supply", Voltage: 12, "Highest V": 14 },
        { Item: "Torn", "Fed from": "Alone", Kind: "ratio", Ratio: 0.5 },
      ),
    );
    const lamp = rows[3]!;
    near(lamp["In service V"], 59.4217);
    assert.equal(lamp["After one fault V"], "not determined");
    assert.equal(lamp["Band after one fault"], "not determined");
    assert.equal(lamp["Margin after one fault"], "not determined");
    assert.equal(lamp["Which fault"], "not determined");
    assert.match(String(lamp["Note"]), /^"Boost": Trip V must be given, got nothing; no ripple/);
    assert.equal(rows[5]?.["In service V"], "not determined");
    assert.match(String(rows[5]?.["Note"]), /^Tolerance must be a fraction/);
    assert.match(String(rows[4]?.["Note"]), /^"Torn": Tolerance must be/);
    near(rows[4]?.["In service V"], 14);
  });

  it("is not determined where the framework prints no figure for wet or holds no rule for ripple", () => {
    for (const row of bands(FERRY, asked("IEC 62368-1", "wet"))) {
      for (const column of ["Band in service", "Limit V", "Margin in service"])
        assert.equal(row[column], "not determined");
      assert.match(String(row["Note"]), /^IEC 62368-1 gives no limit for wet/);
    }
    const rippled = table({ ...PACK, "Ripple V rms": 1 });
    const [pack] = bands(rippled, asked("ISO 6469-3", "dry"));
    assert.equal(pack?.["Band in service"], "not determined");
    assert.match(String(pack["Note"]), /^no rule for ripple of ISO 6469-3/);
    assert.equal(pack["Limit V"], 60);
    const peak = table({ ...PACK, "Ripple V peak": 1 });
    assert.match(String(bands(peak)[0]?.["Note"]), /^Ripple V rms must be given where the peak is/);
  });

  it("counts a place that is not given as wet", () => {
    const [, stage] = bands(FERRY, [["Framework", "IEC 60364-4-41"]]);
    assert.equal(stage?.["Limit V"], 30);
    assert.match(String(stage["Note"]), /condition not given: counted as wet/);
  });

  it("does not let a limit that is no longer in its band pass for within it", () => {
    const fifty = table({ ...PACK, Voltage: 50, "Highest V": 50 });
    const [row] = bands(fifty, asked("US workplace", "dry"));
    assert.equal(row?.["Band in service"], "50 V or more");
    assert.equal(row["Margin in service"], 0);
  });

  it("reads headings, further columns and empty rows of what is asked for", () => {
    const wide: CellTable = [
      ["Asked for", "Value", "Unit"],
      ["place", "DRY", ""],
      [null, null, null],
      [" framework ", "iec 62368-1", "standard"],
    ];
    assert.deepEqual(bands(FERRY, wide), bands(FERRY));
  });

  it("refuses by name what it cannot read of what is asked for", () => {
    const cases: readonly (readonly [CellTable, string])[] = [
      [
        [["Place", "dry"]],
        'asked for must be given: a row with Framework in its first column and "IEC 62368-1" or "IEC 60364-4-41" or "ISO 6469-3" or "US workplace" beside it, got nothing',
      ],
      [
        [...DRY, ["Load mragin", 0.2]],
        'asked for must be one of the labels that are known, "Load margin" is the nearest, got "Load mragin"',
      ],
      [
        [...DRY, ["place", "wet"]],
        'asked for must be a range with "Place" in one row, got "Place"',
      ],
      [
        asked("IEC 60950-1", "dry"),
        'asked for must be "IEC 62368-1" or "IEC 60364-4-41" or "ISO 6469-3" or "US workplace" beside Framework, got "IEC 60950-1"',
      ],
      [
        asked("IEC 62368-1", "damp"),
        'asked for must be "dry" or "wet" or "immersed" beside Place, got "damp"',
      ],
      [
        [...DRY, ["", "dry"]],
        "asked for must be given: a value without a label beside it, got nothing",
      ],
    ];
    for (const [cells, message] of cases) assert.equal(refusal(cells), message);
    const passed = evaluate("CHAIN_BANDS", [FERRY, asked({ error: "#REF!" }, "dry")]);
    assert.ok(!passed.ok && passed.code === "#REF!");
  });

  it("has a working in which every voltage and margin is repeated, whatever the feed", () => {
    const row = fc.record({
      parent: fc.nat(),
      kind: fc.constantFrom("run", "ratio", "regulated", "power load"),
      ratio: fc.constantFrom(1 / 8, 1, 4),
      isolation: fc.constantFrom("none", "basic", "reinforced"),
      trip: fc.constantFrom(30, 90, null),
      ripple: fc.constantFrom(0.1, 2, null),
    });
    fc.assert(
      fc.property(
        fc.array(row, { minLength: 1, maxLength: 12 }),
        fc.constantFrom(DRY, asked("IEC 60364-4-41", "wet")),
        (rows, askedFor) => {
          const figures: Figures[] = [{ ...PACK, "Ripple V rms": 0.5 }];
          for (const one of rows) {
            const feeding = figures.filter(({ Kind }) => Kind !== "power load");
            figures.push({
              Item: `item ${figures.length}`,
              "Fed from": feeding[one.parent % feeding.length]!.Item!,
              Kind: one.kind,
              Voltage: one.kind === "regulated" ? 24 : null,
              Ratio: one.kind === "ratio" ? one.ratio : null,
              Tolerance: 0.02,
              Isolation: one.isolation,
              "Trip V": one.trip,
              "Ripple V rms": one.ripple,
            });
          }
          const outcome = evaluate("CHAIN_BANDS", [table(...figures), askedFor]);
          assert.ok(outcome.ok);
          const workings = outcome.working();
          for (const { givens, steps, values } of workings) {
            assertSteps(steps, values);
            for (const field of [...Object.keys(givens), ...Object.keys(steps)])
              assert.equal(typeof values[field], "number", field);
          }
          const shown = new Set(
            workings.flatMap(({ givens, steps, values }) =>
              Object.keys({ ...givens, ...steps }).map((field) => values[field]),
            ),
          );
          for (const cell of (outcome.value as CellTable).slice(1).flat())
            if (typeof cell === "number") assert.ok(shown.has(cell), `${cell}`);
        },
      ),
      { numRuns: 60 },
    );
  });
});
