/**
 * Headers of a feed table. The factors are the SI prefixes (milli 10⁻³, kilo 10³: SI Brochure, 9th edition, table 7, from
 * memory) and the per cent sign (0.01); W/A = V and W/A² = Ω follow from W = V · A and V = Ω · A.
 */
import assert from "node:assert/strict";
import fc from "fast-check";
import { describe, it } from "vitest";
import {
  FEED_COLUMNS,
  FEED_FIELDS,
  type FeedField,
  plainHeader,
} from "../../functions/reading/feed-columns.js";
import { feedColumnOf, type FeedHeader, figureInSi } from "../../functions/reading/feed-headers.js";
import { FEED_KINDS } from "../../src/network/feed-item.js";
import { headerText, TABLE_COLUMNS } from "../../src/schedules/columns.js";

function columnOf(header: string): FeedHeader {
  const column = feedColumnOf(header);
  assert.ok(column !== "unknown", header);
  return column;
}

/** Places of the letters that stand alone, the spaces not counted. */
function unitsIn(header: string): number[] {
  const words = header.split(" ");
  return words.flatMap((word, at) =>
    word.length === 1 ? [words.slice(0, at).join("").length] : [],
  );
}

/** Every heading that a sheet, a table in the documents or an example has had over figures of a feed table since 0.2.0. */
const WRITTEN: readonly (readonly [string, FeedField])[] = [
  ["Item", "item"],
  ["Fed from", "fedFrom"],
  ["Kind", "kind"],
  ["Voltage", "voltage"],
  ["Voltage (V)", "voltage"],
  ["Resistance", "resistance"],
  ["Resistance (Ω)", "resistance"],
  ["Ratio", "ratio"],
  ["Fixed loss", "fixedLoss"],
  ["Fixed loss (W)", "fixedLoss"],
  ["Linear loss", "linearLoss"],
  ["Linear loss (W/A)", "linearLoss"],
  ["Quadratic loss", "quadraticLoss"],
  ["Quadratic loss (W/A²)", "quadraticLoss"],
  ["Efficiency", "efficiency"],
  ["Load", "load"],
  ["Load (W)", "load"],
  ["Load (W, A, Ω)", "load"],
  ["Light load", "lightLoad"],
  ["Light load (W)", "lightLoad"],
  ["Light load (W, A, Ω)", "lightLoad"],
  ["Peak load", "peakLoad"],
  ["Peak load (W)", "peakLoad"],
  ["Peak load (W, A, Ω)", "peakLoad"],
  ["In parallel", "inParallel"],
  ["Lowest V", "lowestVoltage"],
  ["Lowest V (V)", "lowestVoltage"],
  ["Highest V", "highestVoltage"],
  ["Rated A", "ratedCurrent"],
  ["Tolerance", "tolerance"],
  ["Isolation", "isolation"],
  ["Trip V", "tripVoltage"],
  // Since 0.3.
  ["Ripple V rms", "rippleRms"],
  ["Ripple V peak", "ripplePeak"],
];

/** Headings beside them on the same sheets, which the table leaves alone. */
const BESIDE = [
  "",
  "Mass (kg)",
  "Cost",
  "Light load before margin (W, A, Ω)",
  "Load before margin (W, A, Ω)",
  "Peak load before margin (W, A, Ω)",
];

describe("a header of a feed table", () => {
  for (const [header, field] of WRITTEN)
    it(`reads "${header}" in SI, as 0.2 did`, () => {
      const { field: found, toSi, powerOnly } = columnOf(header);
      assert.deepEqual([found, toSi, powerOnly], [field, 1, false]);
    });

  it("is read or left alone as each heading that CHAIN_TABLE writes is meant", () => {
    for (const column of TABLE_COLUMNS) {
      const heading = headerText(column);
      const read = feedColumnOf(heading);
      const field = read === "unknown" ? undefined : read.field;
      const meant = column.field in FEED_FIELDS ? column.field : undefined;
      assert.equal(field, meant, heading);
    }
  });

  it("leaves other columns alone", () => {
    const own = ["Remarks", "Drawing no.", "Rated V", "Rated W", "Trip A"];
    for (const header of [...BESIDE, ...own, "# Load", "#Loads"])
      assert.equal(feedColumnOf(header), "unknown", header);
  });

  const CONVERTED: readonly (readonly [string, FeedField, number])[] = [
    ["Voltage (mV)", "voltage", 0.001],
    ["Voltage [kV]", "voltage", 1000],
    ["lowest v (kV)", "lowestVoltage", 1000],
    ["Highest V (mV)", "highestVoltage", 0.001],
    ["Trip V (kV)", "tripVoltage", 1000],
    ["Rated A (mA)", "ratedCurrent", 0.001],
    ["Rated A (kA)", "ratedCurrent", 1000],
    ["Resistance (mΩ)", "resistance", 0.001],
    // The ohm sign, which is another character than the letter omega.
    ["Resistance (m\u2126)", "resistance", 0.001],
    ["Resistance (mohm)", "resistance", 0.001],
    ["Resistance (m Ohm)", "resistance", 0.001],
    ["Resistance (ohms)", "resistance", 1],
    ["  RESISTANCE   (ohm) ", "resistance", 1],
    ["Fixed loss (mW)", "fixedLoss", 0.001],
    ["Fixed loss (kW)", "fixedLoss", 1000],
    ["Linear loss (V)", "linearLoss", 1],
    ["Quadratic loss (Ω)", "quadraticLoss", 1],
    ["Quadratic loss (mΩ)", "quadraticLoss", 0.001],
    ["Quadratic loss (W/A2)", "quadraticLoss", 1],
    ["Quadratic loss (W/A^2)", "quadraticLoss", 1],
    ["Efficiency (%)", "efficiency", 0.01],
    ["Efficiency (1)", "efficiency", 1],
    ["Tolerance (%)", "tolerance", 0.01],
    ["Ratio (1)", "ratio", 1],
    ["In parallel (1)", "inParallel", 1],
    ["Load (W, A or Ω)", "load", 1],
    ["Load (W, A or ohm)", "load", 1],
    ["Load (kW)", "load", 1000],
    ["Light load (mW)", "lightLoad", 0.001],
    ["Peak load (kW)", "peakLoad", 1000],
    ["Item (tag)", "item", 1],
  ];
  for (const [header, field, factor] of CONVERTED)
    it(`reads "${header}" times ${factor}`, () => {
      const column = columnOf(header);
      assert.deepEqual([column.field, column.toSi], [field, factor]);
    });

  it.each([
    ["Voltage (A)", /"Voltage" names its unit as \(V\) or \(mV\) or \(kV\) or/],
    ["Resistance (kΩ)", /"Resistance" names its unit as \(Ω\) or \(mΩ\) or/],
    // Mega and milli, small and capital k are not one.
    ["Fixed loss (MW)", /"Fixed loss" names its unit as \(W\) or \(mW\) or/],
    ["Rated A (ka)", /"Rated A" names its unit as \(A\) or \(mA\) or \(kA\)/],
    ["Load (A)", /\(W\) or \(W, A, Ω\) or \(W, A or Ω\) or \(kW\) or \(mW\)/],
    ["Load (Ω)", /"Load" names its unit as/],
    ["Ratio (%)", /"Ratio" names its unit as \(1\) or not at all/],
    ["Tolerance (V)", /"Tolerance" names its unit as \(1\) or \(%\)/],
  ])("refuses the unit of %s by name", (header, message) => {
    assert.throws(
      () => feedColumnOf(header),
      (error: Error & { field?: string; value?: unknown }) =>
        error.field === "feedTable" && error.value === header && message.test(error.message),
    );
  });

  it.each([
    ["Resistence", "Resistance"],
    ["Resistence (mΩ)", "Resistance"],
    ["Resistane (Ω)", "Resistance"],
    ["Ressistance", "Resistance"],
    ["Reisstance", "Resistance"],
    ["Loads", "Load"],
    ["Laod (kW)", "Load"],
    ["Lowest (V)", "Lowest V"],
    ["Highest", "Highest V"],
    ["Rated (A)", "Rated A"],
    ["In paralel", "In parallel"],
    ["Tolerence (%)", "Tolerance"],
    ["Fed form", "Fed from"],
  ])("refuses %s with the right one", (slip, right) => {
    assert.throws(
      () => feedColumnOf(slip),
      new RegExp(`as they are spelt, "${right}" \\(.*got "${slip[0]}`),
    );
  });

  it("reads a known one without its spaces", () => {
    assert.equal(columnOf("Peakload").field, "peakLoad");
    assert.equal(columnOf("RATED  A").field, "ratedCurrent");
  });

  it("refuses every slip of one letter in every known one, or reads it as another known one", () => {
    const known = new Set(Object.values(FEED_COLUMNS).map(plainHeader));
    fc.assert(
      fc.property(
        fc.constantFrom(...Object.values(FEED_COLUMNS)),
        fc.nat(),
        fc.constantFrom("wrong", "missing", "more", "swapped"),
        (header, place, slip) => {
          const text = header.replaceAll(" ", "");
          const at = place % (text.length - 1);
          const [before, letter, next] = [text.slice(0, at), text[at]!, text[at + 1]!];
          const after = text.slice(at + 1);
          const slipped = {
            wrong: `${before}q${after}`,
            missing: `${before}${after}`,
            more: `${before}q${letter}${after}`,
            swapped: `${before}${next}${letter}${after.slice(1)}`,
          }[slip];
          fc.pre(!known.has(plainHeader(slipped)));
          // Another unit is another figure: "Rated V" is no slip of "Rated A".
          fc.pre(!(slip === "wrong" && unitsIn(header).includes(at)));
          assert.throws(() => feedColumnOf(slipped), new RegExp(`"${header}"`));
        },
      ),
      { numRuns: 400, seed: 3 },
    );
  });
});

describe("a figure below a header", () => {
  const inSi = (header: string, figure: number, kind = FEED_KINDS[0]) =>
    figureInSi(columnOf(header), figure, kind);

  it("converts to the last digit", () => {
    for (const figure of [1, 3, 7, 9, 29, 57, 123.4])
      assert.equal(inSi("Resistance (mΩ)", figure), figure / 1000);
    assert.equal(inSi("Voltage (kV)", 1.1), 1100);
    assert.equal(inSi("Tolerance (%)", 7), 0.07);
    assert.equal(inSi("Efficiency (%)", 97.5), 0.975);
    assert.equal(inSi("Tolerance (%)", 0), 0);
  });

  it("below a unit of power is refused for loads of another kind", () => {
    const load = columnOf("Peak load (kW)");
    assert.equal(figureInSi(load, 2.5, "power load"), 2500);
    for (const kind of ["current load", "resistance load"] as const)
      assert.throws(
        () => figureInSi(load, 2.5, kind),
        /^InputError: peakLoad must be that of a power load below a header in kW, got 2.5/,
      );
    const watts = columnOf("Peak load (W)");
    assert.equal(figureInSi(watts, 2.5, "current load"), 2.5);
  });

  it("below % is refused where it looks like a part of 1", () => {
    assert.throws(() => inSi("Efficiency (%)", 0.95), /above 1 below a header in %/);
    assert.throws(() => inSi("Tolerance (%)", 0.02), /above 0.1 below a header/);
    assert.equal(inSi("Tolerance (%)", 0.25), 0.0025);
    assert.equal(inSi("Tolerance (1)", 0.02), 0.02);
  });
});
