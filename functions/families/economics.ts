import {
  energyLoss,
  energyLossGivens,
  energyLossSteps,
  energyLossValues,
} from "../../src/economics/energy-loss.js";
import {
  presentCost,
  presentCostGivens,
  presentCostSteps,
} from "../../src/economics/present-cost.js";
import { defineEntry, fills } from "../entry.js";
import { presentWorthParameters } from "../reading/present-worth.js";

const energyLossEntry = defineEntry({
  id: "ENERGY_LOSS",
  family: "economics",
  parameters: {
    losses: {
      name: "losses",
      unit: "W",
      meaning: "losses of the profile, one after the other",
      kind: "numbers",
      each: "loss",
      paired: true,
    },
    hours: {
      name: "hours",
      unit: "h",
      meaning: "hours that each of the losses lasts",
      kind: "numbers",
      each: "hours",
      paired: true,
    },
  },
  result: { shape: "number", unit: "kWh" },
  example: {
    args: [[[120, 45, 10]], [[6, 10, 8]]],
  },
  citations: ["kelvin-annual-cost"],
  read: (values) => values,
  calculate: energyLoss,
  shows: "energy",
  caveats: ({ caveats }) => caveats,
  working: (profile, record) => [
    {
      title: "Energy lost over the profile",
      givens: energyLossGivens(profile),
      steps: energyLossSteps(profile),
      values: energyLossValues(profile, record),
    },
  ],
});

const presentCostEntry = defineEntry({
  id: "PRESENT_COST",
  family: "economics",
  parameters: {
    energyPerYear: fills(presentCostGivens.energyPerYear, {
      name: "kWh a year",
      meaning: "energy of one year",
      kind: "number",
    }),
    price: fills(presentCostGivens.price, {
      name: "price per kWh",
      meaning: "in the first year",
      kind: "number",
    }),
    ...presentWorthParameters,
  },
  result: { shape: "number", unit: "money" },
  example: {
    args: [1000, 0.25, 2, 0.1],
  },
  citations: ["present-worth"],
  read: (values) => ({ ...values, priceRise: values.priceRise ?? 0 }),
  calculate: presentCost,
  shows: "presentCost",
  caveats: ({ caveats }) => caveats,
  working: (energy, cost) => [
    {
      title: "Present cost of the energy",
      givens: presentCostGivens,
      steps: presentCostSteps,
      values: { ...energy, ...cost },
    },
  ],
});

export const economicsEntries = [energyLossEntry, presentCostEntry];
