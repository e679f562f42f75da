/** Rating of a cable by its heat balance, where no other is typed. */
import { ampacityWorking, conductorAmpacity } from "../../conductors/conductor-ampacity.js";
import { InputError, NoAnswerError } from "../../quantities/errors.js";
import { figure } from "../../quantities/figures.js";
import type { Quantities, Quantity, Step, Steps } from "../../quantities/steps.js";
import { HEAT_BALANCE } from "../columns.js";
import { worseOf, worseOfPlaces } from "../locations.js";
import { figureOf, isGiven, refused, wordOf } from "../schedule-row.js";
import {
  CABLE_FIELDS,
  type CableSetting,
  limitOf,
  LIMIT,
  PER_POLE,
  hottestStep,
  INSULATION,
} from "./cable-setting.js";
import { Givens, type RowMaker } from "../table-row.js";

/** Only where all is given that a balance needs; a cable elsewhere than in still air has none. */
export function ratingCell(made: RowMaker, cable: CableSetting): void {
  const { row, places, size, insulation, hotC, perPole, cores } = cable;
  const outerDiameter = figureOf(row, "outerDiameter");
  const ambientC = worseOf(places, "hottestC", "max");
  const surroundings = wordOf(row, "surroundings") ?? "still air";
  if (
    isGiven(row, "ratedCurrent") ||
    size === undefined ||
    insulation === undefined ||
    outerDiameter === undefined ||
    hotC === undefined ||
    ambientC === undefined ||
    surroundings !== "still air"
  )
    return;
  const altitude = worseOf(places, "altitude", "max");
  const limited = {
    size,
    material: cable.material,
    build: cable.build,
    ambientC,
    outerDiameter,
    loadedCores: cores,
    insulation,
    grouping: figureOf(row, "grouping") ?? 1,
    altitude: altitude ?? 0,
    sun: worseOf(places, "sun", "max") ?? 0,
    temperatureLimitC: Math.min(hotC, limitOf(insulation) ?? hotC),
  };
  let found;
  try {
    found = conductorAmpacity(limited);
  } catch (error) {
    if (error instanceof NoAnswerError) {
      made.note(`no rating: ${error.message}`);
      return;
    }
    if (!(error instanceof InputError)) throw error;
    const fields: Readonly<Record<string, string>> = CABLE_FIELDS;
    throw refused(row, fields[error.field] ?? error.field, error.requirement);
  }
  const ratedCurrent = found.current * perPole;
  const working = made.work(() => {
    const balance = ampacityWorking(limited, found);
    const givens = new Givens()
      .link("outerDiameter", row, "outerDiameter")
      .link("insulation", row, "insulation")
      .link("loadedCores", row, "cores")
      .link("grouping", row, "grouping")
      .link("size", row, "size")
      .link("material", row, "material");
    Object.assign(givens.quantities, balance.givens);
    const air = (field: "hottestC" | "altitude" | "sun", name: string) =>
      worseOfPlaces(givens, places, field, name, quantityOf(balance, name));
    const steps = {
      ...air("hottestC", "ambientC"),
      ...air("altitude", "altitude"),
      ...air("sun", "sun"),
      ...limitSteps(givens, cable, quantityOf(balance, "temperatureLimitC")),
      ...balance.steps,
      perPole: { ...PER_POLE, key: "loadedCores" },
      ratedCurrent: RATED,
    };
    const { temperatureLimitC } = limited;
    return givens.working(`${row.name}: rating by its heat balance`, steps, {
      ...balance.values,
      ...(insulation !== "none" && { insulationLimitC: limitOf(insulation)! }),
      temperatureLimitC,
      perPole,
      ratedCurrent,
    });
  });
  made.derive("ratedCurrent", ratedCurrent, working, "ratedCurrent");
  made.say("ratedBy", HEAT_BALANCE);
  made.note(
    `Rated A from its heat balance at ${figure(limited.temperatureLimitC)} °C in still air of ${figure(ambientC)} °C${altitude === undefined ? ", at sea level" : ""}${limited.grouping === 1 ? ", alone" : ""}`,
  );
}

const RATED: Step = {
  label: "Current of one cable",
  symbol: "Ir",
  unit: "A",
  kind: "formula",
  formula: "current * perPole",
  cite: "definition",
};

function quantityOf({ givens }: { readonly givens: Quantities }, name: string): Quantity {
  const { label, symbol, unit } = givens[name]!;
  return { label, symbol, unit };
}

/** The lesser of what was typed and what the insulation allows. */
function limitSteps(givens: Givens, { row, insulation }: CableSetting, described: Quantity): Steps {
  if (insulation === "none" || !isGiven(row, "conductorC"))
    return hottestStep(givens, row, "temperatureLimitC");
  delete givens.quantities["temperatureLimitC"];
  givens
    .add("insulation", INSULATION, row, "insulation")
    .add(
      "conductorC",
      { label: "Conductor at most, as typed", symbol: "θc", unit: "°C" },
      row,
      "conductorC",
    );
  return {
    insulationLimitC: { ...LIMIT, label: "Usual limit of the insulation" },
    temperatureLimitC: {
      ...described,
      kind: "formula",
      formula: "min(conductorC, insulationLimitC)",
      cite: "definition",
    },
  };
}
