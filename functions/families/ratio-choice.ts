import { ratioChoices } from "../../src/converters/ratio-choices.js";
import { ratioChoiceSteps, ratioWindowsGivens } from "../../src/converters/ratio-choices-steps.js";
import {
  ratioReflected,
  REFLECTED_QUANTITIES,
  reflectedSteps,
  type ReflectedQuantity,
  reflectionGivens,
} from "../../src/converters/ratio-reflected.js";
import { defineEntry, fills } from "../entry.js";
import { toleranceFrom, toleranceParameter } from "../reading/tolerance.js";

/** Columns of the result; users count on their order. */
const CHOICE_COLUMNS = [
  "ratio",
  "lowestOutput",
  "highestOutput",
  "lowerMargin",
  "upperMargin",
] as const;

const ratioChoicesEntry = defineEntry({
  id: "RATIO_CHOICES",
  family: "ratio",
  parameters: {
    inputLowest: fills(ratioWindowsGivens.inputLowest, {
      name: "input lowest V",
      meaning: "at the stage: the supply's lowest less the drop at full load",
      kind: "number",
    }),
    inputHighest: fills(ratioWindowsGivens.inputHighest, {
      name: "input highest V",
      meaning: "at the stage: the supply's highest, without drop",
      kind: "number",
    }),
    loadLowest: fills(ratioWindowsGivens.loadLowest, {
      name: "load lowest",
      meaning: "lowest voltage that the load allows",
      kind: "number",
    }),
    loadHighest: fills(ratioWindowsGivens.loadHighest, {
      name: "load highest",
      meaning: "highest voltage that the load allows",
      kind: "number",
    }),
    tolerance: toleranceParameter,
    outputCurrent: fills(ratioWindowsGivens.outputCurrent, {
      name: "output current",
      meaning: "at full load, for the droop; none unless told otherwise",
      kind: "number",
      optional: true,
    }),
    outputResistance: fills(ratioWindowsGivens.outputResistance, {
      name: "output resistance",
      meaning: "of the stage when hot, its greatest; none unless told otherwise",
      kind: "number",
      optional: true,
    }),
  },
  result: {
    shape: "table",
    unit: "ratio, V, V, fraction, fraction",
  },
  example: {
    args: [504, 706, 33, 60, 0.01],
  },
  citations: ["ratio-circuit"],
  form: "depends on inputs",
  read: ({ tolerance, ...values }) => ({
    ...values,
    tolerance: toleranceFrom(tolerance),
    outputCurrent: values.outputCurrent ?? 0,
    outputResistance: values.outputResistance ?? 0,
  }),
  calculate: ratioChoices,
  cells: ({ choices }) => choices.map((choice) => CHOICE_COLUMNS.map((field) => choice[field])),
  cellOf: (_, row, column) => {
    const step = CHOICE_COLUMNS[column];
    return step && { working: row, step };
  },
  caveats: ({ caveats }) => caveats,
  working: (windows, { choices }) =>
    choices.map((choice) => ({
      title: `Ratio ${choice.name}`,
      givens: ratioWindowsGivens,
      steps: ratioChoiceSteps(choice),
      values: { ...windows, ...choice },
    })),
});

const ratioReflectedEntry = defineEntry({
  id: "RATIO_REFLECTED",
  family: "ratio",
  parameters: {
    value: fills(reflectionGivens.value, {
      name: "value",
      meaning: "at the input: Ω, H, F, V or A",
      kind: "number",
    }),
    ratio: fills(reflectionGivens.ratio, {
      name: "ratio",
      meaning: "output ÷ input voltage: 1/8 steps down",
      kind: "number",
    }),
    quantity: {
      name: "quantity",
      unit: "",
      meaning: "what the value is",
      kind: "choice",
      choices: REFLECTED_QUANTITIES,
    },
  },
  result: {
    shape: "number",
    unit: "as given",
  },
  example: {
    args: [3.2, 1 / 8, "resistance"],
  },
  citations: ["ratio-circuit"],
  read: (values) => ({
    ...values,
    quantity: values.quantity as ReflectedQuantity,
  }),
  calculate: ratioReflected,
  shows: "reflected",
  caveats: () => [],
  working: (reflection, record) => [
    {
      title: "Seen from the output",
      givens: reflectionGivens,
      steps: reflectedSteps(reflection),
      values: { ...reflection, ...record },
    },
  ],
});

export const ratioChoiceEntries = [ratioChoicesEntry, ratioReflectedEntry];
