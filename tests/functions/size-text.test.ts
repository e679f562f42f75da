import assert from "node:assert/strict";
import fc from "fast-check";
import { describe, it } from "vitest";
import { sizeFrom } from "../../functions/reading/size-text.js";
import { InputError } from "../../src/quantities/errors.js";

function gauge(text: string): number {
  const size = sizeFrom(text);
  assert.equal(size.sizing, "AWG", text);
  return size.sizing === "AWG" ? size.gauge : Number.NaN;
}

function nominal(text: string): number {
  const size = sizeFrom(text);
  assert.equal(size.sizing, "metric name", text);
  return size.sizing === "metric name" ? size.nominalMm2 : Number.NaN;
}

describe("sizeFrom", () => {
  it("reads AWG before and after the number, in any case and spacing", () => {
    for (const text of ["AWG 12", "12 AWG", "awg12", "12awg", "  AWG  12 ", "AWG\u00a012"])
      assert.equal(gauge(text), 12);
  });

  it("counts 1/0 as gauge 0 and 4/0 as −3, however the zeros are written", () => {
    for (const [text, expected] of [
      ["1/0 AWG", 0],
      ["2/0 AWG", -1],
      ["AWG 3/0", -2],
      ["4/0 AWG", -3],
      ["0 AWG", 0],
      ["00 AWG", -1],
      ["AWG 000", -2],
      ["AWG 0000", -3],
      ["1 AWG", 1],
      ["40 AWG", 40],
    ] as const)
      assert.equal(gauge(text) - expected, 0, text);
  });

  it("reads metric names with a dot or a comma, and each way to write mm²", () => {
    for (const text of ["2.5 mm²", "2.5 mm2", "2,5 mm²", "2.5mm^2", "2.50 MM2"])
      assert.equal(nominal(text), 2.5, text);
    assert.equal(nominal("0.75 mm²"), 0.75);
    assert.equal(nominal("1000 mm²"), 1000);
  });

  it("reads kcmil", () => {
    assert.deepEqual(sizeFrom("250 kcmil"), {
      sizing: "kcmil",
      kcmil: 250,
      written: "250 kcmil",
    });
    assert.equal(sizeFrom("211,6 KCMIL").sizing, "kcmil");
  });

  it("takes a number as bare metal", () => {
    assert.deepEqual(sizeFrom(2.5), { sizing: "bare metal", areaMm2: 2.5 });
  });

  it("keeps the name as written", () => {
    const size = sizeFrom(" 2,5 mm2 ");
    assert.equal(size.sizing === "metric name" && size.written, "2,5 mm2");
  });

  it("refuses a comma before three digits, which is two sizes a thousand times apart", () => {
    for (const text of ["1,000 mm²", "0,125 mm²", "1,000 kcmil"]) {
      assert.throws(
        () => sizeFrom(text),
        (error) =>
          error instanceof InputError &&
          error.field === "size" &&
          /comma before three digits/.test(error.message) &&
          error.message.endsWith(`got "${text}"`),
      );
    }
  });

  it("refuses what is no size, with the ways to write one", () => {
    for (const text of [
      "2.5",
      "12",
      "2/0",
      "twelve",
      "AWG",
      "AWG -12",
      "AWG 12 AWG",
      "012 AWG",
      "0/0 AWG",
      "1/2 AWG",
      "100 AWG",
      "-2.5 mm²",
      "2..5 mm²",
      "1,000.5 mm²",
      "1.5e3 mm²",
      "2.5 mm",
      "2.5 mm² copper",
      "NaN mm²",
      "250 kcm",
    ]) {
      assert.throws(
        () => sizeFrom(text),
        (error) =>
          error instanceof InputError &&
          error.field === "size" &&
          error.message ===
            `size must be a number of mm² of metal, or text like "2.5 mm²", "12 AWG", "2/0 AWG" or "250 kcmil", got "${text}"`,
        text,
      );
    }
  });

  it("either reads any text or refuses it by name", () => {
    fc.assert(
      fc.property(
        fc.oneof(fc.string(), fc.stringMatching(/^[0-9,./ ]{0,6}(AWG|mm²|kcmil)$/)),
        (text) => {
          try {
            assert.ok(sizeFrom(text).sizing);
          } catch (error) {
            assert.ok(error instanceof InputError && error.field === "size");
          }
        },
      ),
    );
  });
});
