import assert from "node:assert/strict";
import fc from "fast-check";
import { describe, it } from "vitest";
import type { Cell, CellTable } from "../../functions/cells.js";
import { evaluate } from "../../functions/runner.js";
import { CHECK_NAMES, CHECKS_COLUMNS, VERDICTS, WEIGHTS } from "../../src/judgement/check-row.js";
import { REQUIREMENTS } from "../../src/judgement/requirements.js";
import { trackside } from "../feeds/trackside.js";
import { askedFor, block, type TypedFeed } from "../feeds/typed-feed.js";
import { umbilical } from "../feeds/umbilical.js";
import { randomFeed } from "../helpers/random-feed.js";
import {
  askedWith,
  changed,
  found,
  type Judged,
  judged,
  judgedFeed,
  number,
  tableOf,
} from "./judged.js";

const HAND_MADE: CellTable = [
  ["Item", "Fed from", "Kind", "Voltage (V)", "Resistance (Ω)", "Load", "Lowest V", "Highest V"],
  ["Bus", "", "supply", 400, "", "", 380, 420],
  ["Cable", "Bus", "run", "", 2, "", "", ""],
  ["Camp", "Cable", "power load", "", "", 7500, 300, 450],
];

const DROP: CellTable = [["Largest drop of a cable", 0.05]];

function refusal(askedFor: CellTable): string {
  const outcome = evaluate("CHAIN_CHECKS", [HAND_MADE, askedFor]);
  assert.ok(!outcome.ok);
  assert.equal(outcome.argument, "asked for");
  return outcome.message;
}

describe("a limit that does not belong to its band", () => {
  // 29 CFR 1910.303(g)(2)(i): live parts "operating at 50 volts or more" are guarded, so that 50 V itself is.
  it.each([
    [49.9, "holds"],
    [50, "fails"],
    [50.1, "fails"],
  ])("is beyond it at %s V: %s", (volts, verdict) => {
    const table: CellTable = [
      ["Item", "Fed from", "Kind", "Voltage (V)", "Load", "Lowest V", "Highest V"],
      ["Bus", "", "supply", volts, "", 45, volts],
      ["Lamp", "Bus", "resistance load", "", 100, "", ""],
    ];
    const rows = judged(table, [
      ["Framework", "US workplace"],
      ["Place", "dry"],
    ]);
    assert.equal(found(rows, "Bus", "Band in service")["Verdict"], verdict);
  });
});

describe("a band without a ripple figure", () => {
  const table = (own: Readonly<Record<string, Cell>>): CellTable =>
    changed(
      [
        [
          ...["Item", "Fed from", "Kind", "Voltage (V)", "Ratio", "Load", "Highest V"],
          ...["Tolerance", "Isolation", "Access"],
        ],
        ["Pack", "", "supply", 630, "", "", 706, "", "", "locked"],
        ["Bus", "Pack", "ratio", "", 1 / 12, "", "", 0.01, "reinforced", ""],
        ["Lamp", "Bus", "current load", "", "", 5, "", "", "", own["Access"] ?? ""],
      ],
      "Bus",
      own,
    );
  const worstIn = (
    item: string,
    check: "Band in service" | "Band after one fault",
    own: Readonly<Record<string, Cell>> = {},
  ) => {
    const asked: CellTable = [
      ["Framework", "IEC 62368-1"],
      ["Place", "dry"],
    ];
    const row = found(judged(table(own), asked), item, check);
    assert.equal(row["Verdict"], "holds");
    return row["Worst in"];
  };

  // 706 V ÷ 12 · 1.01 = 59.4217 V, of 60 V.
  it("says that none is counted, in service and after one fault", () => {
    for (const check of ["Band in service", "Band after one fault"] as const) {
      assert.match(
        String(worstIn("Bus", check)),
        /^Bus, 59\.42 V without load or drop(, .+)?, no ripple counted$/,
      );
      assert.doesNotMatch(String(worstIn("Bus", check, { "Ripple V rms": 0.1 })), /ripple/);
    }
  });

  it("says it of what is enclosed too", () => {
    const enclosed = worstIn("Bus", "Band in service", { Access: "enclosed" });
    assert.match(String(enclosed), /^all 2 items, 59\.42 V at most, no ripple counted$/);
  });
});

describe("the table of disconnection times", () => {
  // IEC 60364-4-41, Table 41.1, from memory: dc above 230 V up to 400 V, 0.4 s of TN and 0.2 s of TT, final circuits.
  it.each([
    ["table 41.1", 0.4, "holds"],
    ["table 41.1 TT", 0.2, "fails"],
    ["Table 41.1 tt", 0.2, "fails"],
    ["not asked", "–", "not asked"],
  ] as const)("is that of its own system: %s", (word, limit, verdict) => {
    const table: CellTable = [
      [
        ...["Item", "Fed from", "Kind", "Voltage (V)", "Resistance (Ω)", "Load"],
        ...["In line kind", "Clears at A", "Within s"],
      ],
      ["Bus", "", "supply", 350, 0.1, "", "", "", ""],
      ["Fuse", "Bus", "series", "", 0.02, "", "fuse", 45, 0.3],
      ["Cable", "Fuse", "run", "", 1, "", "", "", ""],
      ["Lamp", "Cable", "current load", "", "", 5, "", "", ""],
    ];
    const rows = judged(table, [["Far-end fault cleared within", word]]);
    const row = found(rows, "Cable", "Fuse clears in time");
    assert.deepEqual([row["Limit"], row["Verdict"]], [limit, verdict]);
  });
});

describe("the heat of a cable", () => {
  const HEADERS =
    "Item|Fed from|Kind|Voltage (V)|Resistance (Ω)|Load|Size|Outer diameter (mm)|Insulation|Hottest (°C)|Conductor at most (°C)";
  const feed = (more: readonly (readonly [string, Cell])[]): CellTable => [
    [...HEADERS.split("|"), ...more.map(([header]) => header)],
    ["Bus", "", "supply", 400, 0.1, ...Array<Cell>(6 + more.length).fill("")],
    ["Run", "Bus", "run", "", 1, "", "4 mm²", 12, "PVC", 40, 70, ...more.map(([, cell]) => cell)],
    ["Lamp", "Run", "current load", "", "", 10, ...Array<Cell>(5 + more.length).fill("")],
  ];
  const worstIn = (more: readonly (readonly [string, Cell])[]) =>
    String(found(judged(feed(more), []), "Run", "Insulation temperature")["Worst in"]);

  it("says what is taken for granted where nothing is given", () => {
    assert.match(worstIn([]), /taken as alone, out of the sun, at sea level$/);
    assert.match(
      worstIn([
        ["Grouping", 0.8],
        ["Sun (W/m²)", 0],
      ]),
      /taken as at sea level$/,
    );
    assert.doesNotMatch(
      worstIn([
        ["Grouping", 1],
        ["Sun (W/m²)", 500],
        ["Altitude (m)", 900],
      ]),
      /taken as/,
    );
  });
});

describe("what is asked for", () => {
  it("leaves a check open where it is empty, and does not ask where it says so", () => {
    const open = found(judged(HAND_MADE, [["Framework"]]), "Cable", "Drop");
    assert.deepEqual(
      [open["Verdict"], open["Cause"], open["Column"], open["Found"]],
      ["not determined", "Asked for", "Largest drop of a cable", "–"],
    );
    const not = found(
      judged(HAND_MADE, [["Largest drop of a cable", "Not asked"]]),
      "Cable",
      "Drop",
    );
    assert.deepEqual(
      [not["Verdict"], not["Weight"], not["Enter or try"]],
      ["not asked", "note", ""],
    );
  });

  it("never lets a window or a rating that is left pass for open or not asked", () => {
    const low = changed(HAND_MADE, "Camp", { "Lowest V": 390 });
    for (const value of ["", "not asked", 0.03]) {
      const rows = judged(low, [["Margin to each window", value]]);
      const row = found(rows, "Camp", "Input above lowest");
      assert.equal(row["Verdict"], "fails", String(value));
    }
    const within = (value: Cell) =>
      found(judged(HAND_MADE, [["Margin to each window", value]]), "Camp", "Input above lowest")[
        "Verdict"
      ];
    assert.equal(within(""), "not determined");
    assert.equal(within("not asked"), "holds");
    assert.equal(within(0), "holds");
    assert.equal(within(0.2), "fails");
  });

  it("refuses labels that are unknown or stand there twice, and values that cannot be", () => {
    assert.equal(
      refusal([["Largest drop of the cable", 0.05]]),
      'asked for must be one of the labels that are known, "Largest drop of a cable" is the nearest, got "Largest drop of the cable"',
    );
    assert.equal(
      refusal([...DROP, ...DROP]),
      'asked for must be a range with "Largest drop of a cable" in one row, got "Largest drop of a cable"',
    );
    assert.equal(
      refusal([["Largest drop of a cable", 5]]),
      'asked for must be above 0 and at most 1 (0.05 for 5 %), or "not asked", beside Largest drop of a cable, got 5',
    );
    assert.equal(
      refusal([["Far-end fault cleared within", "soon"]]),
      'asked for must be above 0, or "table 41.1", or "table 41.1 TT", or "not asked", beside Far-end fault cleared within, got "soon"',
    );
    const passed = evaluate("CHAIN_CHECKS", [HAND_MADE, [["Stored energy", { error: "#REF!" }]]]);
    assert.ok(!passed.ok && passed.code === "#REF!");
  });

  it("takes a blank that a host hands over as 0 for a blank", () => {
    const asZero: CellTable = [
      ["Spare capacity of the supply", 0],
      ["Largest drop of a cable", 0],
      [0, 0],
    ];
    const rows = judged(HAND_MADE, asZero);
    for (const [item, check] of [
      ["Bus", "Spare capacity"],
      ["Cable", "Drop"],
    ] as const)
      assert.equal(found(rows, item, check)["Verdict"], "not determined");
    // With a closing row that is told, 0 is what it says.
    const told = judged(changed(HAND_MADE, "Bus", { "Rated A": 30 }), [
      ["Spare capacity of the supply", 0],
      [null, null],
    ]);
    assert.equal(found(told, "Bus", "Spare capacity")["Verdict"], "holds");
  });
});

describe("the rows of a judgement", () => {
  it("judge a feed table of the first columns alone, and say what is missing of it", () => {
    const rows = judged(HAND_MADE, DROP);
    // 380 V behind 2 Ω at 7500 W: (380 + √(380² − 4 · 2 · 7500))/2 = 335.3 V at the camp.
    const camp = (380 + Math.sqrt(380 ** 2 - 60_000)) / 2;
    const row = found(rows, "Camp", "Input above lowest");
    assert.ok(Math.abs(number(row, "Found") - camp) < 1e-9);
    const drop = found(rows, "Cable", "Drop");
    assert.ok(Math.abs(number(drop, "Found") - (380 - camp) / 400) < 1e-12);
    // With 2/3 Ω: (380 + √(380² − 4 · 7500 · 2/3))/2 = 366.35 V, 13.65 V of 400 V.
    assert.equal(drop["Enter or try"], "Set In parallel of Cable to 3: drop 3.412 %");
    assert.equal(drop["Column"], "In parallel");
    const three = changed(HAND_MADE, "Cable", { "In parallel": 3 });
    assert.equal(found(judged(three, DROP), "Cable", "Drop")["Verdict"], "holds");
    assert.equal(
      found(rows, "Cable", "Cable rated for the voltage")["Enter or try"],
      "enter Rated V of Cable",
    );
  });

  it("have one row for a tree that is refused, and judge the others", () => {
    const two: CellTable = [
      ...HAND_MADE,
      ["Other", "", "supply", 100, "", "", 90, 110],
      ["Wire", "Other", "run", "", "", "", "", ""],
      ["Lamp", "Wire", "power load", "", "", 10, 50, 120],
      ["Loose", "", "power load", "", "", 10, 50, 120],
    ];
    const rows = judged(two, DROP);
    const point = found(rows, "Other", "Operating point");
    assert.deepEqual(
      [point["Verdict"], point["Weight"], point["Cause"], point["Column"]],
      ["not determined", "danger", "Wire", "Resistance (Ω)"],
    );
    assert.equal(rows.filter(({ Item }) => Item === "Wire").length, 0);
    assert.equal(rows.filter(({ Item }) => Item === "Other").length, 1);
    const loose = found(rows, "Loose", "Operating point");
    assert.equal(loose["Column"], "Fed from");
    assert.equal(found(rows, "Cable", "Drop")["Verdict"], "fails");
  });

  it("say of a cell that cannot be read what it must be", () => {
    const odd = changed(HAND_MADE, "Cable", {
      "Rated V": "high",
      Surroundings: "water",
    });
    const rows = judged(odd, DROP);
    assert.match(
      String(found(rows, "Cable", "Cable rated for the voltage")["Enter or try"]),
      /^enter Rated V of Cable: it must be a number/,
    );
    assert.match(
      String(found(rows, "Cable", "Conductor temperature")["Enter or try"]),
      /^Cable lies in water: its heat is reckoned in still air only/,
    );
  });

  it("count contacts at the end of their life, and faults with new ones", () => {
    const feed = changed(tableOf(umbilical({ tolerance: "exact" })), "Slip ring", {
      "Resistance (Ω)": 4,
      "Breaks A": "",
    });
    const { askedFor } = umbilical();
    const fresh = judged(feed, askedFor);
    const worn = judged(feed, askedWith(askedFor, { "Contacts at end of life, times new": 1.5 }));
    const level = (rows: readonly Judged[]) =>
      number(found(rows, "Topside supply", "Drop of a voltage level"), "Found");
    assert.ok(level(worn) > level(fresh) * 1.02);
    assert.match(
      String(found(worn, "Sea part", "Drop")["Worst in"]),
      /hot, contacts at end of life/,
    );
    const breaks = (rows: CellTable, more: Readonly<Record<string, Cell>>) =>
      found(
        judged(changed(rows, "Topside fuse", { "Breaks A": 100 }), askedWith(askedFor, more)),
        "Topside fuse",
        "Fuse breaks the fault",
      )["Limit"];
    assert.equal(breaks(feed, { "Contacts at end of life, times new": 1.5 }), breaks(feed, {}));
  });

  it("find more current of a heater on cold cables", () => {
    const heater: CellTable = [
      [
        "Item",
        "Fed from",
        "Kind",
        "Voltage (V)",
        "Resistance (Ω)",
        "Least resistance (Ω)",
        "Load",
        "Lowest V",
        "Highest V",
        "Rated A",
      ],
      ["Bus", "", "supply", 400, "", "", "", 380, 420, 50],
      ["Cable", "Bus", "run", "", 2, 1.5, "", "", "", 30],
      ["Oven", "Cable", "resistance load", "", "", "", 14, "", "", 30],
    ];
    const row = found(judged(heater, [["Largest loading of a cable", 1]]), "Cable", "Loading");
    assert.ok(Math.abs(number(row, "Found") - 420 / 15.5 / 30) < 1e-12);
    assert.match(String(row["Worst in"]), /highest supply, cold$/);
  });

  it("mend what they say they mend", () => {
    const { askedFor } = umbilical();
    const mends: readonly (readonly [
      string,
      Parameters<typeof found>[2],
      string,
      Readonly<Record<string, Cell>>,
    ])[] = [
      [
        "Node 24 V",
        "Loading",
        "Set In parallel of Node 24 V to 2: loading 51.51 %",
        { "In parallel": 2 },
      ],
      [
        "Main stage",
        "One unit lost",
        "Set In parallel of Main stage to 3: loading 42.82 %",
        { "In parallel": 3 },
      ],
      [
        "Topside supply",
        "Spare capacity",
        "Set Rated W of Topside supply to 1220 W or more",
        { "Rated W": 1220 },
      ],
      [
        "Sea part",
        "Cable rated for the voltage",
        "Set Rated V of Sea part to 1040 V or more",
        { "Rated V": 1040 },
      ],
      [
        "Main stage",
        "Stored energy",
        "Set Input capacitance of Main stage to 18.4 µF or less",
        { "Input capacitance (µF)": 18.4 },
      ],
    ];
    const feed = tableOf(umbilical({ tolerance: "exact" }));
    const rows = judged(feed, askedFor);
    for (const [item, check, text, figures] of mends) {
      const row = found(rows, item, check);
      assert.equal(row["Verdict"], "fails");
      assert.equal(row["Enter or try"], text);
      const mended = found(judged(changed(feed, item, figures), askedFor), item, check);
      assert.equal(mended["Verdict"], "holds", text);
    }
  });

  /** Stages of 24 V and 12 V behind 400 V, each a little above what its load allows. */
  function tooHigh(own: Readonly<Record<string, Cell>> = {}): TypedFeed {
    const values = {
      "Voltage of Hold": 24,
      "Highest V": 24.2,
      Price: 90,
      "Thick price": 6,
      ...own,
    };
    return {
      blocks: [
        block(["Supply", "Lowest V", "Voltage (V)", "Highest V"], ["Bus", 360, 400, 430]),
        block(
          ["Stage", "Fed from", "Type", "Tolerance", "Isolation", "Overvoltage trip (V)"],
          ["Down", "Bus", "8 to 1", 0.01, "basic"],
          ["Hold", "Down", "24 V", 0.02, "none", 30],
        ),
        block(
          [
            ...["Stage type", "Kind", "Steps down by", "Voltage (V)", "Lowest V", "Highest V"],
            ...["Rated A", "Efficiency", "Price", "Mass (kg)"],
          ],
          ["8 to 1", "ratio", 8, null, 300, 480, 10, 0.97, 300, 2],
          [
            "24 V",
            "regulated",
            null,
            values["Voltage of Hold"]!,
            30,
            60,
            5,
            0.9,
            values.Price,
            0.5,
          ],
        ),
        block(
          [
            "Cable",
            "Fed from",
            "Length (m)",
            "Size",
            "Conductor at most (°C)",
            "Price per m",
            "Mass (kg/m)",
          ],
          ["Thin", "Hold", 20, "2.5 mm²", 40, 2, 0.1],
          ["Thick", "Hold", 10, "4 mm²", 40, values["Thick price"]!, 0.15],
        ),
        block(
          ["Load", "Fed from", "Kind", "Nominal", "Lowest V", "Highest V"],
          ["Lamp", "Thin", "current", 5, 20, values["Highest V"]!],
          ["Pump", "Down", "power", 100, 40, 54],
        ),
      ],
      askedFor: askedFor({
        "Load margin": 0,
        Place: "dry",
        "Margin to each window": 0,
        "Largest drop of a cable": 0.05,
        "Largest loading of a stage": 0.9,
      }),
    };
  }

  it("lower the one voltage that a load sees too much of", () => {
    const rows = judgedFeed(tooHigh());
    const lamp = found(rows, "Lamp", "Input below highest");
    // 24.2 ÷ 1.02 = 23.73 V; 430 V · 1.01 ÷ 54 V = 8.0426.
    assert.equal(lamp["Enter or try"], "Set Voltage of Hold to 23.7 V or less: 24.17 V at Lamp");
    assert.equal(
      found(rows, "Pump", "Input below highest")["Enter or try"],
      "Set Steps down by of Down to 8.05 or more: 53.95 V at Pump",
    );
    const mended = judgedFeed(tooHigh({ "Voltage of Hold": 23.7 }));
    assert.equal(found(mended, "Lamp", "Input below highest")["Verdict"], "holds");
  });

  it("put reinforced insulation where that alone holds a fault back", () => {
    const rows = judgedFeed(tooHigh());
    // 430 V ÷ 8 · 1.01 = 54.29 V stay, with 60 V allowed.
    assert.equal(
      found(rows, "Down", "Band after one fault")["Enter or try"],
      "Set Isolation of Down to reinforced, if it is: 54.29 V at Down",
    );
  });

  it("say what they cost and weigh more, where both are given", () => {
    const drop = (own: Readonly<Record<string, Cell>>) =>
      found(judgedFeed(tooHigh(own)), "Thin", "Drop")["Enter or try"];
    // 20 m · (6 − 2) EUR/m and · (0.15 − 0.1) kg/m.
    assert.match(
      String(drop({})),
      /^Set Size of Thin to 4 mm²: drop 4\.\d+ %, \+ 80 EUR, \+ 1 kg$/,
    );
    assert.match(String(drop({ "Thick price": null })), /: drop 4\.\d+ %, \+ 1 kg$/);
    const hold = found(judgedFeed(tooHigh()), "Hold", "Loading");
    assert.match(
      String(hold["Enter or try"]),
      /^Set In parallel of Hold to 2: .+, \+ 90 EUR, \+ 0\.5 kg$/,
    );
  });

  it("have a working of one row, only where that row is asked for", () => {
    const feed = trackside();
    const outcome = evaluate("CHAIN_CHECKS", [tableOf(feed), feed.askedFor]);
    assert.ok(outcome.ok);
    assert.deepEqual(outcome.working(), []);
    const rows = outcome.value as CellTable;
    const at = rows.findIndex(([item, check]) => item === "Point cable" && check === "Drop");
    const workings = outcome.working(at);
    const last = workings.at(-1)!;
    assert.equal(last.title, "Point cable, Drop: at most 0.05 of 46.88 V");
    assert.equal(last.values["found"], rows[at]![3]);
    assert.equal(last.values["margin"], rows[at]![7]);
    assert.match(workings[0]!.title, /^Point cable, peak loads, lowest supply/);
  });

  it("hold together for any feed and whatever is asked, and none is lost", () => {
    const asked = fc.subarray(
      Object.entries(REQUIREMENTS).map(([label, { content }]): [string, Cell] => [
        label,
        content.holds === "word"
          ? content.words[0]!
          : content.holds === "text"
            ? "EUR"
            : content.allows(0.5)
              ? 0.5
              : 1,
      ]),
    );
    fc.assert(
      fc.property(randomFeed, asked, (items, labels) => {
        const table: CellTable = [
          [
            "Item",
            "Fed from",
            "Kind",
            "Voltage",
            "Resistance",
            "Ratio",
            "Fixed loss",
            "Linear loss",
            "Quadratic loss",
            "Efficiency",
            "Load",
            "In parallel",
            "Lowest V",
            "Highest V",
          ],
          ...items.map((one) => [
            one.item,
            one.fedFrom ?? "",
            one.kind,
            one.voltage ?? "",
            one.resistance ?? "",
            one.ratio ?? "",
            one.fixedLoss ?? "",
            one.linearLoss ?? "",
            one.quadraticLoss ?? "",
            one.efficiency ?? "",
            one.load ?? "",
            one.inParallel,
            one.lowestVoltage ?? "",
            one.highestVoltage ?? "",
          ]),
        ];
        const rows = judged(table, labels.length > 0 ? labels : [["Framework"]]);
        const order = new Map(items.map(({ item }, at) => [item, at]));
        let last = -Infinity;
        for (const row of rows) {
          const { Item, Check, Verdict, Weight, Margin } = row;
          assert.ok(CHECK_NAMES.some((name) => name === Check));
          assert.ok(VERDICTS.some((one) => one === Verdict));
          assert.ok(WEIGHTS.some((one) => one === Weight));
          const place =
            (Item === "Whole feed" ? -1 : order.get(String(Item))!) * 100 +
            CHECK_NAMES.findIndex((name) => name === Check);
          assert.ok(place > last, `${String(Item)}: ${String(Check)}`);
          last = place;
          if (typeof Margin === "number")
            assert.ok(
              Verdict === "fails" ? Margin < 0 : Margin >= -1e-9,
              `${String(Check)} ${String(Verdict)} ${Margin}`,
            );
          if (Verdict === "fails" || Verdict === "not determined")
            assert.notEqual(row["Enter or try"], "");
          assert.equal(Object.keys(row).length, CHECKS_COLUMNS.length);
        }
        // Each supply's tree has its operating point, or says why not.
        const points = rows.filter(({ Check }) => Check === "Operating point");
        assert.equal(points.length, items.filter(({ kind }) => kind === "supply").length);
      }),
      { numRuns: 40 },
    );
  });

  it("are the same whatever else was judged before", () => {
    const feed = trackside();
    const before = judgedFeed(feed);
    judgedFeed(umbilical());
    judgedFeed(trackside({ pointMachines: 4 }));
    assert.deepEqual(judgedFeed(feed), before);
  });
});
