/** Voltage levels: the rows behind one supply or one stage, up to the inputs of the next stages and loads. */
import { NO_PARENT } from "./feed-state.js";
import type { CompiledFeed } from "./compiled-feed.js";
import { KINDS } from "./row-kinds.js";

/** The supply or stage whose level each row is in; a stage is in the level of its input. NO_PARENT for a supply. */
export function levelSources({
  columns,
  parent,
  trees,
}: Pick<CompiledFeed, "columns" | "parent" | "trees">): Int32Array {
  const source = new Int32Array(columns.count).fill(NO_PARENT);
  for (const { order } of trees)
    for (const row of order) {
      const feeding = parent[row]!;
      if (feeding === NO_PARENT) continue;
      const passesOn = KINDS[columns.kind[feeding]!]?.role === "line";
      source[row] = passesOn ? source[feeding]! : feeding;
    }
  return source;
}
