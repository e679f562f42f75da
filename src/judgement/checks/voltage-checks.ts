/** Voltages and currents of items: windows, ratings, drops, and whether a bus starts with its loads on. */
import { figure } from "../../quantities/figures.js";
import type { CheckName } from "../check-row.js";
import { NONE } from "../check-row.js";
import {
  cablesUpTo,
  less,
  lessLoad,
  levelVoltage,
  more,
  moreInParallel,
  percent,
  thickerCables,
} from "../mends/changes.js";
import { type Check, askedPart } from "../check.js";
import { caseOf } from "../case-words.js";
import { caseWorking, type FoundBy } from "../finding-working.js";
import { MissingFigure, type Place } from "../place.js";
import type { FigureLabel } from "../requirements.js";
import type { CaseName, FoundExtreme } from "../tree-context.js";

type VoltageCheck = Extract<
  CheckName,
  | "Spare capacity"
  | "Input above lowest"
  | "Input below highest"
  | "Loading"
  | "Drop"
  | "Drop of a voltage level"
  | "Starts with its loads"
>;

export const VOLTAGE_CHECKS: Readonly<Record<VoltageCheck, Check>> = {
  "Spare capacity": {
    asked: "at least",
    weight: "warning",
    means: "the supply has too little left for what is added later",
    cite: "definition",
    find(place) {
      if (place.kind.role !== "supply") return undefined;
      const limit = place.asked("Spare capacity of the supply");
      const { part, rating, field, extreme } = ratedPart(place);
      return {
        found: 1 / part - 1,
        limit,
        unit: `of ${rating}`,
        worstIn: extreme.text,
        field,
        cases: [extreme],
        *figures() {
          yield more([place], field);
          yield lessLoad(place);
        },
        working: caseWorking(place, extreme, usedOf(place, field, part, "spare")),
        limitAsked: "Spare capacity of the supply",
      };
    },
  },
  "Input above lowest": {
    asked: "at least",
    weight: "warning",
    means: "it may switch off",
    cite: "definition",
    find(place) {
      if (!hasWindow(place, "lowestVoltage")) return undefined;
      const lowest = place.need("lowestVoltage");
      const { part, unless } = askedPart(place, "Margin to each window", 0);
      const extreme = place.tree.extreme(place.row, "lowestVoltage");
      const limit = lowest * (1 + part);
      return {
        found: extreme.value,
        limit,
        unit: "V",
        worstIn: extreme.text,
        field: "lowestVoltage",
        ...(unless && { unless }),
        cases: [extreme],
        *figures() {
          yield* thickerCables(cablesUpTo(place));
          yield levelVoltage(place, "more");
          yield lessLoad(place.at(place.tree.root));
          yield less([place], "lowestVoltage");
        },
        comesTo: () => `${figure(extreme.value)} V at ${place.name}`,
        working: caseWorking(place, extreme, "inputVoltage"),
      };
    },
  },
  "Input below highest": {
    asked: "at most",
    weight: "danger",
    means: "it may be destroyed",
    cite: "definition",
    find(place) {
      if (!hasWindow(place, "highestVoltage")) return undefined;
      const highest = place.need("highestVoltage");
      const { part, unless } = askedPart(place, "Margin to each window", 0);
      const extreme = place.tree.extreme(place.row, "highestVoltage");
      return {
        found: extreme.value,
        limit: highest * (1 - part),
        unit: "V",
        worstIn: extreme.text,
        field: "highestVoltage",
        ...(unless && { unless }),
        cases: [extreme],
        figures: () => [levelVoltage(place, "less"), more([place], "highestVoltage")],
        comesTo: () => `${figure(extreme.value)} V at ${place.name}`,
        working: caseWorking(place, extreme, "inputVoltage"),
      };
    },
  },
  Loading: {
    asked: "at most",
    weight: "warning",
    means: "it is loaded beyond what is asked of its rating",
    cite: "definition",
    find(place) {
      const label = LOADING[place.kind.role] ?? "Largest loading of a contact";
      const { isCable } = place;
      if (place.isFuse || isSpareAsked(place)) return undefined;
      if (place.kind.role === "load" && place.figure("ratedCurrent") === undefined)
        return undefined;
      const { part: used, rating, field, extreme } = ratedPart(place);
      const { part, unless } =
        place.kind.role === "load"
          ? { part: 1, unless: undefined }
          : askedPart(place, isCable ? "Largest loading of a cable" : label, 1);
      return {
        found: used,
        limit: part,
        // What bears its heat and what it is rated for are one fact, which Conductor temperature judges.
        unit: `of ${rating}`,
        worstIn: place.isRatedByHeat ? `of its own heat balance: ${extreme.text}` : extreme.text,
        field: place.isRatedByHeat ? "size" : field,
        ...(unless && { unless }),
        cases: [extreme],
        *figures() {
          if (place.isRatedByHeat) yield* thickerCables([place]);
          else {
            yield place.kind.role === "stage" ? moreInParallel([place]) : [];
            yield more([place], field);
          }
          yield lessLoad(place);
        },
        comesTo: () => `loading ${percent(used)}`,
        working: caseWorking(place, extreme, usedOf(place, field, used, "used")),
        ...(place.kind.role !== "load" &&
          !unless && { limitAsked: isCable ? ("Largest loading of a cable" as const) : label }),
      };
    },
  },
  Drop: {
    asked: "at most",
    weight: "warning",
    means: "the cable drops more than is asked",
    cite: "ohm-joule",
    find(place) {
      if (!place.isCable) return undefined;
      const limit = place.asked("Largest drop of a cable");
      const nominal = place.tree.nominalBehind(place.source.row);
      const extreme = place.tree.extreme(place.row, "highestDrop");
      return {
        found: extreme.value / nominal,
        limit,
        unit: `of ${figure(nominal)} V`,
        worstIn: `${figure(extreme.value)} V: ${extreme.text}`,
        field: "size",
        cases: [extreme],
        *figures() {
          yield* thickerCables([place]);
          yield lessLoad(place);
        },
        comesTo: () => `drop ${percent(extreme.value / nominal)}`,
        working: caseWorking(place, extreme, {
          formula: "(inputVoltage - outputVoltage) / nominal",
          givens: { nominal: { label: "Nominal voltage of the level", symbol: "V_n", unit: "V" } },
          values: { nominal },
          found: extreme.value / nominal,
        }),
        limitAsked: "Largest drop of a cable",
      };
    },
  },
  "Drop of a voltage level": {
    asked: "at most",
    weight: "warning",
    means: "cables and contacts of the level together drop more than is asked",
    cite: "ohm-joule",
    find(place) {
      const { role } = place.kind;
      if (role !== "supply" && role !== "stage") return undefined;
      const rows = levelRows(place).filter((row) =>
        place.tree.wayTo(row).some((at) => place.at(at).kind.role === "line"),
      );
      if (rows.length === 0) return undefined;
      const limit = place.asked("Largest drop of a voltage level");
      const nominal = place.tree.nominalBehind(place.row);
      const found = rows
        .map((row) => ({
          row,
          extreme: place.tree.extreme(row, "highestLevelDrop"),
        }))
        .reduce((most, one) => (one.extreme.value > most.extreme.value ? one : most));
      const end = place.at(found.row);
      const { extreme } = found;
      return {
        found: extreme.value / nominal,
        limit,
        unit: `of ${figure(nominal)} V`,
        worstIn: `${figure(extreme.value)} V up to ${end.name}: ${extreme.text}`,
        field: "size",
        cases: [extreme],
        *figures() {
          yield* thickerCables(cablesOfLevel(end));
          yield lessLoad(place);
        },
        comesTo: () => `drop of the level ${percent(extreme.value / nominal)}`,
        working: caseWorking(end, extreme),
        limitAsked: "Largest drop of a voltage level",
      };
    },
  },
  "Starts with its loads": {
    asked: "at most",
    weight: "warning",
    means: "what holds its power may hold the bus down on start",
    cite: "two-roots",
    find(place) {
      const { role } = place.kind;
      if (role !== "supply" && role !== "stage") return undefined;
      const holding = levelRows(place).filter((row) => place.at(row).kind.holdsPower);
      if (holding.length === 0) return undefined;
      const found = holding
        .flatMap((row) => lowerRoots(place.at(row)))
        .sort((one, other) => other.excess - one.excess);
      const [worst] = found;
      if (!worst)
        return {
          found: NONE,
          limit: NONE,
          unit: "V",
          worstIn: "nothing drops on the way",
          holds: true,
        };
      const lowest = worst.place.need("lowestVoltage");
      return {
        found: worst.root,
        limit: lowest,
        unit: "V",
        worstIn: `${worst.place.name}: ${worst.text}`,
        cause: worst.place,
        field: "lowestVoltage",
        names: [worst.at],
        figures: () => [
          more([worst.place], "lowestVoltage"),
          ...thickerCables(cablesUpTo(worst.place)),
        ],
        comesTo: () => `${figure(worst.root)} V at ${worst.place.name}`,
      };
    },
  },
};

const LOADING: Readonly<Partial<Record<string, FigureLabel>>> = {
  supply: "Largest loading of a supply",
  stage: "Largest loading of a stage",
};

/** Stages and what holds its power always; another load where a window is given. */
function hasWindow(place: Place, field: "lowestVoltage" | "highestVoltage"): boolean {
  const { role, switchesOff } = place.kind;
  if (role !== "stage" && role !== "load") return false;
  return switchesOff || place.figure(field) !== undefined;
}

/** The loading of a supply and its spare capacity are one figure. */
function isSpareAsked(place: Place): boolean {
  const { requirements } = place.tree;
  return (
    place.kind.role === "supply" &&
    typeof requirements.figure("Spare capacity of the supply") === "number"
  );
}

export interface RatedPart {
  readonly part: number;
  readonly rating: string;
  readonly field: "ratedCurrent" | "ratedPower";
  readonly extreme: FoundExtreme;
}

/** What is used of the rated current or the rated power of all units, whichever is more. @throws {MissingFigure} */
export function ratedPart(place: Place): RatedPart {
  const { tree, row, inParallel } = place;
  const parts = RATINGS.flatMap(([field, extreme, unit]): RatedPart[] => {
    const rated = place.figure(field);
    if (rated === undefined) return [];
    const found = tree.extreme(row, extreme, "own units kept");
    const part = found.value / (rated * inParallel);
    return [
      {
        part,
        rating: `${figure(rated * inParallel)} ${unit}`,
        field,
        extreme: found,
      },
    ];
  });
  const [first, second] = parts;
  if (!first)
    throw new MissingFigure(place, [place.kind.role === "supply" ? "ratedPower" : "ratedCurrent"]);
  return second && second.part > first.part ? second : first;
}

const RATING_GIVENS = {
  ratedCurrent: { label: "Rated current of one", symbol: "I_n", unit: "A" },
  ratedPower: { label: "Rated power of one", symbol: "P_n", unit: "W" },
} as const;

/** What is used of a rating in its case, or what is left of it, by the figures of the row. */
function usedOf(
  place: Place,
  field: RatedPart["field"],
  part: number,
  wanted: "used" | "spare",
): FoundBy {
  const { role } = place.kind;
  const current = role === "load" ? "inputCurrent" : "outputCurrent";
  const voltage = role === "stage" ? "outputVoltage" : "inputVoltage";
  const flow = field === "ratedPower" ? `${voltage} * ${current}` : current;
  const used = `${flow} / (${field} * units)`;
  return {
    formula: wanted === "used" ? used : `${field} * units / (${flow}) - 1`,
    givens: {
      [field]: RATING_GIVENS[field],
      units: { label: "Units in parallel", symbol: "n", unit: "1" },
    },
    values: { [field]: place.need(field), units: place.inParallel },
    inTable: {
      units: { item: place.name, figure: "inParallel" },
      ...(field === "ratedCurrent" && { ratedCurrent: { item: place.name, figure: field } }),
    },
    found: wanted === "used" ? part : 1 / part - 1,
  };
}

const RATINGS = [
  ["ratedCurrent", "highestFlow", "A"],
  ["ratedPower", "highestPower", "W"],
] as const;

/** Cables between the supply or stage that feeds a level and a row of it. */
function cablesOfLevel(end: Place): Place[] {
  return end.tree
    .wayTo(end.row)
    .map((row) => end.at(row))
    .filter(({ isCable }) => isCable);
}

/** Rows of the level behind a supply or stage. @throws {NoAnswerError} where it is not the level of that one alone. */
export function levelRows({ tree, row }: Place): readonly number[] {
  tree.requireOneWay(row);
  return [...tree.source.keys()].filter((at) => tree.source[at] === row);
}

/** A drop on the way to a row below this part of its voltage cannot hold it down. */
const NO_DROP = 1e-9;

interface LowerRoot {
  readonly place: Place;
  readonly root: number;
  /** Above its Lowest V, as a part of it; infinite where none is given. */
  readonly excess: number;
  readonly at: CaseName;
  readonly text: string;
}

/** What all loads together drop in each of the nine cases: the voltage that a row which holds its power may hold on start. */
function lowerRoots(place: Place): LowerRoot[] {
  const { tree, row } = place;
  const lowest = place.figure("lowestVoltage") ?? 0;
  return tree.cases.flatMap(({ loads, supply, point }): LowerRoot[] => {
    const { state } = point.feed;
    const noLoad = state.noLoadVoltage[row]!;
    const root = noLoad - state.inputVoltage[row]!;
    if (!(root > NO_DROP * noLoad)) return [];
    const excess = lowest > 0 ? root / lowest - 1 : Infinity;
    const at = { loads, supply };
    return [{ place, root, excess, at, text: caseOf(at, tree.hot.name) }];
  });
}
