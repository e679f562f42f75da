/** Every candidate of a request by itself, as a sheet would work it out: cells changed, table, checks, totals. */
import assert from "node:assert/strict";
import type { Cell, CellTable } from "../../functions/cells.js";
import { changedBlocks, type TypedVariation } from "../../functions/tradeoffs/varied-blocks.js";
import type { CheckName } from "../../src/judgement/check-row.js";
import type { Objective } from "../../src/tradeoffs/objectives.js";
import { evaluate } from "../../functions/runner.js";
import type { TypedFeed } from "../feeds/typed-feed.js";
import { type Judged, judged, tableOf } from "../judgement/judged.js";

export interface OneByOne {
  readonly values: readonly number[];
  /** `item|check` of every row that may not be. */
  readonly broken: readonly string[];
}

export function feedWith(
  feed: TypedFeed,
  variations: readonly TypedVariation[],
  at: readonly number[],
): TypedFeed {
  const cells = variations.flatMap(({ choices }, place) => choices[at[place]!]!.cells);
  return { ...feed, blocks: changedBlocks(feed.blocks, cells) };
}

/** The last variation's choice changes first. */
export function allChoices(variations: readonly TypedVariation[]): readonly (readonly number[])[] {
  return variations.reduce<number[][]>(
    (all, { choices }) => all.flatMap((at) => choices.map((_, place) => [...at, place])),
    [[]],
  );
}

/** @param open Rows that the feed as it is leaves open. */
export function oneByOne(
  feed: TypedFeed,
  held: readonly CheckName[],
  objectives: readonly Objective[],
  open: ReadonlySet<string>,
): OneByOne {
  const table = tableOf(feed);
  const rows = judged(table, feed.askedFor).filter(
    ({ Check }) => Check === "Operating point" || held.includes(Check as CheckName),
  );
  const broken = rows.filter(
    (row) =>
      row["Verdict"] === "fails" ||
      (row["Verdict"] === "not determined" &&
        (row["Found"] === "–" && row["Check"] === "Operating point"
          ? true
          : !open.has(keyOf(row)))),
  );
  const margins = rows.flatMap(({ Margin }) => (typeof Margin === "number" ? [Margin] : []));
  return {
    broken: broken.map(keyOf),
    values: objectives.map((objective) => {
      switch (objective) {
        case "loss":
          return total(table);
        case "mass":
          return sum(table, "Mass (kg)");
        case "price":
          return sum(table, "Price");
        case "volume":
          return sum(table, "Volume (cm³)", "In parallel") * 1e-6;
        case "worst margin":
          return -Math.min(...margins);
      }
    }),
  };
}

export function keyOf(row: Judged): string {
  return `${String(row["Item"])}|${String(row["Check"])}`;
}

/** W at nominal loads and supply; NaN where there is no answer. */
function total(table: CellTable): number {
  const outcome = evaluate("CHAIN_TOTAL", [table, "loss"]);
  return outcome.ok && typeof outcome.value === "number" ? outcome.value : Number.NaN;
}

function sum([headers = [], ...rows]: CellTable, header: string, times?: string): number {
  const number = (row: readonly Cell[], name: string) => {
    const at = headers.indexOf(name);
    assert.ok(at >= 0, name);
    return row[at];
  };
  return rows.reduce((total, row) => {
    const value = number(row, header);
    if (typeof value !== "number") return total;
    const count = times === undefined ? 1 : number(row, times);
    return total + value * (typeof count === "number" ? count : 1);
  }, 0);
}

/** By the definition, each against every other: none is at least as good in everything and better in something; of equals the first. */
export function unbeatenByDefinition(all: readonly OneByOne[]): readonly number[] {
  const kept = all.flatMap(({ broken }, index) => (broken.length === 0 ? [index] : []));
  return kept.filter((index) => {
    const own = all[index]!.values;
    return !kept.some((other) => {
      const its = all[other]!.values;
      const noWorse = its.every((value, at) => value <= own[at]!);
      const better = its.some((value, at) => value < own[at]!);
      return other !== index && noWorse && (better || other < index);
    });
  });
}
