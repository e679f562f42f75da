/** Stages: sharing, a unit lost, warmth and cold, ripple, stability, and what stays charged. */
import { type CircuitRipple, circuitRipples } from "../../safety/circuit-ripple.js";
import { feedCircuits } from "../../safety/circuits.js";
import {
  capacitorDischarge,
  capacitorDischargeGivens,
  capacitorDischargeSteps,
} from "../../safety/capacitor-discharge.js";
import { storedEnergy, storedEnergyGivens, storedEnergySteps } from "../../safety/stored-energy.js";
import { likeConvertersGivens } from "../../parallel/like-converters.js";
import { parallelWorst, parallelWorstSteps } from "../../parallel/parallel-worst.js";
import {
  type ConstantPowerBus,
  constantPowerBusGivens,
  criticalPower,
  stabilityMarginSteps,
} from "../../transients/stability-margin.js";
import { NoAnswerError } from "../../quantities/errors.js";
import { figure } from "../../quantities/figures.js";
import { type CheckName, NONE } from "../check-row.js";
import {
  degrees,
  FAR,
  less,
  lessLoad,
  more,
  moreInParallel,
  percent,
  rowInCase,
} from "../mends/changes.js";
import { askedPart, type Check, type Finding } from "../check.js";
import { leastResistancesOf, leastUnknown } from "../fault-paths.js";
import { allWorkings, caseWorking, showing, stepsWorking } from "../finding-working.js";
import { MissingFigure, MissingRequirement, type Place } from "../place.js";
import type { DetailFigure } from "../judged-feed.js";
import type { FoundExtreme } from "../tree-context.js";
import { carrying } from "./feed-checks.js";
import { levelRows, ratedPart } from "./voltage-checks.js";

type StageCheck = Extract<
  CheckName,
  | "Ripple"
  | "Share of the worst unit"
  | "One unit lost"
  | "Stage in its ambient"
  | "Lowest ambient"
  | "Stability margin"
  | "Discharge time"
  | "Stored energy"
>;

const isStage = ({ kind }: Place) => kind.role === "stage";

export const STAGE_CHECKS: Readonly<Record<StageCheck, Check>> = {
  Ripple: {
    asked: "at most",
    weight: "warning",
    means: "what hangs on the bus may be disturbed",
    cite: "definition",
    find(place) {
      const { role } = place.kind;
      if ((role !== "supply" && role !== "stage") || levelRows(place).length === 0)
        return undefined;
      const limit = place.asked("Ripple of a bus");
      const ripple = rippleOf(place);
      if (ripple === undefined) throw new MissingFigure(place, ["rippleRms"]);
      const nominal = place.tree.nominalBehind(place.row);
      return {
        found: ripple.rms / nominal,
        limit,
        unit: `of ${figure(nominal)} V`,
        worstIn: `${figure(ripple.rms)} V rms, full load${ripple.passedOn ? "; that of what feeds it, none of its own" : ""}`,
        field: "rippleRms",
        figures: () => [
          less(ripple.passedOn ? feedersOf(place) : [place], "rippleRms", {
            note: ", with a filter or another type",
            times: FAR.ripple,
          }),
        ],
      };
    },
  },
  "Share of the worst unit": {
    asked: "at most",
    weight: "warning",
    means: "one unit carries more than is asked of its rating",
    cite: "parallel-generators",
    find(place) {
      if (!isStage(place) || place.inParallel < 2) return undefined;
      const extreme = place.tree.extreme(place.row, "highestFlow", "own units kept");
      return sharing(place, extreme, place.inParallel);
    },
  },
  "One unit lost": {
    asked: "at most",
    weight: "warning",
    means: "those that are left carry more than is asked of their rating",
    cite: "parallel-generators",
    find(place) {
      const { tree, row } = place;
      const { role } = place.kind;
      const many = place.inParallel > 1 && (role === "stage" || role === "supply");
      if (!many) return undefined;
      const asked = tree.requirements.figure("Units lost");
      const redundant = (place.figure("unitsNeeded") ?? place.inParallel) < place.inParallel;
      if (redundant && (asked === "not asked" || asked === 0))
        throw new MissingRequirement("Units lost", "not asked");
      if (!tree.losesOne(row)) return undefined;
      return oneLost(place);
    },
  },
  "Stage in its ambient": {
    asked: "at most",
    weight: "warning",
    means: "it is too warm there for what it gives",
    cite: "definition",
    find: (place) => (isStage(place) ? inItsAmbient(place) : undefined),
  },
  "Lowest ambient": {
    asked: "at least",
    weight: "warning",
    means: "it may not start in the cold",
    cite: "definition",
    find(place) {
      if (!isStage(place)) return undefined;
      needEach(place, ["coldestC", "lowestC"]);
      return {
        found: place.need("coldestC"),
        limit: place.need("lowestC"),
        unit: "°C",
        worstIn: "coldest air",
        field: "lowestC",
        figures: () => [degrees(place, "lowestC", "less"), degrees(place, "coldestC", "more")],
      };
    },
  },
  "Stability margin": {
    asked: "at least",
    weight: "warning",
    means: "disturbances may swell instead of dying out",
    cite: "constant-power-stability",
    find: (place) => (isStage(place) ? stability(place) : undefined),
  },
  "Discharge time": {
    asked: "at most",
    weight: "danger",
    means: "it stays hazardous too long after it is cut off",
    cite: "iec-60204-1-discharge",
    find: (place) => (isStage(place) ? discharge(place) : undefined),
  },
  "Stored energy": {
    asked: "at most",
    weight: "warning",
    means: "its charge alone is a hazard",
    cite: "nfpa-70e-360",
    find: storedIn,
  },
};

/** All that is missing at once. @throws {MissingFigure} */
function needEach(place: Place, fields: readonly DetailFigure[]): void {
  const missing = fields.filter((field) => place.figure(field) === undefined);
  if (missing.length > 0) throw new MissingFigure(place, missing);
}

/** Ripple at the output of a supply or stage; undefined where none is known. @throws {MissingFigure} */
function rippleOf(place: Place): CircuitRipple | undefined {
  const { columns } = place.tree.feed;
  const { circuits, ripples } = place.tree.onceOfColumns("ripples", () => {
    const found = feedCircuits(columns);
    return {
      circuits: found.circuits,
      ripples: circuitRipples(found.circuits),
    };
  });
  const circuit = circuits.find(({ row }) => row === place.row);
  const ripple = circuit && ripples.get(circuit);
  if (ripple && "outcome" in ripple)
    throw new MissingFigure(place, ["rippleRms"], `${ripple.blamed}: ${ripple.error.message}`);
  return ripple;
}

/** Supplies and stages that feed a stage, one behind the other. */
function feedersOf(place: Place): Place[] {
  const { source } = place;
  return source.row === place.row ? [] : [source, ...feedersOf(source)];
}

/** Current of the worst-placed of some units of a stage that are left, against its rating. @throws {MissingFigure} */
function sharing(place: Place, extreme: FoundExtreme, inParallel: number): Finding {
  const rated = place.need("ratedCurrent");
  const { part, unless } = askedPart(place, "Largest loading of a stage", 1);
  needEach(place, ["setPointSpread", "resistanceSpread"]);
  const resistance = place.need("resistance");
  const row = rowInCase(extreme, place.row)!;
  const { ratio, voltage } = row.coefficients;
  const like = {
    load: extreme.value,
    setVoltage: place.kind.inFault === "follows" ? ratio * row.inputVoltage : voltage,
    mismatch: place.need("setPointSpread"),
    outputResistance: Math.min(resistance, place.figure("leastResistance") ?? resistance),
    resistanceMismatch: place.need("resistanceSpread"),
    converters: inParallel,
    reverseFlow: "blocked" as const,
  };
  const limit = rated * part;
  const common = {
    limit,
    unit: "A",
    worstIn: [extreme.text, ...unknownWords([place])].join(", "),
    field: "inParallel",
    cases: [extreme],
    ...(unless && { unless }),
  };
  if (!(like.load > 0)) return { ...common, found: 0 };
  const found = parallelWorst(like);
  return {
    ...common,
    found: found.worstCurrent,
    figures: () => [
      moreInParallel([place]),
      less([place], "setPointSpread"),
      more([place], "ratedCurrent"),
    ],
    comesTo: () => `${figure(found.worstCurrent)} A in the worst unit`,
    working: allWorkings(
      caseWorking(place, extreme),
      stepsWorking(
        `Worst-placed of ${inParallel} units of ${place.name}`,
        {
          ...likeConvertersGivens,
          converters: { label: "Units", symbol: "n", unit: "1" },
        },
        parallelWorstSteps(like),
        like,
        found,
      ),
    ),
  };
}

/** Less resistance makes it worse: said where the least is not known. */
function unknownWords(rows: readonly Place[]): readonly string[] {
  const unknown = leastUnknown(rows);
  return unknown.length === 0 ? [] : [`${leastResistancesOf(unknown)} not given`];
}

function oneLost(place: Place): Finding {
  const { tree, row, inParallel } = place;
  const failed = tree.notCarried(row);
  const { part, unless } = askedPart(
    place,
    place.kind.role === "supply" ? "Largest loading of a supply" : "Largest loading of a stage",
    1,
  );
  const left = inParallel - 1;
  const common = {
    limit: part,
    field: "inParallel",
    ...(unless && { unless }),
  };
  if (failed)
    return {
      ...common,
      found: NONE,
      unit: "",
      holds: false,
      worstIn: failed.message,
      *figures() {
        yield moreInParallel([place]);
        yield* carrying(place);
      },
      comesTo: () => `loading ${percent(part)}`,
    };
  const power = tree.extreme(row, "highestPower", "own unit lost");
  const flow = tree.extreme(row, "highestFlow", "own unit lost");
  const ratedA = place.figure("ratedCurrent");
  const ratedW = place.figure("ratedPower");
  if (ratedA === undefined && ratedW === undefined)
    throw new MissingFigure(place, ["ratedCurrent"]);
  const byFlow = ratedA === undefined ? 0 : flow.value / (ratedA * left);
  const byPower = ratedW === undefined ? 0 : power.value / (ratedW * left);
  const spread =
    place.figure("setPointSpread") !== undefined &&
    place.figure("resistanceSpread") !== undefined &&
    left > 1 &&
    ratedA !== undefined &&
    isStage(place);
  const uneven = spread ? sharing(place, flow, left) : undefined;
  const byWorst = uneven ? (uneven.found as number) / ratedA! : 0;
  const found = Math.max(byFlow, byPower, byWorst);
  const extreme = byPower > Math.max(byFlow, byWorst) ? power : flow;
  const rating = extreme === power ? `${figure(ratedW! * left)} W` : `${figure(ratedA! * left)} A`;
  return {
    ...common,
    found,
    unit:
      byWorst === found && uneven ? `of ${figure(ratedA!)} A, worst-placed unit` : `of ${rating}`,
    worstIn: extreme.text,
    cases: [power, flow],
    *figures() {
      yield moreInParallel([place]);
      yield more(
        [place],
        ratedA === undefined || extreme === power ? "ratedPower" : "ratedCurrent",
      );
      yield lessLoad(place);
    },
    comesTo: () => `loading ${percent(found)}`,
    working: uneven?.working ?? caseWorking(place, extreme),
  };
}

/** Its rating full up to a temperature, less by the derating above it, none beyond the highest. */
function inItsAmbient(place: Place): Finding {
  const hottest = place.figure("hottestC");
  const highest = place.figure("highestC");
  const full = place.figure("fullUpToC");
  const missing = [
    ...(hottest === undefined ? (["hottestC"] as const) : []),
    ...(full === undefined && highest === undefined ? (["fullUpToC", "highestC"] as const) : []),
  ];
  if (missing.length > 0 || hottest === undefined) throw new MissingFigure(place, missing);
  if (highest !== undefined && hottest > highest)
    return {
      found: hottest,
      limit: highest,
      unit: "°C",
      worstIn: "hottest air",
      field: "highestC",
      figures: () => [degrees(place, "highestC", "more"), degrees(place, "hottestC", "less")],
    };
  if (full === undefined) throw new MissingFigure(place, ["fullUpToC"]);
  const part = hottest <= full ? 1 : Math.max(0, 1 - place.need("derating") * (hottest - full));
  const { part: used, rating, field, extreme } = ratedPart(place);
  return {
    found: used,
    limit: part,
    unit: `of ${rating}`,
    worstIn: `${percent(part)} of its rating left at ${figure(hottest)} °C: ${extreme.text}`,
    field: "inParallel",
    cases: [extreme],
    figures: () => [
      moreInParallel([place]),
      more([place], field),
      degrees(place, "fullUpToC", "more"),
      degrees(place, "hottestC", "less"),
    ],
    comesTo: () => `loading ${percent(used)}`,
    working: caseWorking(place, extreme),
  };
}

/** The stage as a constant power behind all that lies between it and what feeds its level, hot and cold; the lesser counts. */
function stability(place: Place): Finding | undefined {
  const { tree, row, source, inParallel } = place;
  const way = tree
    .wayTo(row)
    .map((at) => place.at(at))
    .filter(({ kind }) => kind.role === "line");
  const cables = way.filter(({ isCable }) => isCable);
  // Without a cable there is no inductance to swing with.
  if (cables.length === 0) return undefined;
  const limit = place.asked("Stability margin");
  requireFilter(place, cables);
  const inductance = cables.reduce(
    (sum, cable) => sum + cable.need("inductance") / cable.inParallel,
    0,
  );
  const volts = tree.extreme(row, "lowestVoltage");
  const amperes = tree.extreme(row, "highestCurrent");
  const bus = (resistance: (one: Place) => number): ConstantPowerBus => ({
    openCircuitVoltage: tree.idleOutput(source.row, "lowest"),
    load: volts.value * amperes.value,
    resistance: way.reduce((sum, one) => sum + resistance(one), resistance(source)),
    inductance,
    capacitance: place.needOfAll("inputCapacitance"),
    capacitorResistance: (place.figure("inputSeriesResistance") ?? 0) / inParallel,
  });
  const hot = bus((one) => one.hotResistance);
  const cold = bus((one) => one.coldResistance);
  const common = {
    limit,
    unit: "",
    field: "inputCapacitance",
    cases: [volts, amperes],
    figures: () => [
      more([place], "inputCapacitance", { times: FAR.capacitance }),
      more([place], "inputSeriesResistance"),
    ],
  };
  if (!(hot.load > 0)) return { ...common, found: NONE, holds: true, worstIn: "it draws nothing" };
  const named = tree.cold ? [hot, cold] : [hot];
  try {
    const [least] = named
      .map((one) => ({ one, found: criticalPower(one) }))
      .sort((first, second) => first.found.margin - second.found.margin);
    const { one, found } = least!;
    const condition = one === hot ? tree.hot.name : tree.cold!.name;
    return {
      ...common,
      found: found.margin,
      worstIn: [
        `lowest voltage times highest current, ${figure(one.load)} W`,
        ...(condition === "" ? [] : [condition]),
        ...unknownWords([source, ...way]),
      ].join(", "),
      working: showing(
        stepsWorking(
          `${place.name} as a constant power`,
          constantPowerBusGivens,
          stabilityMarginSteps(found),
          one,
          found,
        ),
        "margin",
      ),
      limitAsked: "Stability margin",
    };
  } catch (error) {
    if (!(error instanceof NoAnswerError)) throw error;
    return { ...common, found: NONE, holds: false, worstIn: error.message };
  }
}

/** Capacitance of the stage and inductance of every cable, all that is missing at once. @throws {MissingFigure} */
function requireFilter(place: Place, cables: readonly Place[]): void {
  const lacking = cables.filter((cable) => cable.figure("inductance") === undefined);
  const names = lacking.map(({ name }) => name).join(", ");
  const ofCables = lacking[0] && `${lacking[0].said("inductance")} of ${names}`;
  if (place.figure("inputCapacitance") === undefined) {
    const own = `enter ${place.said("inputCapacitance")} of ${place.name}`;
    throw new MissingFigure(place, ["inputCapacitance"], ofCables ? `${own} and ${ofCables}` : own);
  }
  if (lacking[0]) throw new MissingFigure(lacking[0], ["inductance"], `enter ${ofCables!}`);
}

function discharge(place: Place): Finding {
  const endVoltage = place.asked("Discharge to");
  const limit = place.asked("Discharge within");
  const extreme = place.tree.extreme(place.row, "highestVoltage");
  const common = { limit, unit: "s", field: "bleed" };
  if (extreme.value <= endVoltage * (1 + 1e-12))
    return {
      ...common,
      found: 0,
      worstIn: `never above ${figure(endVoltage)} V`,
    };
  needEach(place, ["inputCapacitance", "bleed"]);
  const capacitance = place.need("inputCapacitance");
  const resistance = place.need("bleed");
  const asked = {
    capacitance,
    startVoltage: extreme.value,
    endVoltage,
    resistance,
  };
  const found = capacitorDischarge(asked);
  return {
    ...common,
    found: found.time,
    worstIn: `${figure(extreme.value)} V: ${extreme.text}; verify by measurement`,
    cases: [extreme],
    figures: () => [less([place], "bleed", { times: FAR.time }), less([place], "inputCapacitance")],
    working: showing(
      stepsWorking(
        `Discharge of ${place.name}`,
        capacitorDischargeGivens,
        capacitorDischargeSteps,
        asked,
        found,
      ),
      "time",
    ),
    limitAsked: "Discharge within",
  };
}

function storedIn(place: Place): Finding | undefined {
  const field = isStage(place) ? "inputCapacitance" : "capacitance";
  const { role } = place.kind;
  if (role === "line") return undefined;
  if (!isStage(place) && !(place.figure(field)! > 0)) return undefined;
  const limit = place.asked("Stored energy");
  const capacitance = place.needOfAll(field);
  const extreme = place.tree.extreme(place.row, "highestVoltage");
  const common = { limit, unit: "J", field };
  if (!(capacitance > 0)) return { ...common, found: 0, worstIn: extreme.text };
  const asked = { capacitance, voltage: extreme.value };
  const { energy } = storedEnergy(asked);
  return {
    ...common,
    found: energy,
    worstIn: `${figure(capacitance * 1e6)} µF at ${figure(extreme.value)} V: ${extreme.text}`,
    cases: [extreme],
    figures: () => [less([place], field, { times: FAR.capacitance })],
    working: showing(
      stepsWorking(`Charge of ${place.name}`, storedEnergyGivens, storedEnergySteps, asked, {
        energy,
      }),
      "energy",
    ),
    limitAsked: "Stored energy",
  };
}
