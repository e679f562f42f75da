/** The operating point of one tree, or of rows that are meshed, in the case that is entered. */
import { type SolvableFeed, solveTree, type TreeSolution } from "./feed-solver.js";
import type { FeedTree } from "./feed-topology.js";
import { solveMesh } from "./meshes/mesh-solver.js";

/** What is solved together. */
export type SolvableTree = Pick<FeedTree, "order" | "mesh">;

/** @throws {InputError} for a row without a resistance where the way of a current hangs on it. */
export function solution({ order, mesh }: SolvableTree, feed: SolvableFeed): TreeSolution {
  return mesh ? solveMesh(mesh, feed) : solveTree(order, feed);
}
