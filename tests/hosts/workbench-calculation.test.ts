/** Spills that shrink, and what reads the cells that they vacate: right without another edit. */
import assert from "node:assert/strict";
import { afterEach, describe, it } from "vitest";
import { type HeadlessWorkbook, openHeadlessCells } from "../helpers/headless-workbook.js";

let workbook: HeadlessWorkbook | undefined;
afterEach(() => {
  workbook?.dispose();
  workbook = undefined;
});

async function open(cells: Parameters<typeof openHeadlessCells>[0]) {
  workbook = await openHeadlessCells(cells);
  return workbook;
}

/** Each spill reads the one before it; a native sum and counts read the last one. */
const THREE_SPILLS = {
  A1: 1,
  A2: 3,
  A3: 2,
  A4: 4,
  A5: 5,
  C1: "=SORT(FILTER(A1:A6,A1:A6>0))",
  E1: "=FILTER(C1:C10,C1:C10>0)*10",
  G1: "=SORT(FILTER(E1:E10,E1:E10>0),1,-1)",
  I1: "=SUM(G1:G10)",
  I2: '=COUNTIF(G1:G10,">0")',
  I3: '=COUNTIF(C1:C10,">0")',
};

/** A feed table that is a spill itself, so that a name that is cleared shortens it. */
const FEED_OF_A_SPILL = {
  A1: "Item",
  B1: "Fed from",
  C1: "Kind",
  D1: "Voltage",
  E1: "Load",
  A2: "Bus",
  C2: "supply",
  D2: 400,
  A3: "Hut",
  B3: "Bus",
  C3: "power load",
  E3: 100,
  A4: "Camp",
  B4: "Bus",
  C4: "power load",
  E4: 50,
  G1: '=FILTER(A1:E6,A1:A6<>"")',
  M1: "=FEED.CHAIN_SOLVE(G1:K6)",
  Z1: '=SUMIFS(P1:P10,Q1:Q10,"–")',
};

describe("three spills, each read by the next", () => {
  const column = (book: HeadlessWorkbook, letter: string) =>
    book
      .values("Sheet", `${letter}1:${letter}6`)
      .flat()
      .filter((value) => value !== "");
  const read = (book: HeadlessWorkbook) => ({
    spills: ["C", "E", "G"].map((letter) => column(book, letter)),
    natives: column(book, "I"),
  });
  const ALL = {
    spills: [
      [1, 2, 3, 4, 5],
      [10, 20, 30, 40, 50],
      [50, 40, 30, 20, 10],
    ],
    natives: [150, 5, 5],
  };
  const WITHOUT_TWO = {
    spills: [
      [1, 3, 4, 5],
      [10, 30, 40, 50],
      [50, 40, 30, 10],
    ],
    natives: [130, 4, 4],
  };

  it("shrink by one", async () => {
    const book = await open(THREE_SPILLS);
    assert.deepEqual(read(book), ALL);
    await book.clear("Sheet", "A3");
    assert.deepEqual(read(book), WITHOUT_TWO);
  });

  it("shrink by many", async () => {
    const book = await open(THREE_SPILLS);
    await book.clear("Sheet", "A1:A4");
    assert.deepEqual(read(book), {
      spills: [[5], [50], [50]],
      natives: [50, 1, 1],
    });
  });

  it("shrink to a refusal, and come back", async () => {
    const book = await open(THREE_SPILLS);
    await book.clear("Sheet", "A1:A5");
    const refused = [{ error: "#CALC!" }];
    const { spills, natives } = read(book);
    assert.deepEqual(spills[0], refused);
    assert.ok(spills.every((spill) => spill.length === 1));
    assert.deepEqual(natives.slice(1), [0, 0]);
    await book.set("Sheet", "A2", 3);
    assert.deepEqual(read(book), {
      spills: [[3], [30], [30]],
      natives: [30, 1, 1],
    });
  });

  it("shrink to nothing where the first one is taken away", async () => {
    const book = await open(THREE_SPILLS);
    await book.clear("Sheet", "C1");
    assert.equal(book.value("Sheet", "I3"), 0);
    assert.equal(book.value("Sheet", "I2"), 0);
  });

  it("follow undo and redo", async () => {
    const book = await open(THREE_SPILLS);
    await book.clear("Sheet", "A3");
    await book.undo();
    assert.deepEqual(read(book), ALL);
    await book.redo();
    assert.deepEqual(read(book), WITHOUT_TWO);
  });

  it("follow edits made one upon the other", async () => {
    const book = await open(THREE_SPILLS);
    const first = book.clear("Sheet", "A3");
    const second = book.clear("Sheet", "A5");
    await Promise.all([first, second]);
    assert.deepEqual(read(book), {
      spills: [
        [1, 3, 4],
        [10, 30, 40],
        [40, 30, 10],
      ],
      natives: [80, 3, 3],
    });
  });
});

/** As `THREE_SPILLS`, but none is read from its first cell on. */
const WITHOUT_FIRST_CELLS = {
  ...THREE_SPILLS,
  E1: "=FILTER(C2:C10,C2:C10>0)*10",
  G1: "=SORT(FILTER(E2:E10,E2:E10>0),1,-1)",
  I1: "=SUM(G2:G10)",
  I2: '=COUNTIF(G2:G10,">0")',
  I3: '=COUNTIF(C2:C10,">0")',
};

describe("three spills, each read by the next without its first cell", () => {
  const read = (book: HeadlessWorkbook) => [
    ...["C", "E", "G"].map((letter) =>
      book
        .values("Sheet", `${letter}1:${letter}8`)
        .flat()
        .filter((value) => value !== ""),
    ),
    book.values("Sheet", "I1:I3").flat(),
  ];

  it("follow a figure that changes", async () => {
    const book = await open(WITHOUT_FIRST_CELLS);
    await book.set("Sheet", "A3", 2.5);
    assert.deepEqual(read(book), [
      [1, 2.5, 3, 4, 5],
      [25, 30, 40, 50],
      [50, 40, 30],
      [70, 2, 4],
    ]);
  });

  it("grow", async () => {
    const book = await open(WITHOUT_FIRST_CELLS);
    await book.set("Sheet", "A6", 6);
    assert.deepEqual(read(book), [
      [1, 2, 3, 4, 5, 6],
      [20, 30, 40, 50, 60],
      [60, 50, 40, 30],
      [120, 3, 5],
    ]);
  });
});

describe("a feed table that is a spill", () => {
  it("has no load any more whose name was cleared", async () => {
    const book = await open(FEED_OF_A_SPILL);
    assert.deepEqual(book.values("Sheet", "M2:M5").flat(), ["Bus", "Hut", "Camp", ""]);
    assert.equal(book.value("Sheet", "Z1"), 150);
    await book.clear("Sheet", "A4");
    assert.deepEqual(book.values("Sheet", "M2:M5").flat(), ["Bus", "Hut", "", ""]);
    assert.equal(book.value("Sheet", "Z1"), 100);
    // As if entered anew.
    assert.equal(book.value("Sheet", "P2"), 100);
  });

  it("shows no row of a feed that is refused", async () => {
    const book = await open(FEED_OF_A_SPILL);
    await book.set("Sheet", "C1", "Sort");
    assert.deepEqual(book.values("Sheet", "M1:M5").flat(), [{ error: "#VALUE!" }, "", "", "", ""]);
    assert.equal(book.value("Sheet", "Z1"), 0);
  });
});
