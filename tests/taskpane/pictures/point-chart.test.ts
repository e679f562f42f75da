import assert from "node:assert/strict";
import fc from "fast-check";
import { describe, it } from "vitest";
import {
  type ChartPoint,
  markBeside,
  pointChart,
  seriesPath,
} from "../../../taskpane/pictures/point-chart.js";
import { SHEET_PALETTE } from "../../../taskpane/pictures/parts/palettes.js";
import { textWidth } from "../../../taskpane/pictures/parts/text-lines.js";

const SURFACE = { width: 340, palette: SHEET_PALETTE, stem: "test" } as const;
const chartOf = (points: readonly ChartPoint[], isFromZero = false) =>
  pointChart(points, { title: "x", isFromZero }, { title: "y", isFromZero }, SURFACE);

/** Watts, kilograms and money, to the hundredth. */
const figure = fc.oneof(fc.nat(100_000_000), fc.nat(1_000)).map((hundredths) => hundredths / 100);
const anyPoints = fc
  .array(fc.record({ x: figure, y: figure, series: fc.nat(12) }), {
    minLength: 1,
    maxLength: 40,
  })
  .map((drawn) => drawn.map((point, index): ChartPoint => ({ ...point, key: `${index}` })));

describe("pointChart", () => {
  it("keeps every mark and tick within its frame, and the order of the points", () => {
    fc.assert(
      fc.property(anyPoints, fc.boolean(), (points, fromZero) => {
        const layout = chartOf(points, fromZero);
        const { left, right, top, bottom, marks, xTicks, yTicks } = layout;
        const within = (at: number, least: number, most: number) =>
          assert.ok(at >= least - 1e-6 && at <= most + 1e-6, `${at}`);
        for (const { x, y } of marks) {
          within(x, left, right);
          within(y, top, bottom);
        }
        for (const { at } of xTicks) within(at, left, right);
        for (const { at } of yTicks) within(at, top, bottom);
        const byX = [...points].sort((one, other) => one.x - other.x);
        marks.forEach(({ key }, index) => {
          const { x } = points.find((point) => point.key === key)!;
          assert.ok(Math.abs(x - byX[index]!.x) <= 1e-9 * x + 1e-12);
        });
      }),
    );
  });

  it("writes ticks that do not lie over each other", () => {
    fc.assert(
      fc.property(anyPoints, (points) => {
        const { xTicks } = chartOf(points);
        xTicks.slice(1).forEach(({ at, text }, index) => {
          const before = xTicks[index]!;
          const half = (textWidth(before.text) + textWidth(text)) / 2;
          assert.ok(at - before.at > half, `${before.text} and ${text}`);
        });
      }),
    );
  });

  // 10 to 30 across with the axis from 0 and nice to 30: a third, two thirds, all of the way.
  it("puts lengths in proportion where an axis begins at 0", () => {
    const points = [10, 20, 30].map((x) => ({
      key: `${x}`,
      x,
      y: x,
      series: 0,
    }));
    const { left, right, top, bottom, marks } = chartOf(points, true);
    marks.forEach(({ x, y }, index) => {
      const share = (index + 1) / 3;
      assert.ok(Math.abs(x - (left + share * (right - left))) < 1e-9);
      assert.ok(Math.abs(y - (bottom - share * (bottom - top))) < 1e-9);
    });
  });

  it("gives each of the first seven series a shape of its own", () => {
    const shapes = Array.from({ length: 7 }, (_, series) => seriesPath(series));
    assert.equal(new Set(shapes).size, 7);
    for (const shape of shapes) assert.match(shape, /^M/);
  });

  it("tells marks from left to right", () => {
    const points = [3, 1, 2].map((x) => ({ key: `${x}`, x, y: x, series: 0 }));
    const { marks } = chartOf(points);
    assert.deepEqual(
      marks.map(({ key }) => key),
      ["1", "2", "3"],
    );
  });
});

describe("markBeside", () => {
  const points = [1, 2, 3].map((x) => ({ key: `${x}`, x, y: x, series: 0 }));
  const { marks } = chartOf(points);
  for (const [from, key, to] of [
    ["1", "ArrowRight", "2"],
    ["2", "ArrowDown", "3"],
    ["3", "ArrowRight", "3"],
    ["2", "ArrowLeft", "1"],
    ["1", "ArrowUp", "1"],
    ["3", "Home", "1"],
    ["1", "End", "3"],
    ["1", "a", undefined],
  ] as const)
    it(`leads by ${key} from ${from} to ${to ?? "nowhere"}`, () => {
      assert.equal(markBeside(marks, from, key)?.key, to);
    });
});
