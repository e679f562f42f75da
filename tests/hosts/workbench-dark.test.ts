/** What a plan paints stays legible where the workbench's spreadsheet turns every colour for the dark. */
import assert from "node:assert/strict";
import { invertColorByMatrix } from "@univerjs/core";
import { describe, it } from "vitest";
import { cellStyles, paintStyles } from "../../src/plans/cell-styles.js";

type Colour = readonly [number, number, number];

const WHITE = "#ffffff";

function inDark(colour: string): Colour {
  const parts = [1, 3, 5].map((at) => Number.parseInt(colour.slice(at, at + 2), 16));
  return invertColorByMatrix(parts as [number, number, number]) as unknown as Colour;
}

/** WCAG 2.2, "relative luminance". */
function luminance(colour: Colour): number {
  const [red = 0, green = 0, blue = 0] = colour.map((value) => {
    const share = value / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
}

/** WCAG 2.2, "contrast ratio". */
function contrast(one: Colour, other: Colour): number {
  const [darker = 0, lighter = 0] = [luminance(one), luminance(other)].sort((a, b) => a - b);
  return (lighter + 0.05) / (darker + 0.05);
}

const looks = [
  ...Object.entries(cellStyles).map(([name, { colour, fill }]) => [name, colour, fill] as const),
  ...Object.entries(paintStyles).map(([name, { colour, fill }]) => [name, colour, fill] as const),
];

describe("in the dark, the sheet", () => {
  it("is dark", () => {
    assert.ok(luminance(inDark(WHITE)) < 0.05);
  });

  // WCAG 2.2, 1.4.3: 4.5 to 1 for text.
  it.each(looks)("%s keeps 4.5 to 1 between %s and %s", (_, colour = "#000000", fill = WHITE) => {
    const found = contrast(inDark(colour), inDark(fill));
    assert.ok(found >= 4.5, String(found));
  });
});
