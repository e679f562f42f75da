import { existsSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";

const README = readFileSync(new URL("README.md", import.meta.url), "utf8");

/** As the README's own sentence names them. */
const REASONS = [
  "not a figure of ours",
  "another model",
  "a ring or two feeds",
  "spread and single loads",
  "negative loads",
  "misprint",
  "input of ours",
];

interface Row {
  readonly subject: string;
  readonly row: string;
  readonly figure: string;
  readonly where: string;
}

const rows: readonly Row[] = README.split("\n")
  .slice(README.split("\n").findIndex((line) => line.startsWith("| Subject")) + 2)
  .filter((line) => line.startsWith("| "))
  .map((line) => {
    const [subject = "", row = "", figure = "", where = ""] = line
      .slice(1, -1)
      .split("|")
      .map((cell) => cell.trim());
    return { subject, row, figure, where };
  });

const tested = rows.filter(({ where }) => /\.(ts|json)$/.test(where));
const untested = rows.filter(({ where }) => !/\.(ts|json)$/.test(where));

describe("the list of published rows", () => {
  it("has 159 of them, each once, 118 with a test", () => {
    expect(rows.length).toBe(159);
    const names = rows.map(({ subject, row }) => `${subject}: ${row}`);
    expect(new Set(names).size).toBe(names.length);
    expect(tested.length).toBe(118);
    expect(tested.length + untested.length).toBe(rows.length);
  });

  for (const { subject, row, figure, where } of tested)
    it(`${subject}: ${row} is typed in ${where}`, () => {
      const file = new URL(`../${where}`, import.meta.url);
      expect(existsSync(file), where).toBe(true);
      // Whatever the formatter does to spaces.
      const text = readFileSync(file, "utf8").replace(/\s/g, "");
      expect(figure).not.toBe("");
      expect(text).toContain(figure.replace(/\s/g, ""));
    });

  for (const { subject, row, where } of untested)
    it(`${subject}: ${row} has one reason for having no test`, () => {
      const reasons = REASONS.filter((reason) => where.startsWith(reason));
      expect(reasons, where).toHaveLength(1);
    });
});
