/** A cable whose rating nobody typed: what its heat balance bears is no figure that one could type a greater one for. */
import assert from "node:assert/strict";
import { describe, it } from "vitest";
import type { Cell, CellTable } from "../../functions/cells.js";
import { evaluate } from "../../functions/runner.js";
import { SERIES_SIZES } from "../../src/conductors/conductor-size-choice.js";
import { block, type TypedFeed } from "../feeds/typed-feed.js";
import { found, judgedFeed, number } from "./judged.js";

const METRIC = SERIES_SIZES.metric.flatMap((one) =>
  one.sizing === "metric name" ? [one.written] : [],
);
const AIR = 35;
const DIAMETER = 12;
const AMPERES = 34;

function feed(figures: Readonly<Record<string, Cell>>): TypedFeed {
  const cable = {
    "Length (m)": 20,
    Size: "4 mm²",
    "Conductor at most (°C)": 70,
    "Outer diameter (mm)": DIAMETER,
    Insulation: "PVC",
    ...figures,
  };
  const askedFor: CellTable = [
    ["Asked for", "Value"],
    ["Load margin", 0],
    ["Largest loading of a cable", 0.8],
  ];
  return {
    blocks: [
      block(["Supply", "Voltage (V)", "Rated A"], ["Bus", 400, 200]),
      block(["In line", "Fed from", "Kind", "Rated A"], ["Fuse", "Bus", "fuse", 40]),
      block(["Cable", "Fed from", ...Object.keys(cable)], ["Run", "Fuse", ...Object.values(cable)]),
      block(["Load", "Fed from", "Kind", "Nominal"], ["Camp", "Run", "current", AMPERES]),
      block(["Location", "Hottest (°C)"], ["Hall", AIR]),
    ],
    askedFor,
  } as TypedFeed;
}

function ampacity(size: string): number {
  const outcome = evaluate("CONDUCTOR_AMPACITY", [size, 70, AIR, DIAMETER, 2, "PVC"]);
  assert.ok(outcome.ok);
  return outcome.value as number;
}

/** The first size of which the current is no more than the part of what CONDUCTOR_AMPACITY says. */
function firstSize(most: number): string {
  const size = METRIC.find(
    (one) => METRIC.indexOf(one) >= METRIC.indexOf("4 mm²") && most <= ampacity(one),
  );
  assert.ok(size);
  return size;
}

describe("Loading of a cable rated by its heat balance", () => {
  it("says so, with the current over what CONDUCTOR_AMPACITY gives", () => {
    const row = found(judgedFeed(feed({})), "Run", "Loading");
    assert.equal(row["Worst in"], "of its own heat balance: peak loads, nominal supply");
    assert.ok(Math.abs((number(row, "Found") * ampacity("4 mm²")) / AMPERES - 1) < 1e-12);
    assert.equal(row["Verdict"], "fails");
  });

  it("is mended by the size whose own balance bears it, and by none below", () => {
    const row = found(judgedFeed(feed({})), "Run", "Loading");
    const size = firstSize(AMPERES / 0.8);
    assert.equal(row["Column"], "Size");
    assert.ok(String(row["Enter or try"]).startsWith(`Set Size of Run to ${size}: loading `));
    const with_ = (one: string) => found(judgedFeed(feed({ Size: one })), "Run", "Loading");
    assert.equal(with_(size)["Verdict"], "holds");
    assert.equal(with_(METRIC[METRIC.indexOf(size) - 1]!)["Verdict"], "fails");
    // As it was told: the loading of the feed that is typed so.
    const told = / loading ([\d.]+) %/.exec(String(row["Enter or try"]))?.[1];
    assert.ok(Math.abs(number(with_(size), "Found") * 100 - Number(told)) < 0.005);
  });

  it("leaves a typed rating as it is, and a greater one to be typed", () => {
    const row = found(judgedFeed(feed({ "Rated A": 38 })), "Run", "Loading");
    assert.equal(row["Unit"], "of 38 A");
    assert.equal(row["Column"], "Rated A");
    assert.match(String(row["Enter or try"]), /^Set Rated A of Run to 42\.5 A or more/);
  });
});

describe("a fuse above the heat balance of its cable", () => {
  it("asks for a thicker cable, where no smaller fuse carries the load", () => {
    const row = found(judgedFeed(feed({})), "Fuse", "Fuse protects the cable");
    assert.equal(row["Verdict"], "fails");
    assert.equal(row["Cause"], "Run");
    assert.match(String(row["Enter or try"]), /^Set Size of Run to /);
    assert.doesNotMatch(String(row["Enter or try"]), /Rated A of Run/);
  });
});
