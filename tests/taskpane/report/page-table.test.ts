/** Tables that fit a page. */
import assert from "node:assert/strict";
import { describe, it } from "vitest";
import {
  notedTable as noted,
  type ReportTable,
  withoutEmptyColumns,
  words,
} from "../../../taskpane/report/content/blocks.js";
import { columnParts } from "../../../taskpane/report/content/table-fit.js";
import { phrase, PORTRAIT, tableMarkup } from "../../../taskpane/report/page/page-table.js";
import { sectionMarkup } from "../../../taskpane/report/page/report-page.js";

const number = (text: string) => ({ text, isNumber: true });
const reportTable = (table: ReportTable) => tableMarkup(table, PORTRAIT);
const notedTable = (table: ReportTable) =>
  sectionMarkup({ kind: "upright", blocks: [noted(table)] });

describe("a table on paper", () => {
  it("stands in parts where it is too wide, each with the columns that name the row", () => {
    assert.deepEqual(columnParts([10, 10, 10, 10, 10], 40, 1), [
      [0, 1, 2],
      [0, 3, 4],
    ]);
    assert.deepEqual(columnParts([10, 10, 10, 10], 40, 2), [
      [0, 1, 2],
      [0, 1, 3],
    ]);
  });

  it("has every column once, however narrow the page", () => {
    const widths = Array.from({ length: 30 }, (_, column) => 5 + ((column * 7) % 13));
    for (const room of [10, 40, 110, 150, 1000]) {
      const parts = columnParts(widths, room, 1);
      const others = parts.flatMap((part) => part.slice(1));
      assert.deepEqual(
        others,
        widths.slice(1).map((_, index) => index + 1),
      );
    }
  });

  it("says which part of a wide table it is, and breaks no number", () => {
    const head = ["Item", ...Array.from({ length: 24 }, (_, column) => `Figure ${column}`)];
    const row = [words("Bus"), ...Array.from({ length: 24 }, () => number("−12677.6%"))];
    const markup = reportTable({ caption: "Wide", head, rows: [row] });
    assert.match(markup, /<caption class="line">Wide, part 1 of 3<\/caption>/);
    assert.equal(markup.match(/<td class="number">−12677\.6%<\/td>/g)?.length, 24);
  });

  it("keeps a unit with its number, and lets a long call wrap behind its commas", () => {
    assert.equal(
      phrase("drop 4.042 % of 400 V, 6 mm²"),
      "drop 4.042\u00a0% of 400\u00a0V, 6\u00a0mm²",
    );
    assert.equal(phrase("SUM(A1,B2)"), "SUM(A1,<wbr>B2)");
    assert.equal(phrase("all 3 items"), "all 3 items");
    assert.equal(phrase("a < b"), "a &lt; b");
  });

  it("stands whole on a page only where its lines are few, not its rows", () => {
    const row = (text: string) => [words("Item"), words(text)];
    const table = (text: string) =>
      reportTable({
        caption: "",
        head: ["a", "b"],
        rows: Array.from({ length: 10 }, () => row(text)),
      });
    assert.match(table("short"), /<table class="short">/);
    assert.doesNotMatch(table("a long sentence of a case ".repeat(8)), /class="short"/);
  });

  it("has each note once below it, with its number in the rows", () => {
    const rows = [
      [words("Bus"), words("no tolerance given")],
      [words("Rail"), words("")],
      [words("Spur"), words("no tolerance given")],
      [words("Lamp"), words("a < b")],
    ];
    const markup = notedTable({ caption: "Items", head: ["Item", "Note"], rows });
    assert.deepEqual(
      [...markup.matchAll(/<td[^>]*>(.*?)<\/td>/g)].map(([, cell]) => cell),
      ["Bus", "1", "Rail", "", "Spur", "1", "Lamp", "2"],
    );
    assert.deepEqual(
      [...markup.matchAll(/<li value="(\d)">(.*?)<\/li>/g)].map(([, at, note]) => [at, note]),
      [
        ["1", "no tolerance given"],
        ["2", "a &lt; b"],
      ],
    );
    assert.doesNotMatch(
      notedTable({ caption: "", head: ["Item", "Note"], rows: [rows[1]!] }),
      /Note/,
    );
  });

  it("leaves out a column in which nothing stands", () => {
    const rows = [[words("a"), words(""), number("1")]];
    assert.deepEqual(withoutEmptyColumns({ caption: "", head: ["x", "y", "z"], rows }).head, [
      "x",
      "z",
    ]);
  });
});
