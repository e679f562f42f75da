/** How the figures of one line of a tornado come about: from two solutions, and the slope from the adjoint of its row. */
import { figure as figureText } from "../quantities/figures.js";
import { fieldsOf } from "../quantities/formulas.js";
import type { GivenSources } from "../quantities/given-sources.js";
import type { Quantities, Quantity, Step, Steps } from "../quantities/steps.js";
import type { MovingFigure, SolvedFigure } from "./moving-figures.js";
import type { FeedTornado, TornadoLine } from "./feed-tornado.js";
import { ratedFlowAt } from "../network/row-flow.js";
import { EQUATION, type Equation, KINDS } from "../network/row-kinds.js";
import { inputUnit, type VariedInput } from "./varied-inputs.js";

export interface TornadoWorking extends GivenSources {
  readonly title: string;
  readonly givens: Quantities;
  readonly steps: Steps;
  readonly values: Readonly<Record<string, number>>;
}

/** @param name Of the line, as it stands in the table. */
export function tornadoWorking(
  tornado: FeedTornado,
  line: TornadoLine,
  name: string,
): TornadoWorking {
  const swing = swingWorking(tornado, line, name);
  const slope =
    line.slope === undefined ? NOTHING : slopeWorking(tornado, line.inputs[0]!, line.slope);
  return {
    title: name,
    givens: { ...swing.givens, ...slope.givens },
    steps: { ...swing.steps, ...slope.steps },
    values: { ...swing.values, ...slope.values },
    frozen: { ...swing.frozen, ...slope.frozen },
  };
}

type Part = Omit<TornadoWorking, "title">;

const NOTHING: Part = { givens: {}, steps: {}, values: {} };

// The distances of three numbers from each other are twice what the outer two are apart.
const SWING =
  "(abs(highGives - lowGives) + abs(highGives - enteredGives) + abs(lowGives - enteredGives)) / 2";

function swingWorking(
  { feed, quantity, nominal }: FeedTornado,
  { inputs, lowGives, highGives, swing }: TornadoLine,
  name: string,
): Part {
  const { unit } = quantity;
  const solved = (end: "low" | "high") => {
    const [only, ...others] = inputs;
    const at =
      only && others.length === 0
        ? `${figureText(only[end])} ${inputUnit(feed.columns, only)}`
        : `its ${end} ends`;
    return `solved with ${name} at ${at}`;
  };
  const ends = [
    ["lowGives", `Result at the low end`, "y₁", lowGives, solved("low")],
    ["highGives", `Result at the high end`, "y₂", highGives, solved("high")],
    ["enteredGives", "Result as entered", "y₀", swing === undefined ? undefined : nominal, SOLVED],
  ] as const;
  const given = ends.filter(([, , , value]) => value !== undefined);
  return {
    givens: Object.fromEntries(
      given.map(([field, label, symbol]) => [field, { label, symbol, unit }]),
    ),
    steps: swing === undefined ? {} : { swing: step("Swing", "Δy", unit, SWING, "definition") },
    values: {
      ...Object.fromEntries(given.map(([field, , , value]) => [field, value!])),
      ...(swing !== undefined && { swing }),
    },
    frozen: Object.fromEntries(given.map(([field, , , , told]) => [field, told])),
  };
}

function step(
  label: string,
  symbol: string,
  unit: string,
  formula: string,
  cite: Step["cite"],
): Step {
  return { label, symbol, unit, kind: "formula", formula, cite };
}

/** By field; what a formula reads of the row and of its adjoint. */
interface RowGiven extends Quantity {
  readonly value: number;
  readonly told: string;
}

function slopeWorking(tornado: FeedTornado, input: VariedInput, slope: number): Part {
  const { row, figures } = input;
  const { quantity, feed, sensitivity } = tornado;
  const slopeUnit = perUnit(quantity.unit, inputUnit(feed.columns, input));
  const steps: Record<string, Step> = {};
  const values: Record<string, number> = { slope };
  const [first, ...others] = figures;
  if (first !== undefined && others.length === 0) {
    const formula = slopeFormula(tornado, row, first);
    steps["slope"] = step("Slope", "dy/dx", slopeUnit, formula, "adjoint-network");
  } else {
    for (const figure of figures) {
      const name = `${figure}Slope`;
      const unit = perUnit(quantity.unit, inputUnit(feed.columns, { ...input, figures: [figure] }));
      const formula = slopeFormula(tornado, row, figure);
      steps[name] = step(
        `Slope with the ${figure}`,
        `dy/d${figure}`,
        unit,
        formula,
        "adjoint-network",
      );
      values[name] = sensitivity.slopes[figure][row]!;
    }
    const formula = figures.map((figure) => `${figure}Slope * ${figure}`).join(" + ");
    steps["slope"] = step(
      "Slope with the factor of all",
      "dy/df",
      slopeUnit,
      formula,
      "definition",
    );
  }
  const known = rowGivens(tornado, row);
  const read = new Set(
    Object.values(steps).flatMap((one) => (one.kind === "formula" ? fieldsOf(one.formula) : [])),
  );
  const givens: Record<string, Quantity> = {};
  const frozen: Record<string, string> = {};
  for (const [field, { value, told, ...quantityOf }] of Object.entries(known)) {
    if (!read.has(field)) continue;
    givens[field] = quantityOf;
    values[field] = value;
    frozen[field] = told;
  }
  return { givens, steps, values, frozen };
}

/** A quantity's unit by an input's: `W/Ω`; a plain number divides nothing. */
export function perUnit(unit: string, by: string): string {
  if (by === "1") return unit;
  return `${unit}/${by.includes("/") ? `(${by})` : by}`;
}

/** The row's own equation derived by the figure, times the adjoint of that equation; of one item of those in parallel. */
function slopeFormula(
  { feed, sensitivity }: FeedTornado,
  row: number,
  figure: MovingFigure,
): string {
  if (sensitivity.slopes[figure][row] === 0) return "0";
  const { columns } = feed;
  const equation = KINDS[columns.kind[row]!]!.equation;
  switch (figure) {
    case "voltage":
      return VOLTAGE_FORMULAS[equation]!;
    case "resistance": {
      const ofDrop = "ofOutputVoltage * outputCurrent";
      const isPartOfLoss =
        equation === EQUATION.ratio && !Number.isNaN(columns.figures.quadraticLoss[row]!);
      return isPartOfLoss
        ? `0 - (${ofDrop} + ofInputCurrent * outputCurrent^2 / inputVoltage) / inParallel`
        : `0 - ${ofDrop} / inParallel`;
    }
    case "ratio":
      return "ofOutputVoltage * inputVoltage + ofInputCurrent * outputCurrent / efficiency";
    case "fixedLoss":
      return "ofInputCurrent * inParallel / inputVoltage";
    case "linearLoss":
      return "ofInputCurrent * outputCurrent / inputVoltage";
    case "quadraticLoss":
      return "ofInputCurrent * outputCurrent^2 / inputVoltage / inParallel";
    case "efficiency":
      return equation === EQUATION.ratio
        ? "0 - ofInputCurrent * ratio * outputCurrent / efficiency^2"
        : "0 - ofInputCurrent * outputVoltage * outputCurrent / (efficiency^2 * inputVoltage)";
    case "load":
      return LOAD_FORMULAS[equation]!;
    case "lowestVoltage":
      return "0 - inputVoltage / lowestVoltage^2";
    case "highestVoltage":
      return "inputVoltage / highestVoltage^2";
    case "ratedCurrent":
      return "0 - ratedFlow / (ratedCurrent^2 * inParallel)";
    case "mass":
    case "price":
      // It is added up as it stands.
      return "1";
    case "outerDiameter":
    case "grouping":
    case "hottestC":
    case "altitude":
    case "sun":
      return ownField(figure);
  }
}

/** Figures of a heat balance, which has no formula to derive. */
const BALANCE_FIGURES = ["outerDiameter", "grouping", "hottestC", "altitude", "sun"] as const;

function ownField(figure: (typeof BALANCE_FIGURES)[number]): string {
  return `${figure}Slope`;
}

const VOLTAGE_FORMULAS: Partial<Readonly<Record<Equation, string>>> = {
  [EQUATION.supply]: "ofInputVoltage + ofOutputVoltage",
  [EQUATION.line]: "0 - ofOutputVoltage",
  [EQUATION.regulated]: "ofOutputVoltage",
};

const LOAD_FORMULAS: Partial<Readonly<Record<Equation, string>>> = {
  [EQUATION.power]: "ofInputCurrent * inParallel / inputVoltage",
  [EQUATION.current]: "ofInputCurrent * inParallel",
  [EQUATION.conductance]: "0 - ofInputCurrent * inputVoltage * inParallel / load^2",
};

const SOLVED = "solved with every input as entered";
const ENTERED = "as the feed table has it in the case that is solved";
const ADJOINT = "adjoint equations, solved once for all inputs";

function rowGivens({ feed, sensitivity, quantity }: FeedTornado, row: number) {
  const { columns, state } = feed;
  const { adjoint } = sensitivity;
  const entered = (field: SolvedFigure | "inParallel", label: string, symbol: string, unit = "1") =>
    ({
      label,
      symbol,
      unit,
      value: columns.figures[field][row]!,
      told: ENTERED,
    }) satisfies RowGiven;
  const flow = (label: string, symbol: string, unit: string, value: number) =>
    ({ label, symbol, unit, value, told: SOLVED }) satisfies RowGiven;
  const ofSource = (where: string, symbol: string, unit: string, value: number) =>
    ({
      label: `Change of the result with a small source ${where}`,
      symbol,
      unit: perUnit(quantity.unit, unit),
      value,
      told: ADJOINT,
    }) satisfies RowGiven;
  const givens: Readonly<Record<string, RowGiven>> = {
    ofInputVoltage: ofSource("in its input voltage", "λ₁", "V", adjoint.inputVoltage[row]!),
    ofOutputVoltage: ofSource("in its output voltage", "λ₂", "V", adjoint.outputVoltage[row]!),
    ofInputCurrent: ofSource("in its input current", "μ₁", "A", adjoint.inputCurrent[row]!),
    inputVoltage: flow("Input voltage", "V₁", "V", state.inputVoltage[row]!),
    outputVoltage: flow("Output voltage", "V₂", "V", state.outputVoltage[row]!),
    outputCurrent: flow("Output current", "I₂", "A", state.outputCurrent[row]!),
    ratedFlow: flow("Current that is held against the rating", "I", "A", ratedFlowAt(feed, row)),
    voltage: entered("voltage", "Voltage", "V₀", "V"),
    resistance: entered("resistance", "Resistance", "R", "Ω"),
    ratio: entered("ratio", "Ratio", "r"),
    efficiency: {
      ...entered("efficiency", "Efficiency", "η"),
      // Without one losses are given, or none: nothing is lost as a part of what passes.
      value: feed.numbers.efficiency[row]!,
    },
    load: entered("load", "Load", "R", "Ω"),
    lowestVoltage: entered("lowestVoltage", "Lowest V", "V₀", "V"),
    highestVoltage: entered("highestVoltage", "Highest V", "V₀", "V"),
    ratedCurrent: entered("ratedCurrent", "Rated A", "I_n", "A"),
    inParallel: entered("inParallel", "In parallel", "n"),
    ...Object.fromEntries(
      BALANCE_FIGURES.map((figure) => [
        ownField(figure),
        {
          label: "Change of the temperature, by heat balances beside the one as entered",
          symbol: "dθ/dx",
          unit: perUnit(quantity.unit, inputUnit(columns, { row, figures: [figure] })),
          value: sensitivity.slopes[figure][row]!,
          told: "five balances on one side of it",
        } satisfies RowGiven,
      ]),
    ),
  };
  return givens;
}
