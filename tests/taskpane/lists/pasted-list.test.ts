/** Somebody's list as rows of a schedule: what is taken, what is left out and why, and what its next issue changes. All lists invented. */
import assert from "node:assert/strict";
import { describe, it } from "vitest";
import { cellAddress, rangePlace } from "../../../src/plans/addresses.js";
import type { CellTable } from "../../../functions/cells.js";
import { evaluate } from "../../../functions/runner.js";
import { TABLE_BLOCKS } from "../../../src/schedules/columns.js";
import { budgetPlan } from "../../../taskpane/budgets/budget-plan.js";
import { BLOCK_AREAS } from "../../../taskpane/budgets/names.js";
import type { ReadRange } from "../../../taskpane/budgets/reading/found-budget.js";
import { blank } from "../../../taskpane/budgets/samples/blank.js";
import { clipboardRows } from "../../../taskpane/workbook/lists/clipboard-table.js";
import { keepColumns, keptColumns } from "../../../taskpane/workbook/lists/kept-lists.js";
import { readOwnColumns, writeList } from "../../../taskpane/workbook/lists/list-changes.js";
import { decimalSignOf, listFigure } from "../../../taskpane/workbook/lists/list-figures.js";
import {
  type ListChoices,
  type PastedList,
  pastedList,
} from "../../../taskpane/workbook/lists/pasted-list.js";
import { TypedSheets } from "../../../taskpane/workbook/typed-sheets.js";
import { MemoryHost } from "../../hosts/memory-host.js";
import { SURVEY_VESSEL } from "./survey-vessel.js";

/** The sheets of a new feed that are typed on, with the place where lists are kept. */
class ListFeed {
  readonly host = new MemoryHost();
  private stem = "";

  static async begun(): Promise<ListFeed> {
    const feed = new ListFeed();
    const plan = budgetPlan(blank);
    const names: readonly string[] = [...Object.values(BLOCK_AREAS), "Lists"];
    const kept = ["inputs", "feed", "loads", "types", "notes"];
    feed.stem = (
      await feed.host.insert({
        ...plan,
        sheets: plan.sheets
          .filter(({ key }) => kept.includes(key))
          .map((sheet) => ({
            ...sheet,
            cells: sheet.cells.filter(({ formula }) => formula === undefined),
            validations: [],
            conditionalFormats: [],
          })),
        names: plan.names.filter(({ name }) => names.includes(name)),
      })
    ).stem;
    return feed;
  }

  async ranges(): Promise<Readonly<Record<string, ReadRange>>> {
    const names = await this.host.names();
    const contents = await this.host.read(names.map(({ range }) => range));
    return Object.fromEntries(
      names.map(({ name }, index) => {
        const { range, values, formulas } = contents[index]!;
        return [name.slice(this.stem.length + 1), { ...range, values, formulas }];
      }),
    );
  }

  async seen(choices: ListChoices): Promise<PastedList> {
    const ranges = await this.ranges();
    const sheets = TypedSheets.of({ ranges });
    return pastedList(
      choices,
      { ranges },
      sheets,
      await readOwnColumns(this.host, sheets, choices.block),
    );
  }

  async write(choices: ListChoices, basis: string): Promise<void> {
    const ranges = await this.ranges();
    const sheets = await TypedSheets.read(this.host, { ranges });
    const own = await readOwnColumns(this.host, sheets, choices.block);
    const { changes, head } = pastedList(choices, { ranges }, sheets, own);
    const more = writeList(sheets, own, choices.block, changes, basis);
    await this.host.edit([
      ...sheets.edits,
      ...more,
      ...keepColumns({ ranges }, choices.block, head.columns),
    ]);
  }

  /** Rows of the block by name, by header with what stands beside it. */
  async rows(block: "Load" | "Cable"): Promise<ReadonlyMap<string, Record<string, unknown>>> {
    const ranges = await this.ranges();
    const sheets = TypedSheets.of({ ranges });
    const own = await readOwnColumns(this.host, sheets, block);
    const headers = sheets.headers(block);
    return new Map(
      sheets.filledRows(block).map((at) => {
        const cells = sheets.cells(block, at);
        const row = Object.fromEntries([
          ...headers.map((header, column) => [header, cells[column]]),
          ...own.headers.map((header, column) => [header, own.rows[at - 1]?.[column]]),
        ]) as Record<string, unknown>;
        return [String(cells[0]), row] as const;
      }),
    );
  }
}

const choices = (text: string, more: Partial<ListChoices> = {}): ListChoices => ({
  text,
  block: "Load",
  roles: {},
  units: {},
  ...more,
});

const roles = (list: PastedList) =>
  Object.fromEntries(list.head.columns.map(({ header, role, unit }) => [header, [role, unit]]));

const tabbed = (...rows: readonly string[]) =>
  rows.map((row) => row.replaceAll(" | ", "\t")).join("\n");

describe("text of a clipboard", () => {
  it("is cells, also where quotes hold tabs, line ends and quotes", () => {
    assert.deepEqual(clipboardRows('a\t"b\tc"\r\n"1\n2"\t"say ""no"""\n'), [
      ["a", "b c"],
      ["1 2", 'say "no"'],
    ]);
  });

  it("keeps a quote that nothing closes: inches", () => {
    assert.deepEqual(clipboardRows('Pipe 2"\t3\n" x\t4'), [
      ['Pipe 2"', "3"],
      ['" x', "4"],
    ]);
  });

  it("is parted by semicolons where there is no tab", () => {
    assert.deepEqual(clipboardRows("a;b\n1,5;2"), [
      ["a", "b"],
      ["1,5", "2"],
    ]);
  });
});

describe("a figure of a list", () => {
  it.each([
    ["1,5", undefined, 1.5, ""],
    ["1.250,5", undefined, 1250.5, ""],
    ["1,250.5", undefined, 1250.5, ""],
    ["1.250", ",", 1250, ""],
    ["1.250", ".", 1.25, ""],
    ["1,250", ".", 1250, ""],
    ["0,125", undefined, 0.125, ""],
    ["1 250", undefined, 1250, ""],
    ["12'500,5", undefined, 12500.5, ""],
    ["1.250.000", undefined, 1250000, ""],
    ["0,375 kW", undefined, 0.375, "kW"],
    ["−5 °C", undefined, -5, "°C"],
    ["60%", undefined, 60, "%"],
  ] as const)("%s with %s as decimal sign", (text, sign, number, unit) => {
    assert.deepEqual(listFigure(text, sign), { is: "figure", number, unit });
  });

  it.each(["TBD", "by others", "2+1", "100-150", "10:00", "12.5.3", "~100", "2x2.5", "1 25"])(
    "%s is none",
    (text) => assert.equal(listFigure(text, undefined).is, "text"),
  );

  it("is either of two where nothing tells, and empty where a dash stands", () => {
    assert.equal(listFigure("1,250", undefined).is, "either");
    assert.equal(listFigure("1.250", undefined).is, "either");
    assert.equal(listFigure("–", undefined).is, "empty");
  });

  it("tells the decimal sign of its list, or not", () => {
    assert.equal(decimalSignOf(["12", "1.250", "0,5"]), ",");
    assert.equal(decimalSignOf(["1,250", "12.5"]), ".");
    assert.equal(decimalSignOf(["1,250", "300"]), undefined);
    assert.equal(decimalSignOf(["1,5", "2.5"]), undefined);
  });
});

describe("eighty rows of a load list", () => {
  it("are taken whole: 4 312 W in the list, 4 312 W taken", async () => {
    const feed = await ListFeed.begun();
    const list = await feed.seen(choices(SURVEY_VESSEL));
    assert.deepEqual(roles(list), {
      "Pos.": ["#", ""],
      Tag: ["Load", ""],
      Description: ["#", ""],
      Qty: ["Quantity", ""],
      "Unit power": ["Nominal", "W"],
      Total: ["#", ""],
      Panel: ["Fed from", ""],
      Simultaneity: ["#", ""],
      State: ["#", ""],
      Standing: ["#", ""],
      "Min. voltage": ["Lowest V", "V"],
      "Max. voltage": ["Highest V", "V"],
      Remarks: ["#", ""],
    });
    assert.equal(list.sign, ",");
    assert.equal(list.read.rows.length, 80);
    assert.deepEqual(list.read.sum, { unit: "W", inList: 4312, taken: 4312, stated: 4312 });
    assert.ok(list.isReady);
    assert.deepEqual(list.unknownFeeders, ["DB-1", "DB-2", "DB-3"]);
  });

  it("leave out totals, titles, the headers of the second page, and say so line by line", async () => {
    const feed = await ListFeed.begun();
    const { read } = await feed.seen(choices(SURVEY_VESSEL));
    const why = new Map<string, number>();
    for (const one of read.leftOut) why.set(one.why, (why.get(one.why) ?? 0) + 1);
    assert.deepEqual(Object.fromEntries(why), {
      "a title": 8,
      "a total of the rows above": 9,
      "not an item": 2,
      "the headers again": 2,
      units: 2,
    });
    // The instrument is an item: it has a panel and a quantity.
    const names = read.rows.map(({ name }) => name);
    assert.ok(names.includes("Total station") && names.includes("Total station aft"));
  });

  it("say what cannot be taken as it stands", async () => {
    const feed = await ListFeed.begun();
    const { read } = await feed.seen(choices(SURVEY_VESSEL));
    const remarks = Object.fromEntries(
      read.rows.filter((row) => row.remarks.length > 0).map((row) => [row.name, row.remarks]),
    );
    assert.deepEqual(remarks, {
      "Radar 2": ["Radar is in the list twice: this one is called Radar 2"],
      "Camera aft": ["Nominal: “TBD” is not a number"],
      "TV aft": ["Nominal: “by others” is not a number"],
    });
    const { carried } = read;
    const says = (header: string) => carried.find((one) => one.header === header)?.says;
    assert.equal(
      says("# State"),
      "“in use” in 48 rows of 3,085.75 W, “spare” in 16 rows of 441.75 W, “future” in 16 rows of 784.5 W",
    );
    assert.match(says("# Simultaneity") ?? "", /^“1” in 40 rows/);
    assert.match(says("# Standing") ?? "", /“assumed” in/);
    assert.equal(says("# Remarks"), "");
  });

  it("stand on the sheet with their own columns beside them, in one step that can be undone", async () => {
    const feed = await ListFeed.begun();
    const before = JSON.stringify(await feed.ranges());
    await feed.write(choices(SURVEY_VESSEL), "Load list LL-07, issue B");
    const rows = await feed.rows("Load");
    assert.equal(rows.size, 80);
    const winch = rows.get("Winch brake aft");
    assert.deepEqual(
      {
        feeder: winch?.["Fed from"],
        kind: winch?.["Kind"],
        nominal: winch?.["Nominal"],
        quantity: winch?.["Quantity"],
        basis: winch?.["Basis"],
        section: winch?.["# Section"],
        margin: winch?.["Margin"],
      },
      {
        feeder: "DB-1",
        kind: "power",
        nominal: 375,
        quantity: 1,
        basis: "Load list LL-07, issue B",
        section: "Survey deck aft",
        margin: "",
      },
    );
    assert.equal(rows.get("Sonar head")?.["# Description"], 'Sonar head "port", flush');
    assert.equal(rows.get("Camera aft")?.["Nominal"], "");
    assert.equal(rows.get("Wiper")?.["Lowest V"], "");
    // No factor of the list reaches a column that is read.
    const read = new Set([...rows.values()].flatMap((row) => Object.keys(row)));
    assert.ok(read.has("# Simultaneity"));
    const watts = [...rows.values()].reduce(
      (sum, row) => sum + Number(row["Nominal"]) * Number(row["Quantity"]),
      0,
    );
    assert.ok(Math.abs(watts - 4312) < 1e-9, String(watts));
    feed.host.undo();
    assert.equal(JSON.stringify(await feed.ranges()), before);
  });

  it("are solved as loads once their panels are there: the feed draws what the list adds up to", async () => {
    const feed = await ListFeed.begun();
    const sheets = await TypedSheets.read(feed.host, { ranges: await feed.ranges() });
    const supply = { "Lowest V": 22, Voltage: 24, "Highest V": 26, Resistance: 0 };
    for (const [header, volts] of Object.entries(supply))
      sheets.write("Supply", 1, sheets.columnOf("Supply", header), volts);
    sheets.addRows(
      "In line",
      ["DB-1", "DB-2", "DB-3"].map((name) => ({
        "In line": name,
        "Fed from": "Supply",
        Kind: "fuse",
        Resistance: 0,
      })),
    );
    await feed.host.edit(sheets.edits);
    await feed.write(choices(SURVEY_VESSEL), "");
    const typed = await TypedSheets.read(feed.host, { ranges: await feed.ranges() });
    for (const name of ["Camera aft", "TV aft", "Phone charger aft"])
      typed.write("Load", typed.rowNamed("Load", name), typed.columnOf("Load", "Nominal"), "none");
    await feed.host.edit(typed.edits);
    const ranges = await feed.ranges();
    const blocks = TABLE_BLOCKS.filter((name) => name !== "Asked for").map((name) =>
      ranges[BLOCK_AREAS[name]]!.values.map((row) =>
        row.map((cell) => (cell === "" ? null : cell)),
      ),
    ) as unknown as CellTable[];
    const table = evaluate("CHAIN_TABLE", blocks);
    assert.ok(table.ok, JSON.stringify(table));
    const total = evaluate("CHAIN_TOTAL", [table.value as CellTable, "load power"]);
    assert.ok(total.ok, JSON.stringify(total));
    assert.ok(Math.abs(Number(total.value) - 4312) < 1e-6, String(total.value));
  });

  it("are compared with a later issue by name: changed, new, gone and left", async () => {
    const feed = await ListFeed.begun();
    await feed.write(choices(SURVEY_VESSEL), "Load list LL-07, issue B");
    const same = await feed.seen(choices(SURVEY_VESSEL));
    assert.ok(same.isAsKept);
    assert.deepEqual([same.changes.same, same.changes.changed, same.changes.added], [80, [], []]);
    const issueC = SURVEY_VESSEL.split("\n")
      .filter((line) => !line.includes("\tHorn\t"))
      .join("\n")
      .replace(/\tWiper\t(.*?)\t2\t36\t72\tDB-1\t/, "\tWiper\t$1\t2\t40\t80\tDB-2\t")
      .replace(
        /\n(\d+\tClock\t)/,
        "\n99\tIce lamp\tnew\t1\t20\t20\tDB-1\t1\tin use\tquoted\t\t\t\n$1",
      );
    const { changes } = await feed.seen(choices(issueC));
    assert.deepEqual(
      changes.changed.map(({ row, changes: changed, stays }) => [row.name, changed, stays]),
      [
        [
          "Wiper",
          [
            { header: "Nominal", old: 36, new: 40 },
            { header: "# Total", old: "72", new: "80" },
          ],
          [{ header: "Fed from", old: "DB-1", new: "DB-2" }],
        ],
      ],
    );
    assert.deepEqual(
      changes.added.map(({ name }) => name),
      ["Ice lamp"],
    );
    assert.deepEqual(changes.gone, ["Horn"]);
    await feed.write(choices(issueC), "issue C");
    const rows = await feed.rows("Load");
    assert.equal(rows.size, 81);
    assert.deepEqual(
      ["Wiper", "Horn", "Ice lamp"].map((name) => [
        rows.get(name)?.["Nominal"],
        rows.get(name)?.["Fed from"],
        rows.get(name)?.["Basis"],
      ]),
      [
        [40, "DB-1", "issue C"],
        [24, "DB-1", "Load list LL-07, issue B"],
        [20, "DB-1", "issue C"],
      ],
    );
  });
});

describe("a list", () => {
  const small = tabbed(
    "Item | Load (kW) | Qty",
    "Pump | 1.5 | 2",
    "Fan | 0.3 | 2+1",
    "Heater | 2 kVA | 1",
    " | 0.1 | 1",
  );

  it("that is not taken whole says by how much", async () => {
    const feed = await ListFeed.begun();
    const { read } = await feed.seen(choices(small));
    // Pump 3 kW; what the fan's three are is not known, so 0.3 kW at least; 0.1 kW of something without a name.
    assert.deepEqual(read.sum, { unit: "W", inList: 3400, taken: 3000, stated: undefined });
    assert.deepEqual(
      read.leftOut.map(({ line, why }) => [line, why]),
      [
        [3, "“2+1” is not a number"],
        [5, "no name"],
      ],
    );
    assert.deepEqual(read.rows.find(({ name }) => name === "Heater")?.remarks, [
      "Nominal: “kVA” is not a unit of this quantity",
    ]);
  });

  it("without a unit asks for it, and for the decimal sign where 1,250 stands alone", async () => {
    const feed = await ListFeed.begun();
    const text = tabbed("Tag | Power", "Pump | 1,250", "Fan | 300");
    const list = await feed.seen(choices(text));
    assert.deepEqual(list.read.open, { units: ["Power"], sign: true });
    assert.equal(list.isReady, false);
    const chosen = await feed.seen(choices(text, { units: { 1: "W" }, sign: "." }));
    assert.ok(chosen.isReady);
    assert.deepEqual(chosen.read.sum, { unit: "W", inList: 1550, taken: 1550, stated: undefined });
  });

  it("carries apparent power and energy, and takes none of them for watts", async () => {
    const feed = await ListFeed.begun();
    const text = tabbed(
      "Tag | Power (kVA) | Consumption kWh | Rated power, MW | Power (kW)",
      "Pump | 2 | 48 | 0.001 | 1.5",
    );
    const list = await feed.seen(choices(text));
    assert.deepEqual(
      list.head.columns.map(({ role }) => role),
      ["Load", "#", "#", "#", "Nominal"],
    );
    assert.equal(list.read.rows[0]?.cells["Nominal"], 1500);
  });

  it("of totals alone divides by the quantity", async () => {
    const feed = await ListFeed.begun();
    const text = tabbed("Tag | Qty | Total power (W)", "Pump | 4 | 600", "Fan | 1 | 50");
    const { read, head } = await feed.seen(choices(text));
    assert.equal(head.columns[2]?.role, "Nominal of all");
    assert.deepEqual(read.rows[0]?.cells, {
      Load: "Pump",
      Quantity: 4,
      Nominal: 150,
      Kind: "power",
    });
    assert.equal(read.sum?.taken, 650);
  });

  it("whose own total is not what its row comes to is told", async () => {
    const feed = await ListFeed.begun();
    const text = tabbed(
      "Tag | Qty | W each | Total W",
      "Pump | 4 | 150 | 650",
      "Fan | 2 | 50 | 100",
    );
    const { read } = await feed.seen(choices(text));
    assert.deepEqual(
      read.rows.map(({ remarks }) => remarks),
      [["4 × 150 W is not the 650 W of its total"], []],
    );
  });

  it("in amperes becomes loads of current", async () => {
    const feed = await ListFeed.begun();
    const { read } = await feed.seen(choices(tabbed("Tag | Current (mA)", "LED | 1500")));
    assert.deepEqual(read.rows[0]?.cells, { Load: "LED", Nominal: 1.5, Kind: "current" });
    assert.equal(read.sum?.unit, "A");
  });

  it("takes a section for the location that is called so", async () => {
    const feed = await ListFeed.begun();
    const ranges = await feed.ranges();
    const sheets = await TypedSheets.read(feed.host, { ranges });
    sheets.addRows("Location", [{ Location: "Pump room" }]);
    await feed.host.edit(sheets.edits);
    const text = tabbed("Tag | Power (W)", "Pump room | ", "Pump | 150", "Roof | ", "Fan | 20");
    const { read } = await feed.seen(choices(text));
    assert.deepEqual(
      read.rows.map(({ cells, own }) => [cells["Location"], own]),
      [
        ["Pump room", {}],
        [undefined, { "# Section": "Roof" }],
      ],
    );
  });

  it("leaves a formula on the sheet alone, and says what the list has", async () => {
    const feed = await ListFeed.begun();
    const sheets = await TypedSheets.read(feed.host, { ranges: await feed.ranges() });
    sheets.addRows("Load", [{ Load: "Pump", Kind: "power", Nominal: "=2*75" }]);
    await feed.host.edit(sheets.edits);
    const { changes } = await feed.seen(choices(tabbed("Tag | Power (W)", "pump | 160")));
    assert.deepEqual(
      changes.changed.map(({ changes: changed, stays }) => [changed, stays]),
      [[[], [{ header: "Nominal", old: "=2*75", new: 160 }]]],
    );
  });

  it("is written in the unit that the sheet's own header has", async () => {
    const feed = await ListFeed.begun();
    const ranges = await feed.ranges();
    const { sheet, address } = ranges["Cables"]!;
    const column = ranges["Cables"]!.values[0]!.indexOf("Length (m)");
    const { top, left } = rangePlace(address);
    const at = { sheet, address: cellAddress({ row: top, column: left + column }) };
    await feed.host.write(at, [["Length (ft)"]], { overwrite: true });
    const text = tabbed("Cable tag | Length m | Size", "C1 | 30.48 | 2.5 mm²");
    const { read } = await feed.seen(choices(text, { block: "Cable" }));
    assert.equal(read.rows[0]?.cells["Length"], 100);
  });
});

describe("a cable schedule", () => {
  it("becomes rows of Cable: cores and sizes as people write them", async () => {
    const feed = await ListFeed.begun();
    const text = tabbed(
      "Cable No. | From | To | Length [m] | Conductor size | Cores | Insulation | Conductor material",
      "C-01 | DB-1 | Pump | 40 | 2x2.5 mm² |  | XLPE 90 | Cu",
      "C-02 | DB-1 | Fan | 12,5 | 4C x 16 |  | PVC/PVC | copper",
      "C-03 | DB-2 | Lamp | 0,1 km | 3G1,5 |  | EPR | Al",
      "C-04 | DB-2 | Winch | 25 | #10 | 2 | PVC | Cu",
      "C-05 | DB-2 | Crane | 25 | 2/0 AWG | 2 | PVC | Cu",
      "Total |  |  | 202,5 |  |  |  | ",
    );
    const { read, head } = await feed.seen(choices(text, { block: "Cable" }));
    assert.deepEqual(
      head.columns.map(({ role }) => role),
      ["Cable", "Fed from", "#", "Length", "Size", "Cores", "Insulation", "Material"],
    );
    assert.deepEqual(
      read.rows.map(({ cells }) => [
        cells["Length"],
        cells["Size"],
        cells["Cores"],
        cells["Insulation"],
        cells["Material"],
      ]),
      [
        [40, "2.5 mm²", 2, "XLPE", "copper"],
        [12.5, "16 mm²", 4, "PVC", "copper"],
        [100, "1.5 mm²", 2, undefined, "aluminium"],
        [25, "10 AWG", 2, "PVC", "copper"],
        [25, "2/0 AWG", 2, "PVC", "copper"],
      ],
    );
    assert.deepEqual(read.rows[2]?.remarks, [
      "3G1,5: one core is the protective conductor, 2 carry current",
      "Insulation: “EPR” is none of none, PVC, XLPE, PTFE, silicone",
    ]);
    assert.deepEqual(read.sum, { unit: "m", inList: 202.5, taken: 202.5, stated: 202.5 });
  });

  it("asks whether a bare 10 is mm² or a gauge", async () => {
    const feed = await ListFeed.begun();
    const text = tabbed("Cable | Length (m) | Size", "C1 | 10 | 10");
    const list = await feed.seen(choices(text, { block: "Cable" }));
    assert.deepEqual(list.read.open.units, ["Size"]);
    const gauge = await feed.seen(choices(text, { block: "Cable", units: { 2: "AWG" } }));
    assert.equal(gauge.read.rows[0]?.cells["Size"], "10 AWG");
  });
});

describe("the columns of a list", () => {
  it("are kept with the budget for its next issue, as they were changed", async () => {
    const feed = await ListFeed.begun();
    const text = tabbed("Gerät | Leistung | Wo", "Pumpe | 150 | Keller");
    const own = { roles: { 0: "Load", 1: "Nominal", 2: "" }, units: { 1: "W" } };
    await feed.write(choices(text, own), "");
    assert.deepEqual(keptColumns({ ranges: await feed.ranges() }, "Load"), [
      { header: "Gerät", role: "Load", unit: "" },
      { header: "Leistung", role: "Nominal", unit: "W" },
      { header: "Wo", role: "", unit: "" },
    ]);
    const next = await feed.seen(choices(text.replace("150", "160"), { headerRow: 0 }));
    assert.ok(next.isAsKept);
    assert.deepEqual(next.changes.changed[0]?.changes, [{ header: "Nominal", old: 150, new: 160 }]);
  });
});
