/** Cables: how hot they get, and whether their insulation is for the voltage. */
import {
  conductorTemperature,
  temperatureWorking,
} from "../../conductors/conductor-temperature.js";
import { type InsulationName, insulations } from "../../conductors/insulations.js";
import { NoAnswerError } from "../../quantities/errors.js";
import { figure } from "../../quantities/figures.js";
import { type CheckName, NONE } from "../check-row.js";
import { degrees, lessLoad, more, moreInParallel, sizesOf } from "../mends/changes.js";
import type { Check, Finding } from "../check.js";
import { caseWorking } from "../finding-working.js";
import { loadedCable, missingForHeat, otherSurroundings } from "../loaded-cable.js";
import { MissingFigure, type Place } from "../place.js";
import type { TableField } from "../../schedules/columns.js";

type CableCheck = Extract<
  CheckName,
  "Conductor temperature" | "Insulation temperature" | "Cable rated for the voltage"
>;

export const CABLE_CHECKS: Readonly<Record<CableCheck, Check>> = {
  "Conductor temperature": {
    asked: "at most",
    weight: "warning",
    means: "its resistance is counted for a cooler conductor",
    cite: "hottest-of-several",
    find: (place) => heated(place, "conductorC", ({ conductorC }) => conductorC!),
  },
  "Insulation temperature": {
    asked: "at most",
    weight: "danger",
    means: "its insulation does not last",
    cite: "insulation-limits",
    find(place) {
      // Bare metal has none that could age.
      if (place.word("insulation") === "none") return undefined;
      return heated(place, undefined, (_, insulation) =>
        insulation === "none" ? Infinity : insulations[insulation].usualLimitC,
      );
    },
  },
  "Cable rated for the voltage": {
    asked: "at least",
    weight: "danger",
    means: "its insulation may break down",
    cite: "definition",
    find(place) {
      if (!place.isCable) return undefined;
      const rated = place.need("ratedVoltage");
      const extreme = place.tree.extreme(place.row, "highestVoltage");
      return {
        found: rated,
        limit: extreme.value,
        unit: "V",
        worstIn: extreme.text,
        field: "ratedVoltage",
        cases: [extreme],
        figures: () => [more([place], "ratedVoltage")],
        working: caseWorking(place, extreme),
      };
    },
  },
};

interface HeatFigures {
  readonly conductorC: number | undefined;
}

function heated(
  place: Place,
  needed: "conductorC" | undefined,
  limitOf: (figures: HeatFigures, insulation: InsulationName) => number,
): Finding | undefined {
  if (!place.isCable) return undefined;
  const surroundings = otherSurroundings(place.details);
  if (surroundings !== undefined)
    throw new MissingFigure(
      place,
      ["surroundings"],
      `${place.name} lies in ${surroundings}: its heat is reckoned in still air only; check it by the installation tables of the local code`,
    );
  // All that is missing at once.
  const missing: TableField[] = [
    ...missingForHeat(place.details),
    ...(needed !== undefined && place.figure(needed) === undefined ? [needed] : []),
  ];
  if (missing.length > 0) throw new MissingFigure(place, missing);
  const extreme = place.tree.extreme(place.row, "highestCurrent");
  const cable = loadedCable(place.details, place.inParallel, extreme.value);
  const limit = limitOf({ conductorC: place.figure("conductorC") }, cable.insulation);
  const at = `${figure(cable.current)} A in each core: ${extreme.text}${takenWords(place)}`;
  const common = {
    limit,
    unit: "°C",
    worstIn: at,
    field: "size" as const,
    cases: [extreme],
    *figures() {
      yield sizesOf([place]);
      yield moreInParallel([place]);
      yield lessLoad(place);
      yield degrees(place, "hottestC", "less");
    },
  };
  if (!(cable.current > 0)) return { ...common, found: cable.ambientC };
  try {
    const found = conductorTemperature(cable);
    return {
      ...common,
      found: found.conductorTemperatureC,
      comesTo: () => `${figure(found.conductorTemperatureC)} °C in the same outer diameter`,
      working: () => [
        ...caseWorking(place, extreme)(),
        {
          title: `${place.name} in still air`,
          ...temperatureWorking(cable, found),
        },
      ],
    };
  } catch (error) {
    if (!(error instanceof NoAnswerError)) throw error;
    return {
      ...common,
      found: NONE,
      holds: false,
      worstIn: `${error.message}; ${extreme.text}`,
    };
  }
}

/** What makes a cable warmer and was not given is taken as the least of it, and said. */
function takenWords(place: Place): string {
  const taken = TAKEN.flatMap(([field, words]) =>
    place.figure(field) === undefined ? [words] : [],
  );
  return taken.length === 0 ? "" : `; taken as ${taken.join(", ")}`;
}

const TAKEN = [
  ["grouping", "alone"],
  ["sun", "out of the sun"],
  ["altitude", "at sea level"],
] as const;
