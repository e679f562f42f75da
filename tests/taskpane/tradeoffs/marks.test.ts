/** What may be varied of a feed, and choices as they are typed. */
import assert from "node:assert/strict";
import { describe, it } from "vitest";
import { freeMark, type Mark, offeredMarks } from "../../../taskpane/tradeoffs/marks.js";
import {
  combinations,
  MarkError,
  markName,
  variationsOf,
} from "../../../taskpane/tradeoffs/mark-reading.js";
import { changedBlocks, variedFeed } from "../../../functions/tradeoffs/varied-blocks.js";
import { budgetOf } from "../../helpers/budget-of-feed.js";
import { quarry, SIZES, TYPES, UNITS, VOLTAGES } from "../../tradeoffs/quarry-feed.js";

const { blocks } = quarry();
const budget = budgetOf(quarry());
const offered = offeredMarks(budget);

function mark(name: string, ...texts: Mark["texts"]): Mark {
  const found = offered.find((one) => markName(one) === name);
  assert.ok(found, name);
  return texts.length > 0 ? { ...found, texts } : found;
}

function cells(one: Mark) {
  return variationsOf([one], blocks)[0]!.choices.map((choice) => choice.cells);
}

describe("figures of a feed that may be varied", () => {
  it("are sizes, units, types, voltages, ratios, and the place of a stage between two cables", () => {
    assert.deepEqual(offered.map(markName), [
      "Size of Pit cable",
      "Size of Pump lead",
      "Units of Pump stage",
      "Type of Pump stage",
      "Voltage of Mains rectifier",
      "Ratio of 8 to 1",
      "Ratio of 16 to 1",
      "Place of Pump stage",
    ]);
  });

  it("begin with what stands in the schedules, so that their first choice changes nothing", () => {
    for (const one of offered) {
      const [first] = cells(one);
      const stays = changedBlocks(blocks, first!);
      // The unit count of one is typed where the schedule left it to be understood.
      assert.deepEqual(stays, blocks, markName(one));
    }
  });

  it("bring the stage types that take a voltage along with it, unless these vary by themselves", () => {
    const voltage = mark("Voltage of Mains rectifier");
    const headers = (one: Mark) => one.columns.map(({ column }) => column.header);
    assert.deepEqual(headers(voltage), ["Voltage", "Lowest V", "Highest V", "Price", "Type"]);
    assert.equal(freeMark(mark("Type of Pump stage"), [voltage]), undefined);
    const alone = freeMark(voltage, [mark("Type of Pump stage")])!;
    assert.deepEqual(headers(alone), ["Voltage", "Lowest V", "Highest V", "Price"]);
    assert.deepEqual(alone.texts, [["400", "370", "430", "900"]]);
    assert.equal(freeMark(voltage, [voltage]), undefined);
  });

  it("leave the length of the cable behind a stage to the place of that stage", () => {
    const place = mark("Place of Pump stage");
    assert.deepEqual(place.rest, { cable: "Pump lead", length: 340 });
    assert.equal(freeMark(place, [place]), undefined);
  });
});

describe("choices as they are typed", () => {
  it("are the cells that the schedules get", () => {
    const units = mark("Units of Pump stage", ["1"], ["2"], ["3"], [""]);
    assert.deepEqual(
      cells(units),
      UNITS.choices.map((choice) => choice.cells),
    );
    const types = mark("Type of Pump stage");
    assert.deepEqual(
      cells(types),
      TYPES.choices.map((choice) => choice.cells),
    );
    const voltage = mark(
      "Voltage of Mains rectifier",
      ["400", "370", "430", "900", "8 to 1"],
      ["750 V", "0.7 kV", "800", "1500", "16 to 1"],
    );
    assert.deepEqual(
      cells(voltage),
      VOLTAGES.choices.map((choice, at) => [...choice.cells, ...TYPES.choices[at]!.cells]),
    );
    assert.equal(combinations([units, types, voltage]), 12);
  });

  it("of a size come to the same as if each had been typed on the sheet", () => {
    const typed = SIZES.choices.map(({ cells: own }) => own.map(({ value }) => value));
    const size = mark(
      "Size of Pit cable",
      ...typed.map(([mm2, rated, mass, price]) =>
        // In the order in which the choices ask for them.
        [mm2, rated, mass, price].map(String),
      ),
    );
    assert.deepEqual(
      size.columns.map(({ column }) => column.header),
      ["Size", "Rated A", "Mass", "Price per m"],
    );
    const figures = (variations: Parameters<typeof variedFeed>[1]) =>
      variedFeed(blocks, variations).alone[0]!.map(({ details }) => details[1]);
    assert.deepEqual(figures(variationsOf([size], blocks)), figures([SIZES]));
  });

  it("of a place share the length of both cables out", () => {
    const place = mark("Place of Pump stage", ["320"], ["100 m"]);
    assert.deepEqual(
      cells(place).map((choice) => choice.map(({ row, value }) => [row, value])),
      [
        [
          ["Pit cable", 320],
          ["Pump lead", 20],
        ],
        [
          ["Pit cable", 100],
          ["Pump lead", 240],
        ],
      ],
    );
  });

  for (const [why, name, texts, row, message] of [
    ["nothing is typed", "Units of Pump stage", [[""]], 0, /one choice or more/],
    ["it is no number", "Units of Pump stage", [["2"], ["two"]], 1, /In parallel/],
    ["it is a formula", "Units of Pump stage", [["=1+1"]], 0, /no formula/],
    [
      "a figure of it is missing",
      "Voltage of Mains rectifier",
      [["750", "", "800", "", "16 to 1"]],
      0,
      /Lowest V is needed/,
    ],
    ["it lies beyond both cables", "Place of Pump stage", [["320"], ["340"]], 1, /below 340 m/],
  ] as const)
    it(`are refused where ${why}, by their row`, () => {
      assert.throws(
        () => variationsOf([mark(name, ...texts)], blocks),
        (error) => error instanceof MarkError && error.row === row && message.test(error.message),
      );
    });
});
