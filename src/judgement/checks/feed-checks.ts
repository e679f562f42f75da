/** Checks of a whole tree, and of the whole feed: what it costs, weighs and loses, and whether it works at all. */
import type { CornerSupply } from "../../network/feed-corner.js";
import {
  carriesTimes,
  type FeedHeadroom,
  feedHeadroom,
  NoLoadError,
} from "../../network/feed-headroom.js";
import { lossAt } from "../../network/row-flow.js";
import type { SummedField } from "../../network/row-kinds.js";
import { figure } from "../../quantities/figures.js";
import { EVERYWHERE } from "../../schedules/columns.js";
import { caseOf } from "../case-words.js";
import { type CheckName, NONE } from "../check-row.js";
import { cablesUpTo, FAR, less, lessLoad, more, percent, thickerCables } from "../mends/changes.js";
import type { Check, Figure, Finding } from "../check.js";
import { MissingFigure, Place } from "../place.js";
import type { Requirements } from "../requirements.js";
import type { CaseName, SolvedCase, TreeContext } from "../tree-context.js";
import { plainName } from "../../network/feed-topology.js";
import { summedFigure } from "./summed-figure.js";
import { MissingRequirement } from "../place.js";

export const HEADROOM: Check = {
  asked: "at least",
  weight: "warning",
  means: "the feed is near to collapse",
  cite: "maximum-power",
  holdsIn: (place) =>
    carriesTimes(
      place.tree.hot.columns,
      lowestOf(place.tree),
      place.asked("Headroom to collapse"),
      place.tree.topology,
    ),
  find(place) {
    const { tree } = place;
    if (place.kind.role !== "supply") return undefined;
    const limit = place.asked("Headroom to collapse");
    const found = headroomOf(tree);
    if (found === undefined) return undefined;
    const { collapse } = found;
    const unit = "times the loads";
    if (!collapse)
      return {
        found: NONE,
        limit,
        unit,
        worstIn: "no collapse at any loads",
        holds: true,
        comesTo: () => "no collapse at any loads",
      };
    const cause = placeNamed(tree, collapse.item.item);
    return {
      found: collapse.multiple,
      limit,
      unit,
      worstIn: `${collapse.item.item} goes first: ${caseOf({ loads: collapse.loads, supply: lowestOf(tree) }, tree.hot.name)}`,
      cause,
      field: "load",
      figures: () => carrying(cause),
      comesTo: () => `headroom ${figure(collapse.multiple)}`,
    };
  },
};

/** The lowest voltage that its supply's window gives. */
function lowestOf({ supplies }: TreeContext): CornerSupply {
  return supplies[0]!;
}

/** Undefined where no load draws anything. */
function headroomOf(tree: TreeContext): FeedHeadroom | undefined {
  try {
    return feedHeadroom(tree.hot.columns, lowestOf(tree));
  } catch (error) {
    if (error instanceof NoLoadError) return undefined;
    throw error;
  }
}

function placeNamed(tree: TreeContext, name: string): Place {
  const row = tree.feed.columns.item.findIndex((one) => plainName(one) === plainName(name));
  return new Place(tree, row);
}

/** What lets more power through to a row: larger cables, a higher supply, or less load. */
export function* carrying(at: Place): Generator<readonly Figure[]> {
  const supply = at.at(at.tree.root);
  yield* thickerCables(cablesUpTo(at));
  yield more([supply], lowestOf(at.tree) === "lowest" ? "lowestVoltage" : "voltage", {
    times: FAR.voltage,
  });
  yield lessLoad(at);
}

/** Whether all nine cases have an operating point. */
export function carriedFinding(tree: TreeContext): Finding {
  return {
    found: NONE,
    limit: "in every case",
    unit: "",
    worstIn: "",
    holds: tree.fault === undefined,
    ...(tree.fault?.case && { cases: [tree.fault.case] }),
    figures: () => carrying(new Place(tree, tree.fault!.row)),
    comesTo: () => "the loads are carried in all nine cases",
  };
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
        names: [{ loads: "nominal", supply: least.supply }],
        figures: () => lessLoss(placesOf(trees)),
        comesTo: () => `efficiency ${percent(least.part)}`,
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
        names: [most.at],
        figures: () =>
          lessLoss(placesOf(trees).filter((place) => locationsOf(place).includes(most.location))),
        comesTo: () => `${figure(most.watts)} W in ${most.location}`,
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
        figures: () => [less([highest.place], "altitude")],
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
  readonly at: CaseName;
  readonly text: string;
}

/** The most in any of the nine cases; what lies in several locations counts in full in each. */
function lossesByLocation(trees: readonly TreeContext[]): LocationLoss[] {
  const cases = new Map<string, { readonly at: CaseName; readonly sums: Map<string, number> }>();
  for (const tree of trees) {
    const locations = placesOf([tree]).map(locationsOf);
    for (const { loads, supply, point } of tree.cases) {
      const at = { loads, supply };
      const text = caseOf(at, tree.hot.name);
      const { sums } = cases.get(text) ?? { sums: new Map<string, number>() };
      cases.set(text, { at, sums });
      locations.forEach((names, row) => {
        const loss = lossAt(point.feed, row);
        for (const location of names) sums.set(location, (sums.get(location) ?? 0) + loss);
      });
    }
  }
  return [...cases].flatMap(([text, { at, sums }]) =>
    [...sums].map(([location, watts]) => ({ location, watts, at, text })),
  );
}

function locationsOf(place: Place): string[] {
  const names = (place.word("locations") ?? "").split(";").map((name) => name.trim());
  return names[0] === "" ? [EVERYWHERE] : names;
}

/** How many items of a feed are tried, of those that lose, weigh or cost most. */
const MOST_TRIED = 8;

function most(places: readonly Place[], field: "mass" | "price"): readonly Place[] {
  const value = (place: Place) => place.figure(field) ?? 0;
  return [...places].sort((one, other) => value(other) - value(one)).slice(0, MOST_TRIED);
}

/** Larger cables and better stages, of the places that lose most with nominal loads. */
function lessLoss(places: readonly Place[]): readonly (readonly Figure[])[] {
  const loss = ({ tree, row }: Place) => {
    const solved = nominalAt(tree.cases, "nominal");
    return solved ? lossAt(solved.point.feed, row) : 0;
  };
  const losing = [...places].sort((one, other) => loss(other) - loss(one));
  const those = (role: string) =>
    losing.filter(({ kind }) => kind.role === role).slice(0, MOST_TRIED);
  const cables = those("line").filter(({ isCable }) => isCable);
  return [...thickerCables(cables), more(those("stage"), "efficiency", { times: MOST_EFFICIENCY })];
}

/** An efficiency does not grow by more. */
const MOST_EFFICIENCY = 1.5;

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
    figures: () => [less(most(places, field), field)],
  };
}
