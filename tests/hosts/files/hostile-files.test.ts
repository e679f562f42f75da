import assert from "node:assert/strict";
import { describe, it } from "vitest";
import { FILE_LIMITS, FileRefusedError } from "../../../taskpane/hosts/files/file-limits.js";
import { type OpenedFile, readXlsx } from "../../../taskpane/hosts/files/read/xlsx-reader.js";
import { chance, hostileFiles } from "./hostile-files.js";
import { madeFile, madeParts, packed, SHEET, sheetXml } from "./made-workbook.js";
import { textBytes } from "./raw-zip.js";

/** Opened, or the sentence with which it was refused. Anything else that is thrown fails the test. */
function outcomeOf(bytes: Uint8Array): OpenedFile | string {
  // Work, not time, which other programs on the machine take too.
  const before = process.cpuUsage();
  try {
    return readXlsx(bytes);
  } catch (error) {
    if (!(error instanceof FileRefusedError)) throw error;
    return error.message;
  } finally {
    const { user, system } = process.cpuUsage(before);
    assert.ok((user + system) / 1_000 < FILE_LIMITS.readMs);
  }
}

describe("a file that is broken or made to do harm", () => {
  it("stands in a list of more than 50, no two of one name", () => {
    assert.ok(hostileFiles.length >= 50, String(hostileFiles.length));
    const names = hostileFiles.map(({ name }) => name);
    assert.equal(new Set(names).size, names.length);
  });

  it("is told from the good one that each was made from", () => {
    const opened = outcomeOf(madeFile());
    assert.ok(typeof opened !== "string");
    assert.deepEqual(opened.leftOut, []);
    assert.deepEqual(opened.snapshot.sheets[0]?.cells, [
      { at: "A1", value: "Length" },
      { at: "B1", value: 350 },
      { at: "A2", value: 700, formula: "B1*2" },
    ]);
  });

  for (const { name, bytes, refused, leftOut } of hostileFiles) {
    it(`${name}: ${refused ? "refused" : leftOut ? "opened, with a list" : "opened"}`, () => {
      const outcome = outcomeOf(bytes());
      if (refused) {
        assert.ok(typeof outcome === "string", "it was opened");
        assert.match(outcome, refused);
        return;
      }
      assert.ok(typeof outcome !== "string", String(outcome));
      const lines = outcome.leftOut.map(({ what }) => what).join("\n");
      if (leftOut) assert.match(lines, leftOut);
      else assert.equal(lines, "");
    });
  }

  it("never brings a formula out of a text", () => {
    const file = hostileFiles.find(({ name }) => /look like form/.test(name));
    assert.ok(file);
    const opened = outcomeOf(file.bytes());
    assert.ok(typeof opened !== "string");
    assert.deepEqual(opened.snapshot.sheets[0]?.cells, [
      { at: "A1", value: "=1+1" },
      { at: "B1", value: "@SUM(A1)" },
      { at: "C1", value: "-1+cmd" },
    ]);
  });

  it("reaches no further with its rules and widths than the workbench's sheets do", () => {
    const file = hostileFiles.find(({ name }) => /whole columns/.test(name));
    assert.ok(file);
    const opened = outcomeOf(file.bytes());
    assert.ok(typeof opened !== "string");
    const [sheet] = opened.snapshot.sheets;
    const whole = ["A1:ALL100000"];
    assert.deepEqual(sheet?.rules[0]?.ranges, whole);
    assert.deepEqual(sheet?.validations[0]?.ranges, whole);
    assert.equal(Object.keys(sheet?.columnWidths ?? {}).length, 1_000);
  });

  it("has a formula that is shared in each of its cells, seen from there", () => {
    const opened = outcomeOf(
      madeFile({
        [SHEET]: sheetXml(
          '<row r="2"><c r="C2"><f t="shared" si="0" ref="C2:D4">A1+$A1+A$1</f></c></row>' +
            '<row r="4"><c r="D4"><f t="shared" si="0"/></c></row>',
        ),
      }),
    );
    assert.ok(typeof opened !== "string");
    assert.deepEqual(opened.snapshot.sheets[0]?.cells, [
      { at: "C2", formula: "A1+$A1+A$1" },
      { at: "D4", formula: "B3+$A3+B$1" },
    ]);
  });

  it("keeps the last value of a formula that is not taken over", () => {
    const file = hostileFiles.find(({ name }) => /program to be/.test(name));
    assert.ok(file);
    const opened = outcomeOf(file.bytes());
    assert.ok(typeof opened !== "string");
    assert.deepEqual(opened.snapshot.sheets[0]?.cells, [{ at: "A1", value: 7 }]);
  });

  it("that is a good one with bytes changed by chance: refused or opened, 400 times", () => {
    const next = chance(20_261);
    const good = madeFile();
    for (let round = 0; round < 400; round += 1) {
      const bytes = good.slice();
      for (let change = next(6); change >= 0; change -= 1) bytes[next(bytes.length)] = next(256);
      outcomeOf(bytes);
    }
  });

  it("that is a good one with its XML changed by chance and packed well: refused or opened, 400 times", () => {
    const next = chance(7_919);
    const PIECES = [..."<>/\"'&=;:!", "&#", "</c>", "<row>", "-1", "1e9", "A1:"];
    let opened = 0;
    for (let round = 0; round < 400; round += 1) {
      const parts = Object.entries(madeParts());
      const at = next(parts.length);
      const changed = parts.map(([name, part], index) => {
        if (index !== at || typeof part !== "string") return [name, part];
        const place = next(part.length);
        const piece = PIECES[next(PIECES.length)] ?? "";
        const rest = part.slice(place + next(4));
        return [name, textBytes(part.slice(0, place) + piece + rest)];
      });
      const outcome = outcomeOf(packed(Object.fromEntries(changed)));
      if (typeof outcome !== "string") opened += 1;
    }
    // Some changes do no harm, so that the test sees both ways out.
    assert.ok(opened > 20 && opened < 380, String(opened));
  });
});
