/** Checks of a whole tree, and of the whole feed: what it costs, weighs and loses, and whether it works at all. */
import { type FeedHeadroom, feedHeadroom } from "../../network/feed-headroom.js";
import { solvedFeed } from "../../network/operating-point.js";
import { NoAnswerError } from "../../quantities/errors.js";
import { figure } from "../../quantities/figures.js";
import { EVERYWHERE } from "../../schedules/columns.js";
import { caseOf } from "../case-words.js";
import { type CheckName, NONE } from "../check-row.js";
import { thickerCable } from "../changes.js";
import type { Change, Check, Finding } from "../check.js";
import { MissingFigure, Place } from "../place.js";
import type { Requirements } from "../requirements.js";
import { type SolvedCase, type TreeContext } from "../tree-context.js";
import { plainName } from "../../network/feed-topology.js";
import { summedFigure, type SummedField } from "./summed-figure.js";
import { MissingRequirement } from "../place.js";

export const HEADROOM: Check = {
  asked: "at least",
  weight: "warning",
  means: "the feed is near to collapse",
  cite: "maximum-power",
  find(place) {
    const { tree } = place;
    if (place.kind.role !== "supply") return undefined;
    const limit = place.asked("Headroom to collapse");
    const found = headroomOf(tree);
    if (found === undefined) return undefined;
    const { collapse } = found;
    const lowest = tree.supplies.includes("lowest") ? "lowest" : "nominal";
    const unit = "times the loads";
    if (!collapse)
      return {
        found: NONE,
        limit,
        unit,
        worstIn: "no collapse at any loads",
        holds: true,
      };
    const cause = placeNamed(tree, collapse.item.item);
    return {
      found: collapse.multiple,
      limit,
      unit,
      worstIn: `${collapse.item.item} goes first: ${caseOf({ loads: collapse.loads, supply: lowest }, tree.hot.name)}`,
      cause,
      field: "load",
      mend: () => moreHeadroom(tree, cause, limit, lowest),
    };
  },
};

/** Undefined where no load draws anything. */
function headroomOf(tree: TreeContext): FeedHeadroom | undefined {
  const lowest = tree.supplies.includes("lowest") ? "lowest" : "nominal";
  try {
    return feedHeadroom(tree.hot.columns, lowest);
  } catch (error) {
    // There is no load to multiply; a feed that carries nothing has failed before.
    if (error instanceof NoAnswerError) return undefined;
    throw error;
  }
}

function placeNamed(tree: TreeContext, name: string): Place {
  const row = tree.feed.columns.item.findIndex((one) => plainName(one) === plainName(name));
  return new Place(tree, row);
}

/** A larger size of the one cable on the way to where it collapses that drops most at peak, or else of any before it. */
function moreHeadroom(
  tree: TreeContext,
  at: Place,
  limit: number,
  supply: "lowest" | "nominal",
): Change | undefined {
  const cables: Place[] = [];
  for (let row = at.row; row >= 0; row = tree.topology.parent[row]!)
    if (new Place(tree, row).kindName === "run") cables.push(new Place(tree, row));
  const peak = tree.cases.find((one) => one.loads === "peak" && one.supply === supply);
  if (!peak) return undefined;
  const { state } = peak.point.feed;
  const part = ({ row }: Place) => 1 - state.outputVoltage[row]! / state.inputVoltage[row]!;
  const [most] = cables.sort((one, other) => part(other) - part(one));
  return (
    most &&
    thickerCable(most, tree.hot.columns, (changed) => {
      // Whether so many times the loads are carried costs one solution; how many are, a search.
      const carries = (["nominal", "peak"] as const).every(
        (loads) =>
          solvedFeed(changed, { loads: { loads, times: limit }, supply }).faults.size === 0,
      );
      if (!carries) return undefined;
      const { collapse } = feedHeadroom(changed, supply);
      return !collapse || collapse.multiple >= limit
        ? `headroom ${collapse ? figure(collapse.multiple) : "without end"}`
        : undefined;
    })
  );
}

/** The first larger cable, of those on the way to the row that is to blame, with which all nine cases are carried. */
export function carriedBy(tree: TreeContext): Change | undefined {
  const { fault, topology, hot, cases } = tree;
  for (let row = fault!.row; row >= 0; row = topology.parent[row]!) {
    const cable = new Place(tree, row);
    if (cable.kindName !== "run") continue;
    const text = thickerCable(cable, hot.columns, (changed) =>
      cases.every(({ loads, supply }) => solvedFeed(changed, { loads, supply }).faults.size === 0)
        ? "the loads are carried in all nine cases"
        : undefined,
    );
    if (text !== undefined) return text;
  }
  return undefined;
}

export type WholeCheckName = Extract<
  CheckName,
  "Closing error" | "Efficiency" | "Loss at one location" | "Altitude" | "Mass" | "Price"
>;

/** All trees of a feed that have an operating point in every case. */
export interface WholeFeed {
  readonly trees: readonly TreeContext[];
  readonly requirements: Requirements;
  /** An item of a tree that is not judged. */
  readonly unsolved: Place | undefined;
}

export interface WholeCheck extends Omit<Check, "find"> {
  /** @throws {MissingFigure | MissingRequirement} */
  readonly find: (feed: WholeFeed) => Finding | undefined;
}

/** What rounding may leave of the supply's power. */
const CLOSED = 1e-9;

export const WHOLE_CHECKS: Readonly<Record<WholeCheckName, WholeCheck>> = {
  "Closing error": {
    asked: "at most",
    weight: "danger",
    means: "power is not conserved: do not use these figures, and report it",
    cite: "definition",
    find({ trees }) {
      const errors = trees.flatMap((tree) =>
        tree.cases.map((one) => {
          const { closingError, supplyPower } = one.point.totals;
          return {
            error: Math.abs(closingError),
            allowed: CLOSED * Math.max(supplyPower, 1),
            text: caseOf(one),
          };
        }),
      );
      const worst = errors.find(({ error, allowed }) => !(error <= allowed));
      // Said only when it fails.
      return (
        worst && {
          found: worst.error,
          limit: worst.allowed,
          unit: "W",
          worstIn: worst.text,
        }
      );
    },
  },
  Efficiency: {
    asked: "at least",
    weight: "warning",
    means: "more is lost than is asked",
    cite: "definition",
    find({ trees, requirements, unsolved }) {
      const limit = asked(requirements, "Efficiency, supply to load");
      requireSolved(unsolved);
      const supplies = ["lowest", "nominal", "highest"] as const;
      const found = supplies.flatMap((supply) => {
        const points = trees.map(({ cases }) => nominalAt(cases, supply)?.point.totals);
        if (points.some((one) => one === undefined)) return [];
        const sum = (of: "supplyPower" | "loadPower") =>
          points.reduce((total, one) => total + one![of], 0);
        return sum("supplyPower") > 0
          ? [{ part: sum("loadPower") / sum("supplyPower"), supply }]
          : [];
      });
      const [least] = found.sort((one, other) => one.part - other.part);
      if (!least) return undefined;
      return {
        found: least.part,
        limit,
        unit: "",
        worstIn: caseOf({ loads: "nominal", supply: least.supply }),
      };
    },
  },
  "Loss at one location": {
    asked: "at most",
    weight: "warning",
    means: "it gets warmer there than is asked",
    cite: "definition",
    find({ trees, requirements, unsolved }) {
      const limit = asked(requirements, "Largest loss at one location");
      requireSolved(unsolved);
      const losses =
        trees.flatMap((tree) => tree.cases).length === 0 ? [] : lossesByLocation(trees);
      const [most] = losses.sort((one, other) => other.watts - one.watts);
      if (!most) return undefined;
      return {
        found: most.watts,
        limit,
        unit: "W",
        worstIn: `${most.location}: ${most.text}`,
      };
    },
  },
  Altitude: {
    asked: "at most",
    weight: "warning",
    means: "air insulates less there than its clearances ask",
    cite: "iec-60664-1-altitude",
    find({ trees, requirements }) {
      const limit = asked(requirements, "Altitude, clearances hold up to");
      const places = placesOf(trees);
      const heights = places.flatMap((place) => {
        const altitude = place.figure("altitude");
        return altitude === undefined ? [] : [{ place, altitude }];
      });
      const [highest] = heights.sort((one, other) => other.altitude - one.altitude);
      if (!highest)
        throw new MissingFigure(places[0]!, ["altitude"], "enter Altitude of the locations");
      return {
        found: highest.altitude,
        limit,
        unit: "m",
        worstIn: highest.place.word("locations") ?? EVERYWHERE,
        cause: highest.place,
        field: "altitude",
      };
    },
  },
  Mass: {
    asked: "at most",
    weight: "warning",
    means: "it weighs more than is asked",
    cite: "definition",
    find: (feed) => summed(feed, "Largest mass", "mass", "kg"),
  },
  Price: {
    asked: "at most",
    weight: "warning",
    means: "it costs more than is asked",
    cite: "definition",
    find: (feed) =>
      summed(feed, "Largest price", "price", String(feed.requirements.get("Currency") ?? "")),
  },
};

function asked(requirements: Requirements, label: Parameters<Requirements["figure"]>[0]): number {
  const value = requirements.figure(label);
  if (typeof value !== "number") throw new MissingRequirement(label, value);
  return value;
}

function requireSolved(unsolved: Place | undefined): void {
  if (unsolved)
    throw new MissingFigure(unsolved, [], `${unsolved.name} has no operating point: see there`);
}

function nominalAt(
  cases: readonly SolvedCase[],
  supply: SolvedCase["supply"],
): SolvedCase | undefined {
  return cases.find((one) => one.loads === "nominal" && one.supply === supply);
}

function placesOf(trees: readonly TreeContext[]): Place[] {
  return trees.flatMap((tree) => tree.feed.columns.item.map((_, row) => new Place(tree, row)));
}

interface LocationLoss {
  readonly location: string;
  readonly watts: number;
  readonly text: string;
}

/** The most in any of the nine cases; what lies in several locations counts in full in each. */
function lossesByLocation(trees: readonly TreeContext[]): LocationLoss[] {
  const cases = new Map<string, Map<string, number>>();
  for (const tree of trees)
    for (const one of tree.cases) {
      const text = caseOf(one, tree.hot.name);
      const sums = cases.get(text) ?? new Map<string, number>();
      cases.set(text, sums);
      one.point.rows.forEach((row, at) => {
        if (row.outcome !== "solved") return;
        for (const location of locationsOf(new Place(tree, at)))
          sums.set(location, (sums.get(location) ?? 0) + row.loss);
      });
    }
  return [...cases].flatMap(([text, sums]) =>
    [...sums].map(([location, watts]) => ({ location, watts, text })),
  );
}

function locationsOf(place: Place): string[] {
  const names = (place.word("locations") ?? "").split(";").map((name) => name.trim());
  return names[0] === "" ? [EVERYWHERE] : names;
}

function summed(
  { trees, requirements }: WholeFeed,
  label: Parameters<Requirements["figure"]>[0],
  field: SummedField,
  unit: string,
): Finding {
  const limit = asked(requirements, label);
  const sums = trees.map((tree) => ({ tree, ...summedFigure(tree.feed, field) }));
  const places = sums.flatMap(({ tree, rows }) => rows.map((row) => new Place(tree, row)));
  const missing = sums.flatMap((sum) => sum.missing.map((row) => new Place(sum.tree, row)));
  const total = sums.reduce((sum, one) => sum + one.total, 0);
  const known = places.length - missing.length;
  // What is not known only adds to it.
  if (missing.length > 0 && total <= limit)
    throw new MissingFigure(
      missing[0]!,
      [field],
      `enter ${missing[0]!.header(field)} of ${missing[0]!.name}${missing.length > 1 ? ` and ${missing.length - 1} more` : ""}: ${figure(total)} ${unit} of the ${known} known`,
    );
  return {
    found: total,
    limit,
    unit,
    worstIn: `${known} of ${places.length} items known`,
    field,
  };
}
