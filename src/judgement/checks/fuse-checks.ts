/** Fuses and breakers, the cables behind them, and what ends a fault. Between the poles only; earth faults have loops of their own. */
import {
  type WithstandTime,
  faultedConductorGivens,
  withstandTime,
  withstandTimeSteps,
} from "../../conductors/withstand-time.js";
import { numbersOf } from "../../conductors/conductor.js";
import { sectionGivens, sectionSteps, sizeAsGiven } from "../../conductors/conductor-section.js";
import { materialWorking } from "../../conductors/conductor-materials.js";
import { disconnectionTime } from "../../protection/disconnection-times.js";
import { faultCurrentSteps, faultLoopGivens } from "../../protection/fault-current.js";
import { figure } from "../../quantities/figures.js";
import { type CheckName, NONE } from "../check-row.js";
import {
  FAR,
  fuseRatings,
  less,
  lessLoad,
  more,
  moreRated,
  ratingField,
  sizesOf,
} from "../mends/changes.js";
import { askedPart, type Check, type Figure, type Finding, type FindingWorking } from "../check.js";
import {
  cablesBehind,
  type FoundFault,
  fuseBefore,
  greatestFault,
  isFarEnd,
  isHeld,
  leastFault,
  leastResistancesOf,
  limitOf,
} from "../fault-paths.js";
import { caseWorking, stepsWorking } from "../finding-working.js";
import { MissingFigure, MissingRequirement, type Place } from "../place.js";
import { TABLES_OF_TIMES } from "../requirements.js";

type FuseCheck = Extract<
  CheckName,
  | "Fuse carries the load"
  | "Fuse breaks the voltage"
  | "Fuse breaks the fault"
  | "Fuse protects the cable"
  | "Far-end fault blows the fuse"
  | "Fuse clears in time"
  | "Fuse clears before the supply"
  | "Cable withstands a fault"
  | "Cable withstands a slow fault"
>;

export const FUSE_CHECKS: Readonly<Record<FuseCheck, Check>> = {
  "Fuse carries the load": {
    asked: "at most",
    weight: "warning",
    means: "it may blow in service",
    cite: "common-practice",
    find(fuse) {
      if (!fuse.isFuse) return undefined;
      const rated = fuse.needOfAll("ratedCurrent");
      const { part, unless } = askedPart(fuse, "Load current of a fuse, at most", 1);
      const extreme = fuse.tree.extreme(fuse.row, "highestCurrent");
      return {
        found: extreme.value,
        limit: rated * part,
        unit: "A",
        worstIn: `${loadFuseCable(fuse, extreme.value)}: ${extreme.text}`,
        field: "ratedCurrent",
        ...(unless && { unless }),
        cases: [extreme],
        *figures() {
          yield largerFuses(fuse);
          yield lessLoad(fuse);
        },
        working: caseWorking(fuse, extreme),
      };
    },
  },
  "Fuse breaks the voltage": {
    asked: "at least",
    weight: "danger",
    means: "it may not put out a dc arc",
    cite: "common-practice",
    find(fuse) {
      if (!fuse.isFuse) return undefined;
      const rated = fuse.need("ratedVoltage");
      const extreme = fuse.tree.extreme(fuse.row, "highestVoltage");
      return {
        found: rated,
        limit: extreme.value,
        unit: "V",
        worstIn: extreme.text,
        field: "ratedVoltage",
        cases: [extreme],
        figures: () => [more([fuse], "ratedVoltage", { note: ", dc" })],
      };
    },
  },
  "Fuse breaks the fault": {
    asked: "at least",
    weight: "danger",
    means: "it may burst or not put out the arc",
    cite: "common-practice",
    find(fuse) {
      if (!fuse.isFuse) return undefined;
      const breaks = fuse.need("breaksAt");
      const fault = greatestFault(fuse);
      return {
        found: breaks,
        limit: fault.current,
        unit: "A",
        worstIn: `fault right behind it, ${greatestWords(fuse, fault)}; capacitors add to it`,
        field: "breaksAt",
        ...lackingOf(fault),
        figures: () => [more([fuse], "breaksAt", { note: ", dc", times: FAR.breaking })],
        working: faultWorking(fuse, fault),
      };
    },
  },
  "Fuse protects the cable": {
    asked: "at most",
    weight: "danger",
    means: "the cable overheats before it blows",
    cite: "common-practice",
    find(fuse) {
      if (!fuse.isFuse) return undefined;
      const cables = cablesBehind(fuse);
      if (cables.length === 0) return undefined;
      const rated = fuse.needOfAll("ratedCurrent");
      const [least] = cables
        .map((cable) => ({ cable, rating: cable.needOfAll("ratedCurrent") }))
        .sort((one, other) => one.rating - other.rating);
      const load = fuse.tree.extreme(fuse.row, "highestCurrent").value;
      return {
        found: rated,
        limit: least!.rating,
        unit: "A",
        worstIn: `${loadFuseCable(fuse, load)}; the local code may ask for more`,
        cause: least!.cable,
        field: ratingField(least!.cable),
        figures: () => [smallerFuses(fuse, load), moreRated(least!.cable)],
      };
    },
  },
  "Far-end fault blows the fuse": {
    asked: "at least",
    weight: "danger",
    means: "a fault at the far end may go on",
    cite: "ohm-joule",
    find(cable) {
      if (!cable.isCable || !isFarEnd(cable)) return undefined;
      return endOfFault(cable).finding;
    },
  },
  "Fuse clears in time": {
    asked: "at most",
    weight: "danger",
    means: "a fault may last longer than protection against shock allows",
    cite: "iec-60364-4-41-table-41-1",
    find(cable) {
      if (!cable.isCable || !isFarEnd(cable)) return undefined;
      const by = clearedBy(cable);
      // That nothing ends it, or that a limit holds it, is told by the check of the fault itself.
      if (!by) return undefined;
      const limit = longestTime(cable);
      const time = by.need("within");
      if (limit === undefined)
        return {
          found: time,
          limit: NONE,
          unit: "s",
          worstIn: "up to 120 V no time is asked for against shock",
          holds: true,
        };
      return {
        found: time,
        limit,
        unit: "s",
        worstIn: `fault at its far end, cleared by ${by.name}; between the poles, the loop of a fault to earth is not computed`,
        cause: by,
        field: "within",
        figures: () => [less([by], "within", { times: FAR.time })],
      };
    },
  },
  "Fuse clears before the supply": {
    asked: "at least",
    weight: "note",
    means: "the supply shuts all of the feed down before the fuse clears one part of it",
    cite: "common-practice",
    find(fuse) {
      const { source } = fuse;
      if (!fuse.isFuse || source.kind.role !== "supply") return undefined;
      const shutsDown = source.figure("shutsDownAt");
      if (shutsDown === undefined) return undefined;
      const ends = cablesBehind(fuse).filter(isFarEnd);
      const faults = (ends.length > 0 ? ends : [fuse]).map((end) => ({
        end,
        fault: leastFault(end),
      }));
      const { end, fault } = faults.reduce((least, one) =>
        one.fault.current < least.fault.current ? one : least,
      );
      const clears = fuse.needOfAll("clearsAt");
      const [own, its] = [fuse.need("within"), source.need("within")];
      const stays = fault.current < shutsDown * source.inParallel;
      const blows = fault.current >= clears;
      const late = blows && !stays && own > its;
      return {
        found: late ? `${figure(own)} s` : fault.current,
        limit: late ? `${figure(its)} s` : clears,
        unit: late ? "" : "A",
        worstIn: `fault at the end of ${end.name}: the fuse needs ${figure(clears)} A for ${figure(fuse.need("within"))} s, ${source.name} shuts down at ${figure(shutsDown * source.inParallel)} A within ${figure(source.need("within"))} s`,
        holds: blows && !late,
        field: "clearsAt",
        figures: () => [
          ...(late ? [less([fuse], "within", { times: FAR.time })] : []),
          less([fuse], "clearsAt"),
          sizesOf(onTheWay(end)),
          more([source], "shutsDownAt"),
        ],
        comesTo: () => `fault ${figure(fault.current)} A`,
        working: faultWorking(end, fault),
      };
    },
  },
  "Cable withstands a fault": {
    asked: "at least",
    weight: "danger",
    means: "its conductors overheat before the fuse has cleared",
    cite: "iec-60364-5-54",
    find(cable) {
      const fuse = cable.isCable ? fuseBefore(cable) : undefined;
      if (!fuse) return undefined;
      const time = fuse.need("clearsNearEnd");
      const before = cable.at(cable.tree.topology.parent[cable.row]!);
      const fault = greatestFault(before);
      const words = `fault at its near end, ${greatestWords(before, fault)}, in one core`;
      const finding = withstanding(
        cable,
        fuse,
        fault.current,
        time,
        words,
        "clearsNearEnd",
        faultWorking(before, fault),
      );
      return { ...finding, ...lackingOf(fault) };
    },
  },
  "Cable withstands a slow fault": {
    asked: "at least",
    weight: "danger",
    means: "its conductors overheat while a fault is too small to blow the fuse fast",
    cite: "iec-60364-5-54",
    find(cable) {
      const fuse = cable.isCable ? fuseBefore(cable) : undefined;
      if (!fuse) return undefined;
      const current = fuse.needOfAll("clearsAt");
      const time = fuse.need("within");
      return withstanding(
        cable,
        fuse,
        current,
        time,
        `the least current that ${fuse.name} clears, in one core`,
        "within",
        () => [],
      );
    },
  },
};

/** `load 2.9 A ≤ fuse 16 A ≤ cable 70 A`: all three in one row. */
function loadFuseCable(fuse: Place, load: number): string {
  const ratings = cablesBehind(fuse).map((cable) =>
    cable.figure("ratedCurrent") === undefined ? undefined : cable.needOfAll("ratedCurrent"),
  );
  const cable =
    ratings.length === 0
      ? []
      : [
          `cable ${ratings.includes(undefined) ? "not given" : `${figure(Math.min(...(ratings as number[])))} A`}`,
        ];
  const rated = fuse.figure("ratedCurrent");
  return [
    `load ${figure(load)} A`,
    `fuse ${rated === undefined ? "not given" : `${figure(rated * fuse.inParallel)} A`}`,
    ...cable,
  ].join(", ");
}

function greatestWords({ source, tree, row }: Place, fault: FoundFault): string {
  if (isHeld(fault)) return `current limit of ${source.name}`;
  const isSupply = source.kind.role === "supply";
  const way = [source, ...tree.wayTo(row).map((one) => source.at(one))];
  const differs = way.some((one) => one.coldResistance < one.hotResistance);
  return [
    isSupply ? "highest supply" : `highest voltage of ${source.name}`,
    ...(differs ? [tree.cold!.name] : []),
    ...(fault.lacking.length > 0 ? [`${leastResistancesOf(fault.lacking)} not given`] : []),
    ...(isSupply ? ["no current limit"] : []),
  ].join(", ");
}

function lackingOf({ lacking }: FoundFault): Pick<Finding, "lacking"> {
  const [first] = lacking;
  if (!first) return {};
  const advice = lacking.length > 1 ? `enter ${leastResistancesOf(lacking)}` : undefined;
  return { lacking: new MissingFigure(first, ["leastResistance"], advice) };
}

function leastWords({ source, tree }: Place): string {
  return [
    "lowest supply",
    ...(tree.hot.name === "" ? [] : [tree.hot.name]),
    ...(limitOf(source) === undefined ? ["no current limit given, none counted"] : []),
  ].join(", ");
}

function faultWorking(
  place: Place,
  { loop, prospectiveCurrent, current }: FoundFault,
): () => readonly FindingWorking[] {
  return stepsWorking(
    `Fault at the output of ${place.name}`,
    faultLoopGivens,
    faultCurrentSteps(loop),
    loop,
    { prospectiveCurrent, current },
  );
}

/** Ratings that every cable behind the fuse bears. */
function largerFuses(fuse: Place): Figure[] {
  const ratings = cablesBehind(fuse).flatMap(
    (cable) => (cable.figure("ratedCurrent") ?? Infinity) * cable.inParallel,
  );
  return fuseRatings(
    fuse,
    "more",
    (rating) => rating * fuse.inParallel <= Math.min(Infinity, ...ratings),
  );
}

/** Ratings that still carry the load. */
function smallerFuses(fuse: Place, load: number): Figure[] {
  return fuseRatings(fuse, "less", (rating) => rating * fuse.inParallel >= load);
}

interface EndOfFault {
  readonly finding: Finding;
  /** What clears it; undefined where nothing does, or where a limit holds it for ever. */
  readonly by?: Place;
}

/** What becomes of a fault at the far end of a cable: the fuse clears it, the supply shuts down, or a limit holds it. */
function endOfFault(cable: Place): EndOfFault {
  return cable.tree.once(`end of fault ${cable.row}`, () => foundEnd(cable));
}

function foundEnd(cable: Place): EndOfFault {
  const { source } = cable;
  const fuse = fuseBefore(cable);
  const fault = leastFault(cable);
  const { current } = fault;
  const unit = "A";
  const field = "size";
  const at = `fault at its far end, ${leastWords(cable)}`;
  const working = faultWorking(cable, fault);
  const clearsAt = fuse?.figure("clearsAt");
  const clears = clearsAt === undefined ? undefined : clearsAt * fuse!.inParallel;
  const shutsDown = source.figure("shutsDownAt");
  const stops = shutsDown === undefined ? undefined : shutsDown * source.inParallel;
  if (fuse && clears !== undefined && current >= clears) {
    const finding = {
      found: current,
      limit: clears,
      unit,
      worstIn: `${at}: ${fuse.name} clears it`,
      field,
      comesTo: () => `${figure(current)} A`,
      working,
    };
    return { finding, by: fuse };
  }
  if (stops !== undefined && current >= stops) {
    const beside = fuse && clears !== undefined ? `; ${fuse.name} needs ${figure(clears)} A` : "";
    const finding = {
      found: current,
      limit: stops,
      unit,
      worstIn: `${at}: ${source.name} shuts itself down${beside}`,
      cause: source,
      field,
      comesTo: () => `${figure(current)} A`,
      working,
    };
    return { finding, by: source };
  }
  if (fuse && clears === undefined)
    throw new MissingFigure(fuse, [
      "clearsAt",
      ...(fuse.figure("within") === undefined ? (["within"] as const) : []),
    ]);
  const limit = limitOf(source);
  if (limit !== undefined && limit <= current * (1 + 1e-12)) {
    const [weakest] = onTheWay(cable).sort(
      (one, other) => one.needOfAll("ratedCurrent") - other.needOfAll("ratedCurrent"),
    );
    const rating = weakest!.needOfAll("ratedCurrent");
    if (rating >= limit || !fuse)
      return {
        finding: {
          found: rating,
          limit,
          unit,
          worstIn: `${at}: the current limit of ${source.name} holds it, against the rating of the cable`,
          field: ratingField(weakest!),
          figures: () => [moreRated(weakest!), less([source], "currentLimit")],
          working,
        },
      };
  }
  if (!fuse && stops === undefined)
    throw new MissingFigure(
      source,
      source.kind.role === "supply" ? ["shutsDownAt", "within"] : ["currentLimit"],
      `add a fuse before ${cable.name}, or enter ${source.kind.role === "supply" ? `${source.header("shutsDownAt")} and ${source.header("within")}` : source.header("currentLimit")} of ${source.name}`,
    );
  const needed = Math.min(clears ?? Infinity, stops ?? Infinity);
  return {
    finding: {
      found: current,
      limit: needed,
      unit,
      worstIn: at,
      field,
      figures: () => [
        sizesOf(onTheWay(cable)),
        fuse ? less([fuse], "clearsAt") : less([source], "shutsDownAt"),
        more([source], "currentLimit"),
      ],
      comesTo: () => `${figure(current)} A`,
      working,
    },
  };
}

/** Undefined where nothing clears it, or where that is not determined: the check of the fault itself says so. */
function clearedBy(cable: Place): Place | undefined {
  try {
    return endOfFault(cable).by;
  } catch (error) {
    if (error instanceof MissingFigure) return undefined;
    throw error;
  }
}

/** Cables that the fault's current flows through. */
function onTheWay(cable: Place): Place[] {
  return cable.tree
    .wayTo(cable.row)
    .map((row) => cable.at(row))
    .filter(({ isCable }) => isCable);
}

/**
 * Of the table or as typed; undefined where none is asked for against shock. A level that feeds loads itself is a final
 * circuit. @throws {MissingRequirement}
 */
function longestTime(cable: Place): number | undefined {
  const label = "Far-end fault cleared within";
  const { tree, source } = cable;
  const value = tree.requirements.get(label);
  if (typeof value === "number") return value;
  const system = TABLES_OF_TIMES[value as keyof typeof TABLES_OF_TIMES] as "TN" | "TT" | undefined;
  if (system === undefined)
    throw new MissingRequirement(label, value === undefined ? "not given" : "not asked");
  const feedsLoads = [...tree.source.keys()].some(
    (row) =>
      tree.source[row] === source.row &&
      cable.at(row).kind.role === "load" &&
      tree.wayTo(row).includes(cable.row),
  );
  const voltage = tree.idleOutput(source.row, "highest");
  return disconnectionTime(voltage, `${system} ${feedsLoads ? "final" : "distribution"}`).time;
}

function withstanding(
  cable: Place,
  fuse: Place,
  faultCurrent: number,
  time: number,
  worstIn: string,
  field: "clearsNearEnd" | "within",
  before: () => readonly FindingWorking[],
): Finding {
  const endC = cable.asked("Conductor at the end of a fault");
  const startC = cable.need("conductorC");
  const { size, material } = cable.conductor;
  const asked = { faultCurrent, size, startC, endC, material };
  const stood = withstandTime(asked);
  return {
    found: stood.time,
    limit: time,
    unit: "s",
    worstIn: `${figure(faultCurrent)} A, ${worstIn}`,
    cause: fuse,
    field,
    figures: () => [sizesOf([cable]), less([fuse], field, { times: FAR.time })],
    comesTo: () => `${figure(stood.time)} s`,
    working: () => [...before(), ...withstandWorking(cable, asked, stood)()],
  };
}

function withstandWorking(
  cable: Place,
  asked: Parameters<typeof withstandTime>[0],
  { section, ...found }: WithstandTime,
): () => readonly FindingWorking[] {
  return stepsWorking(
    `${cable.name} in a fault`,
    {
      ...sectionGivens(section),
      ...materialWorking(asked.material, []).givens,
      ...faultedConductorGivens,
    },
    { ...sectionSteps[section.sizing], ...withstandTimeSteps },
    { size: sizeAsGiven(asked.size), ...numbersOf(section) },
    {
      faultCurrent: asked.faultCurrent,
      startC: asked.startC,
      endC: asked.endC,
      material: asked.material.name,
    },
    found,
  );
}
