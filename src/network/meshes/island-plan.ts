/** What of an island conducts, as a sparse matrix of unknown voltages and a tree of all ends: made once for each state of its rows. */
import { InputError } from "../../quantities/errors.js";
import {
  type Edge,
  GROUND,
  type Island,
  type IslandPlan,
  NO_UNKNOWN,
  type Step,
} from "./island.js";
import { emptyFactor, factorPlan } from "./sparse-factor.js";

export type EdgeState = "open" | "joint" | "branch";

export interface PlanFault {
  readonly row: number;
  readonly error: InputError;
}

/** @param resistance Of each edge, by which the tree is chosen. */
export function islandPlan(
  island: Island,
  states: readonly EdgeState[],
  resistance: (edge: number) => number,
): IslandPlan | PlanFault {
  const { edges, terminals } = island;
  const conducting = [...edges.keys()].filter((edge) => states[edge] !== "open");
  const inOrder = conducting.sort(
    (one, other) =>
      Number(states[one] === "branch") - Number(states[other] === "branch") ||
      // A bus is blamed last for a loop without resistance.
      Number(edges[one]!.sort !== "joint") - Number(edges[other]!.sort !== "joint") ||
      resistance(one) - resistance(other),
  );
  // Ground stands behind the terminals.
  const ground = terminals.length;
  const ends = ({ from, to }: Edge) => [from === GROUND ? ground : from, to] as const;
  const groups = new Groups(ground + 1);
  const links = new Map<number, { edge: number; other: number; isJoint: boolean }[]>();
  const chords: number[] = [];
  for (const edge of inOrder) {
    const [from, to] = ends(edges[edge]!);
    const isJoint = states[edge] === "joint";
    if (!groups.join(from, to)) {
      if (isJoint) return undetermined(edges[edge]!);
      chords.push(edge);
      continue;
    }
    for (const [end, other] of [
      [from, to],
      [to, from],
    ] as const)
      links.set(end, [...(links.get(end) ?? []), { edge, other, isJoint }]);
  }
  const treeFrom = (end: number) => outward(end, edges, (one) => links.get(one) ?? []);
  const tree = treeFrom(ground);
  const adrift: number[][] = [];
  if (tree.length < terminals.length) {
    const reached = new Set(tree.map(({ terminal }) => terminal));
    for (const terminal of terminals.keys()) {
      if (reached.has(terminal)) continue;
      const own = treeFrom(terminal);
      const part = [terminal, ...own.map((step) => step.terminal)];
      for (const one of part) reached.add(one);
      adrift.push(part);
      tree.push(...own);
    }
  }
  return {
    ...unknowns(island, states, links, ground),
    tree,
    adrift,
    chords: Int32Array.from(chords),
  };
}

function undetermined({ row, sort }: Edge): PlanFault {
  const error =
    sort === "joint"
      ? new InputError("fedFrom", null, "items that are not one point already")
      : new InputError(
          "resistance",
          null,
          "above 0: it closes a loop without resistance, in which the currents are not determined",
        );
  return { row, error };
}

/** Steps from one end to all that hang on it. */
function outward(
  start: number,
  edges: readonly Edge[],
  linksOf: (end: number) => readonly { edge: number; other: number }[],
): Step[] {
  const steps: Step[] = [];
  const reached = new Set([start]);
  const waiting = [start];
  for (let end = waiting.pop(); end !== undefined; end = waiting.pop())
    for (const { edge, other } of linksOf(end)) {
      if (reached.has(other)) continue;
      reached.add(other);
      waiting.push(other);
      steps.push({ edge, terminal: other, from: end, forwards: edges[edge]!.to === other });
    }
  return steps;
}

function unknowns(
  { edges, terminals }: Island,
  states: readonly EdgeState[],
  links: ReadonlyMap<number, readonly { edge: number; other: number; isJoint: boolean }[]>,
  ground: number,
) {
  const unknownOf = new Int32Array(terminals.length).fill(NO_UNKNOWN);
  const joined = (end: number) => (links.get(end) ?? []).filter(({ isJoint }) => isJoint);
  const joints = outward(ground, edges, joined);
  const held = new Set(joints.map(({ terminal }) => terminal));
  let size = 0;
  for (const terminal of terminals.keys()) {
    if (held.has(terminal)) continue;
    const own = outward(terminal, edges, joined);
    for (const end of [terminal, ...own.map((step) => step.terminal)]) {
      held.add(end);
      unknownOf[end] = size;
    }
    joints.push(...own);
    size++;
  }
  const branches = Int32Array.from([...edges.keys()].filter((edge) => states[edge] === "branch"));
  const between: number[] = [];
  const placeOf = Array.from(branches, (edge) => {
    const { from, to } = edges[edge]!;
    const one = from === GROUND ? NO_UNKNOWN : unknownOf[from]!;
    const other = unknownOf[to]!;
    if (one === NO_UNKNOWN || other === NO_UNKNOWN || one === other) return -1;
    return between.push(one, other) / 2 - 1;
  });
  const plan = factorPlan(size, Int32Array.from(between));
  return {
    unknownOf,
    joints,
    branches,
    factor: emptyFactor(plan),
    entryOf: Int32Array.from(placeOf, (place) => (place < 0 ? -1 : plan.entryOf[place]!)),
  };
}

/** Sets of ends that hang together. */
class Groups {
  private readonly above: Int32Array;

  constructor(count: number) {
    this.above = Int32Array.from({ length: count }, (_, end) => end);
  }

  /** Whether two were apart until now. */
  join(one: number, other: number): boolean {
    const [first, second] = [this.root(one), this.root(other)];
    this.above[first] = second;
    return first !== second;
  }

  private root(end: number): number {
    while (this.above[end] !== end) end = this.above[end] = this.above[this.above[end]!]!;
    return end;
  }
}
