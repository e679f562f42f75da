import assert from "node:assert/strict";
import { describe, it } from "vitest";
import { InputError, NoAnswerError } from "../../src/quantities/errors.js";
import { bandLimitOf } from "../../src/safety/band-limit.js";

// The limits stand in touch-bands.test.ts with their sources.
describe("bandLimitOf", () => {
  const dc = { kind: "dc" } as const;

  it("gives the printed limit, and says where it is not part of the band", () => {
    assert.equal(
      bandLimitOf({
        ...dc,
        framework: "IEC 60364-4-41",
        band: "bare",
        condition: "wet",
      }).limit,
      30,
    );
    const workplace = bandLimitOf({
      ...dc,
      framework: "US workplace",
      band: "below 50 V",
      condition: "dry",
    });
    assert.equal(workplace.limit, 50);
    assert.equal(workplace.caveats[0]?.code, "limit-excluded");
  });

  it("has no answer for a band without a limit, or a framework without a figure for wet", () => {
    const es = { ...dc, framework: "IEC 62368-1" } as const;
    assert.throws(
      () => bandLimitOf({ ...es, band: "ES3", condition: "dry" }),
      (error: unknown) =>
        error instanceof NoAnswerError &&
        error.field === "band" &&
        /above 120 V dc/.test(error.message),
    );
    assert.throws(
      () => bandLimitOf({ ...es, band: "ES1", condition: "wet" }),
      (error: unknown) => error instanceof NoAnswerError && error.field === "condition",
    );
  });

  it("refuses a band of another framework and names its own", () => {
    assert.throws(
      () =>
        bandLimitOf({
          ...dc,
          framework: "ISO 6469-3",
          band: "ES1",
          condition: "dry",
        }),
      new InputError("band", "ES1", '"A" or "B" or "above B" in ISO 6469-3'),
    );
  });
});
