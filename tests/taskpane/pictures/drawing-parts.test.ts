import assert from "node:assert/strict";
import fc from "fast-check";
import { describe, it } from "vitest";
import { barsDrawing } from "../../../taskpane/pictures/parts/bars.js";
import { SHEET_PALETTE } from "../../../taskpane/pictures/parts/palettes.js";
import { plotOf, spreadApart } from "../../../taskpane/pictures/parts/plot.js";
import { part, type SvgPart, svgText } from "../../../taskpane/pictures/parts/svg-parts.js";
import { shortened, textWidth, wrapped } from "../../../taskpane/pictures/parts/text-lines.js";

const SURFACE = { width: 400, palette: SHEET_PALETTE, stem: "test" };

function within(parts: readonly SvgPart[], tag: string): SvgPart[] {
  return parts.flatMap((one) => [
    ...(one.tag === tag ? [one] : []),
    ...within(
      one.children.filter((child) => typeof child !== "string"),
      tag,
    ),
  ]);
}

describe("svgText", () => {
  it("lets nothing from a workbook become markup", () => {
    const drawn = part("text", { "aria-label": '"><script>' }, "<b> & </text>");
    assert.equal(
      svgText(drawn),
      '<text aria-label="&quot;&gt;&lt;script&gt;">&lt;b&gt; &amp; &lt;/text&gt;</text>',
    );
  });
});

describe("wrapped", () => {
  it("keeps within the width and the lines, and loses only what is marked as lost", () => {
    const words = fc.array(fc.stringMatching(/^[a-zA-Z0-9]{1,14}$/), {
      minLength: 1,
      maxLength: 8,
    });
    fc.assert(
      fc.property(
        words,
        fc.integer({ min: 40, max: 300 }),
        fc.integer({ min: 1, max: 3 }),
        fc.boolean(),
        (given, width, most, bold) => {
          const lines = wrapped(given.join(" "), width, { most, bold });
          assert.ok(lines.length <= most);
          for (const line of lines) assert.ok(textWidth(line, bold) <= width);
          if (!lines.join("").includes("…")) assert.equal(lines.join(" "), given.join(" "));
        },
      ),
    );
  });

  it("ends what is too long in an ellipsis", () => {
    assert.match(shortened("Deck fuse and slip ring", 80), /^Deck.*…$/);
    assert.equal(shortened("Deck", 80), "Deck");
  });
});

describe("spreadApart", () => {
  it("keeps the order and the gap, inside the ends, where there is room for all", () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 0, max: 1000 }), {
          minLength: 1,
          maxLength: 8,
        }),
        (wanted) => {
          const placed = spreadApart(wanted, 20, [0, 1000]);
          const order = wanted
            .map((_, index) => index)
            .sort((a, b) => wanted[a]! - wanted[b]! || a - b);
          order.forEach((index, rank) => {
            const before = placed[order[rank - 1] ?? -1];
            if (before !== undefined) assert.ok(placed[index]! >= before + 20 - 1e-9);
            assert.ok(placed[index]! >= 0 && placed[index]! <= 1000);
          });
        },
      ),
    );
  });

  it("moves nothing that is apart already", () => {
    assert.deepEqual(spreadApart([300, 100, 200], 50, [0, 400]), [300, 100, 200]);
  });
});

describe("plotOf", () => {
  it("has both ends of its axes at its edges, the lower value lower", () => {
    const plot = plotOf(
      { title: "V", domain: [360, 440] },
      { title: "W", domain: [0, 150] },
      { height: 200, right: 40 },
      SURFACE,
    );
    assert.deepEqual(
      [plot.x(360), plot.x(440), plot.y(0), plot.y(150)],
      [plot.left, plot.right, plot.bottom, plot.top],
    );
    assert.equal(plot.x(400), (plot.left + plot.right) / 2);
  });
});

describe("barsDrawing", () => {
  it("draws bars in proportion, one that is fed by the others to the left", () => {
    const { parts } = barsDrawing(
      [
        { name: "a", value: 30, told: "30 A" },
        { name: "b", value: -10, told: "-10 A" },
      ],
      [],
      SURFACE,
    );
    const [long, short] = within(parts, "rect")
      .filter(({ attributes }) => attributes["stroke"] !== undefined)
      .map(({ attributes }) => attributes);
    assert.ok(long && short);
    const [a, b] = [Number(long["width"]), Number(short["width"])];
    assert.ok(Math.abs(a / b - 3) < 1e-9);
    assert.ok(
      Math.abs(Number(short["x"]) + b - Number(long["x"])) < 1e-9,
      "both start at no current",
    );
  });

  it("tells a rating from an even share by its lines", () => {
    const lines = (kind: "even" | "rated") =>
      within(
        barsDrawing(
          [{ name: "a", value: 30, told: "30 A" }],
          [{ kind, value: 40, told: "40 A" }],
          SURFACE,
        ).parts,
        "path",
      ).slice(1);
    assert.equal(lines("rated").length, 2);
    const [even] = lines("even");
    assert.equal(lines("even").length, 1);
    assert.ok(even?.attributes["stroke-dasharray"]);
  });
});
