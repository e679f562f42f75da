import assert from "node:assert/strict";
import { describe, it } from "vitest";
import type { CheckName } from "../../src/judgement/check-row.js";
import { trackside } from "../feeds/trackside.js";
import { umbilical } from "../feeds/umbilical.js";
import { assertPrinted } from "../helpers/assert-printed.js";
import { askedWith, found, type Judged, judged, judgedFeed, number, tableOf } from "./judged.js";

// What two practitioner's feeds must fail, hold, not show and leave open, with the figures as he printed them: from a
// solver of his own, a damped sweep from no load, without tolerances and, where not said otherwise, with all units.

function near(row: Judged, heading: string, printed: string): void {
  const digits = printed.split(".")[1]?.length ?? 0;
  assert.equal(number(row, heading).toFixed(digits), printed);
}

function says(rows: readonly Judged[], item: string, check: CheckName, verdict: string): Judged {
  const row = found(rows, item, check);
  assert.equal(row["Verdict"], verdict, `${item}: ${check}`);
  return row;
}

const TRACKSIDE = trackside({ tolerance: "exact" });
const trackTable = tableOf(TRACKSIDE);
const track = judged(trackTable, TRACKSIDE.askedFor);
/** As printed: no unit lost. */
const trackWhole = judged(trackTable, askedWith(TRACKSIDE.askedFor, { "Units lost": "not asked" }));

describe("a trackside cabinet", () => {
  it("fails with the printed numbers", () => {
    const drop = says(trackWhole, "Point cable", "Drop", "fails");
    assert.equal(number(drop, "Found").toFixed(3), "0.127");
    assert.equal((number(drop, "Found") * 46.875).toFixed(3), "5.962");
    assert.equal(drop["Unit"], "of 46.88 V");
    assert.equal(drop["Worst in"], "5.962 V: peak loads, lowest supply, hot");
    const level = says(trackWhole, "Cabinet bus", "Drop of a voltage level", "fails");
    assert.equal(level["Found"], drop["Found"]);

    const headroom = says(track, "Traction tap", "Headroom to collapse", "fails");
    near(headroom, "Found", "1.4665");
    const logic = says(track, "24 V logic", "Loading", "fails");
    near(logic, "Found", "0.909");

    const machines = says(trackWhole, "Point machines", "Input above lowest", "fails");
    near(machines, "Found", "24.321");
    assert.equal(((number(machines, "Found") / 24 - 1) * 100).toFixed(1), "1.3");
    const bus = says(trackWhole, "Cabinet bus", "Input above lowest", "fails");
    near(bus, "Found", "489.382");
    assert.equal(((number(bus, "Found") / 480 - 1) * 100).toFixed(1), "2.0");
    const above = says(track, "Cabinet bus", "Input below highest", "fails");
    assert.equal(number(above, "Found"), 900);
    assert.equal(((1 - 900 / 920) * 100).toFixed(1), "2.2");

    const breaking = says(track, "Hut fuse", "Fuse breaks the fault", "fails");
    near(breaking, "Limit", "15000");
    assert.equal(number(breaking, "Found"), 10000);
  });

  it("sees the lost bus unit in everything behind it", () => {
    near(says(track, "Point machines", "Input above lowest", "fails"), "Found", "24.113");
    const lost = says(track, "Cabinet bus", "One unit lost", "holds");
    assert.equal((number(lost, "Found") * 100).toFixed(1), "76.6");
    assert.match(String(lost["Worst in"]), /one Cabinet bus unit lost/);
    // Its own loading is that of all three: 45.582 A of 90.
    const whole = says(track, "Cabinet bus", "Loading", "holds");
    assert.equal((number(whole, "Found") * 90).toFixed(3), "45.582");
  });

  it("holds where it must", () => {
    const fault = says(track, "Trackside cable", "Far-end fault blows the fuse", "holds");
    near(fault, "Found", "136.6");
    assert.equal(number(fault, "Limit"), 80);
    says(track, "Trackside cable", "Fuse clears in time", "holds");
    const toleranced = judgedFeed(trackside());
    const highest = says(toleranced, "Point machines", "Input below highest", "holds");
    near(highest, "Found", "57.375");
  });

  it("has the tolerances in it where they are entered", () => {
    const { askedFor, ...feed } = trackside();
    const rows = judged(
      tableOf({ ...feed, askedFor }),
      askedWith(askedFor, { "Units lost": "not asked" }),
    );
    near(found(rows, "Point machines", "Input above lowest"), "Found", "23.478");
    near(found(rows, "Cabinet bus", "Input above lowest"), "Found", "489.260");
  });

  it("asks for no enclosure of the locked cabinet, and tells no cable heat", () => {
    for (const item of ["Traction tap", "Cabinet bus"])
      for (const check of ["Band in service", "Band after one fault"] as const)
        says(track, item, check, "holds");
    for (const item of ["Trackside cable", "Point cable"])
      for (const check of ["Conductor temperature", "Insulation temperature"] as const) {
        const row = says(track, item, check, "not determined");
        assert.equal(row["Column"], "Outer diameter (mm)");
        assert.equal(row["Enter or try"], `enter Outer diameter and Insulation of ${item}`);
      }
    const stability = says(track, "Cabinet bus", "Stability margin", "not determined");
    assert.equal(
      stability["Enter or try"],
      "enter Input capacitance of Cabinet bus and Inductance of Trackside cable",
    );
  });

  it("tells a point cable that mends it: 16 mm² for 4.0 %", () => {
    const drop = found(trackWhole, "Point cable", "Drop");
    assert.equal(drop["Enter or try"], "Set Size of Point cable to 16 mm²: drop 3.965 %");
    const mended = judgedFeed(trackside({ tolerance: "exact", pointSize: "16 mm²" }));
    says(mended, "Point cable", "Drop", "holds");
  });

  it("has no operating point with all four machines at once, and 16 mm² carries them", () => {
    const rows = judgedFeed(trackside({ pointMachines: 4 }));
    const point = says(rows, "Traction tap", "Operating point", "fails");
    assert.match(String(point["Worst in"]), /^peak loads, lowest supply, hot: no operating point/);
    assert.match(String(point["Enter or try"]), /^Set Size of Point cable to 10 mm²/);
    assert.equal(point["Cause"], "Point cable");
    // One row says it, not ten behind it.
    assert.equal(rows.filter(({ Item }) => Item !== "Whole feed").length, 1);
  });
});

const UMBILICAL = umbilical({ tolerance: "exact" });
const sea = judgedFeed(UMBILICAL);

describe("an umbilical", () => {
  it("fails with the printed numbers", () => {
    const loading = (item: string, printed: string, check: CheckName) => {
      const row = says(sea, item, check, "fails");
      assert.equal((number(row, "Found") * 100).toFixed(1), printed);
    };
    loading("Node 24 V", "103.0", "Loading");
    loading("Frame 24 V", "83.1", "Loading");
    loading("Main stage", "85.7", "One unit lost");
    loading("Topside supply", "18.6", "Spare capacity");
    for (const item of ["Drum part", "Sea part"]) {
      const rated = says(sea, item, "Cable rated for the voltage", "fails");
      assert.deepEqual([rated["Found"], rated["Limit"]], [1000, 1040]);
    }
    near(says(sea, "Main stage", "Stored energy", "fails"), "Found", "21.6");
  });

  it("holds where it must, and says what ends the fault", () => {
    const fault = says(sea, "Sea part", "Far-end fault blows the fuse", "holds");
    assert.deepEqual([fault["Found"], fault["Limit"]], [6, 5.5]);
    assert.match(
      String(fault["Worst in"]),
      /Topside supply shuts itself down; Topside fuse needs 25 A$/,
    );
    const time = says(sea, "Sea part", "Fuse clears in time", "holds");
    assert.deepEqual([time["Found"], time["Limit"]], [0.1, 1]);
    const note = says(sea, "Topside fuse", "Fuse clears before the supply", "fails");
    assert.equal(note["Weight"], "note");
    assert.deepEqual([note["Found"], note["Limit"]], [6, 25]);

    /** As printed: volts, and per cent of the level's nominal voltage. */
    const drop = (item: string, check: CheckName, nominal: number, volts: string, part: string) => {
      const share = number(says(sea, item, check, "holds"), "Found");
      assertPrinted(share * nominal, volts);
      assertPrinted(share * 100, part);
    };
    drop("Sea part", "Drop", 1000, "43.1", "4.3");
    drop("Topside supply", "Drop of a voltage level", 1000, "47.6", "4.8");
    drop("Jumper", "Drop", 100, "3.66", "3.7");
    const toleranced = judgedFeed(umbilical());
    near(says(toleranced, "Jumper", "Cable rated for the voltage", "holds"), "Limit", "105.04");
    const lights = says(sea, "Lights", "Input above lowest", "holds");
    near(lights, "Found", "91.093");
  });

  it("leaves open what is not entered, and says what to enter", () => {
    const advice = (item: string, check: CheckName) =>
      says(sea, item, check, "not determined")["Enter or try"];
    assert.equal(
      advice("Main stage", "Stability margin"),
      "enter Inductance of Drum part, Sea part",
    );
    assert.equal(advice("Main stage", "Discharge time"), "enter Bleed of Main stage");
    assert.equal(advice("Jumper", "Far-end fault blows the fuse"), "enter Limit A of Main stage");
    // Of this framework no limit for wet is published.
    const band = says(sea, "Main stage", "Band in service", "not determined");
    assert.match(String(band["Enter or try"]), /gives no limit for wet/);
  });

  it("does not call it an error that less is drawn with one main unit less", () => {
    says(sea, "Topside supply", "Operating point", "holds");
    assert.ok(!sea.some(({ Check }) => Check === "Closing error"));
  });
});
