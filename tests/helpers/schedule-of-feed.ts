/** A feed of the engine's items written as the blocks that somebody would type for it. */
import assert from "node:assert/strict";
import type { Cell, CellTable } from "../../functions/cells.js";
import type { FeedItem } from "../../src/network/feed-item.js";
import { block } from "../feeds/typed-feed.js";

/** Every figure typed, loads before their margin; several units of a line as one of the same effect. */
export function blocksOf(items: readonly FeedItem[], margin: number): readonly CellTable[] {
  const of = (...kinds: readonly FeedItem["kind"][]) =>
    items.filter(({ kind }) => kinds.includes(kind));
  const stages = of("ratio", "regulated");
  return [
    block(
      ["Supply", "Lowest V", "Voltage (V)", "Highest V", "Resistance (Ω)", "Rated A"],
      ...of("supply").map((item) => [
        item.item,
        given(item.lowestVoltage),
        given(item.voltage),
        given(item.highestVoltage),
        given(item.resistance),
        given(item.ratedCurrent),
      ]),
    ),
    block(
      ["Cable", "Fed from", "Resistance (Ω)", "Cables", "Tolerance"],
      ...of("run").map((item) => [
        item.item,
        given(item.fedFrom),
        needed(item.resistance) / item.inParallel,
        item.inParallel,
        given(item.tolerance),
      ]),
    ),
    block(
      ["In line", "Fed from", "Kind", "Resistance (mΩ)", "Drop (V)"],
      ...of("series").map((item) => [
        item.item,
        given(item.fedFrom),
        "other",
        item.resistance === undefined ? null : (1000 * item.resistance) / item.inParallel,
        given(item.voltage),
      ]),
    ),
    block(
      ["Stage", "Fed from", "Type", "In parallel", "Voltage (V)"],
      ...stages.map((item) => [
        item.item,
        given(item.fedFrom),
        `type of ${item.item}`,
        item.inParallel,
        item.kind === "regulated" ? given(item.voltage) : null,
      ]),
    ),
    block(
      [
        "Stage type",
        "Kind",
        "Steps down by",
        "Lowest V",
        "Highest V",
        "Resistance (mΩ)",
        "Fixed loss (W)",
        "Linear loss (W/A)",
        "Quadratic loss (mΩ)",
        "Efficiency (%)",
      ],
      ...stages.map((item) => [
        `type of ${item.item}`,
        item.kind,
        item.ratio === undefined ? null : 1 / item.ratio,
        given(item.lowestVoltage),
        given(item.highestVoltage),
        item.resistance === undefined ? null : 1000 * item.resistance,
        item.efficiency === undefined ? (item.fixedLoss ?? 0) : null,
        given(item.linearLoss),
        item.quadraticLoss === undefined ? null : 1000 * item.quadraticLoss,
        item.efficiency === undefined ? null : 100 * item.efficiency,
      ]),
    ),
    block(
      ["Load", "Fed from", "Kind", "Quantity", "Light", "Nominal", "Peak"],
      ...of("power load", "current load", "resistance load").map((item) => {
        const before = (load: number | undefined): Cell =>
          load === undefined
            ? null
            : item.kind === "resistance load"
              ? load * (1 + margin)
              : load / (1 + margin);
        return [
          item.item,
          given(item.fedFrom),
          item.kind.replace(" load", ""),
          item.inParallel,
          before(item.lightLoad),
          before(item.load) ?? "none",
          before(item.peakLoad),
        ];
      }),
    ),
    block(["Asked for", "Value"], ["Load margin", margin]),
  ];
}

function given(value: number | string | undefined): Cell {
  return value ?? null;
}

function needed(value: number | undefined): number {
  assert.ok(value !== undefined);
  return value;
}
