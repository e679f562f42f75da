import assert from "node:assert/strict";
import { describe, it } from "vitest";
import { evaluate } from "../../../functions/downfeed.js";
import type { FormulaTree } from "../../../functions/working/lines/call-tree.js";
import { callReadings } from "../../../taskpane/pictures/call-readings.js";
import { lossSweep } from "../../../taskpane/pictures/loss-sweep.js";
import {
  efficiencyAt,
  efficiencyPictures,
  fittedStage,
  peakOf,
} from "../../../taskpane/pictures/stage-efficiency.js";
import type { PictureVariant } from "../../../taskpane/pictures/parts/picture.js";
import { typePictures } from "../../../taskpane/pictures/stage-types.js";
import {
  sharePictures,
  worstConverterPicture,
} from "../../../taskpane/pictures/converter-share.js";

function treeOf(
  id: string,
  args: readonly (number | readonly (readonly number[])[])[],
  address = "A1",
): FormulaTree {
  const at = { sheet: "Sheet", address };
  const text = `=FEED.${id}()`;
  return {
    at,
    text,
    whole: {
      kind: "call",
      id,
      text,
      args: args.map((value) => ({ kind: "literal", text: "", value })),
    },
  };
}

const nobody = () => undefined;

/** 1 W + 0.5 W/A + 0.25 W/A² at 10 V: exact points, so that the fit gives them back. */
const points = [1, 2, 3, 4].map((amperes) => {
  const load = 10 * amperes;
  const loss = 1 + 0.5 * amperes + 0.25 * amperes ** 2;
  return [load, load / (load + loss)] as const;
});
const fit = treeOf("STAGE_FIT", [
  10,
  [points.map(([load]) => load)],
  [points.map(([, efficiency]) => efficiency)],
]);

describe("callReadings", () => {
  it("takes a call once, however many cells hold it, and none that is refused", () => {
    const refused = treeOf("STAGE_FIT", [10, [[1, 2]], [[0.9, 0.9]]], "A3");
    const again = { ...fit, at: { sheet: "Sheet", address: "B1" } };
    const readings = callReadings([fit, again, refused], "STAGE_FIT");
    assert.deepEqual(
      readings.map(({ at }) => at.address),
      ["A1"],
    );
  });
});

describe("the efficiency of a stage", () => {
  const [reading] = callReadings([fit], "STAGE_FIT");
  const stage = reading && fittedStage(reading);

  it("follows the fitted losses: 20 W of 23 W at 2 A, by hand", () => {
    assert.ok(stage);
    // 1 + 0.5 · 2 + 0.25 · 2² = 3 W.
    assert.ok(Math.abs(efficiencyAt(stage, 20) - 20 / 23) < 1e-9);
    const other = evaluate("STAGE_EFFICIENCY", [10, 3, 1, 0.5, 0.25]);
    assert.ok(other.ok);
    assert.ok(Math.abs(efficiencyAt(stage, 30) - Number(other.value)) < 1e-9);
  });

  it("has its peak where no other load does better: 2 A, where fixed and quadratic loss are equal", () => {
    assert.ok(stage);
    const peak = peakOf(stage);
    assert.ok(peak.isInside);
    assert.ok(Math.abs(peak.load - 20) < 1e-6);
    for (let load = 10; load <= 40; load += 0.1)
      assert.ok(efficiencyAt(stage, load) <= peak.efficiency + 1e-12);
  });

  it("does not call an end of the datasheet a peak", () => {
    assert.ok(stage);
    const rising = { ...stage, quadraticLoss: 0 };
    assert.deepEqual([peakOf(rising).isInside, peakOf(rising).load], [false, 40]);
  });

  it("puts every datasheet point into its table beside the curve", () => {
    const [variant] = efficiencyPictures(callReadings([fit], "STAGE_FIT"));
    assert.ok(variant);
    const measured = variant.picture.table.rows.filter(([, , efficiency]) => efficiency !== "");
    assert.deepEqual(
      measured.map(([load, , efficiency]) => [load, efficiency]),
      points.map((point) => [...point]),
    );
    for (const [, fitted, efficiency] of measured)
      assert.ok(Math.abs(Number(fitted) - Number(efficiency)) < 1e-9);
  });
});

describe("the efficiency of a stage type of the schedules", () => {
  const headers = ["Stage type", "", "", "Kind", "Voltage (V)"];
  const losses = ["Fixed loss (W)", "Linear loss (W/A)", "Quadratic loss (W/A²)"];
  const pointHeaders = [1, 2, 3, 4].flatMap((at) => [`Load ${at} W`, `Efficiency ${at}`]);
  const type = (volts: number | string, own: readonly (number | string)[], given = points) => [
    ...["10 V, 4 A", "", "", "regulated", volts],
    ...own,
    ...given.flatMap(([load, efficiency]) => [load, efficiency]),
  ];
  const picturesOf = (...rows: readonly (readonly (number | string)[])[]) => {
    const head = [...headers, ...losses, ...pointHeaders];
    const values = [head, ...rows, head.map(() => "")];
    return typePictures({ sheet: "Types", address: `A4:P${4 + rows.length + 1}`, values });
  };
  const fitted = (variant: PictureVariant | undefined) =>
    variant!.picture.table.rows.filter(([, , measured]) => measured !== "");

  it("is fitted to its points", () => {
    const [variant] = picturesOf(type(10, ["", "", ""]));
    assert.equal(variant?.name, "10 V, 4 A");
    for (const [, curve, measured] of fitted(variant))
      assert.ok(Math.abs(Number(curve) - Number(measured)) < 1e-9);
  });

  it("is that of typed losses where they win, with the misfit of the points told", () => {
    const [variant] = picturesOf(type(10, [2, 0.5, 0.25]));
    assert.ok(variant);
    // 10 W at 1 A: 10 ÷ 12.75 = 78.43 % where the points have 10 ÷ 11.75 = 85.11 %.
    const [first] = fitted(variant);
    assert.ok(Math.abs(Number(first?.[1]) - 10 / 12.75) < 1e-12);
    assert.match(variant.picture.alternative, /6[.,]7\s?%/);
  });

  it("has no picture without a voltage, without points, or where it is refused", () => {
    assert.deepEqual(picturesOf(type("", ["", "", ""])), []);
    assert.deepEqual(picturesOf(type(10, [1, 0.5, 0.25], [])), []);
    assert.deepEqual(picturesOf(type(10, [-1, 0.5, 0.25])), []);
  });
});

describe("sharing between units", () => {
  // (500 − V)/0.3 + (500 − V)/0.1 = 250 A gives 62.5 and 187.5 A, by hand.
  const share = treeOf("PARALLEL_SHARE", [[[500, 500]], [[0.3, 0.1]], 250]);

  it("draws each unit's current beside the even share", () => {
    const [variant] = sharePictures(callReadings([share], "PARALLEL_SHARE"), nobody);
    assert.ok(variant);
    assert.deepEqual(variant.picture.table.rows, [
      ["Unit 1", 62.5, 125],
      ["Unit 2", 187.5, 125],
    ]);
    assert.match(variant.picture.alternative, /Unit 2 carries the most.*50\.0/);
  });

  it("has the rating where the call is about an item that has one, and says when it is passed", () => {
    const item = {
      item: "Units",
      fedFrom: "",
      kind: "ratio",
      inputVoltage: 500,
      outputVoltage: 481,
      inputPower: 1,
      loss: 0,
      lowestVoltage: undefined,
      highestVoltage: undefined,
      ratedCurrent: 150,
    };
    const [variant] = sharePictures(callReadings([share], "PARALLEL_SHARE"), () => item);
    assert.ok(variant);
    assert.deepEqual(variant.picture.table.rows[1], ["Unit 2", 187.5, 125, 150]);
    assert.match(variant.picture.title, /Units/);
    assert.match(variant.picture.alternative, /125\.0.% of the rated 150\.0.A: above it/);
  });

  it("sets the worst-placed unit of each count beside the even share", () => {
    const all = treeOf("PARALLEL_WORST", [40, 2, 50, 0, 0.03, 0]);
    const fewer = treeOf("PARALLEL_WORST", [40, 1, 50, 0, 0.03, 0]);
    const picture = worstConverterPicture(callReadings([all, fewer], "PARALLEL_WORST"), nobody);
    // Without any mismatch every unit carries its even share.
    assert.deepEqual(picture?.table.rows, [
      ["2 units", 20, 20],
      ["1 unit", 40, 40],
    ]);
  });
});

describe("the sweep of a feed", () => {
  const feed = {
    sheet: "Sheet",
    address: "A1:F4",
    values: [
      ["Item", "Fed from", "Kind", "Voltage (V)", "Resistance (Ω)", "Load (W)"],
      ["Bank", "", "supply", 400, "", ""],
      ["Line", "Bank", "run", "", 4, ""],
      ["Lamp", "Line", "power load", "", "", 5000],
    ],
  };

  it("loses I²R at the upper root of each voltage, and leaves out where there is none", () => {
    const points = lossSweep({ feed, loads: "nominal" }, [200, 500]);
    // A run of 4 Ω carries 5000 W from √(4 · 4 · 5000) = 282.84 V on.
    assert.equal(points.length, 25 - Math.ceil((282.843 - 200) / 12.5));
    for (const { voltage, line, stages } of points) {
      const volts = (voltage + Math.sqrt(voltage ** 2 - 80_000)) / 2;
      const expected = (5000 / volts) ** 2 * 4;
      assert.ok(Math.abs(line - expected) <= 1e-9 * expected, `${voltage} V`);
      assert.equal(stages, 0);
    }
  });

  it("solves no table that is none", () => {
    const broken = { ...feed, values: [["nothing"]] };
    assert.deepEqual(lossSweep({ feed: broken, loads: "nominal" }, [200, 500]), []);
  });
});
