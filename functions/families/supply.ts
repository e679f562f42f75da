import type { Battery } from "../../src/supplies/battery.js";
import { batteryGivens, batterySteps, batteryVoltage } from "../../src/supplies/battery-voltage.js";
import {
  loadedSupply,
  loadedSupplySteps,
  supplyWithLoadGivens,
} from "../../src/supplies/loaded-supply.js";
import { CHEMISTRIES, type Chemistry } from "../../src/supplies/open-circuit-curves.js";
import {
  rectifiedLineGivens,
  rectifiedPeak,
  rectifiedPeakSteps,
} from "../../src/supplies/rectified-peak.js";
import {
  supplyBehindResistanceGivens,
  supplyLimit,
  supplyLimitSteps,
} from "../../src/supplies/supply-limit.js";
import { defineEntry, fills } from "../entry.js";
import { toleranceFrom, toleranceParameter } from "../reading/tolerance.js";

const openCircuitVoltage = fills(supplyWithLoadGivens.openCircuitVoltage, {
  name: "open-circuit V",
  meaning:
    "voltage of the supply with nothing drawn: its lowest for the lowest voltage and the limit",
  kind: "number",
});

const resistance = fills(supplyWithLoadGivens.resistance, {
  name: "resistance",
  meaning:
    "of the supply and all of the loop up to the load: its greatest, hot, for the lowest voltage and the limit",
  kind: "number",
});

const supplyVoltage = defineEntry({
  id: "SUPPLY_VOLTAGE",
  family: "supply",
  parameters: {
    openCircuitVoltage,
    resistance: { ...resistance, zero: "real" },
    load: fills(supplyWithLoadGivens.load, {
      name: "load W",
      meaning:
        "power that the load holds, its greatest for the lowest voltage; 0 is no load, the highest voltage",
      kind: "number",
      zero: "real",
    }),
  },
  result: { shape: "number", unit: "V" },
  example: {
    args: [400, 4, 5000],
  },
  citations: ["two-roots", "maximum-power"],
  read: (values) => values,
  calculate: loadedSupply,
  shows: "voltage",
  caveats: ({ caveats }) => caveats,
  working: (supply, loaded) => [
    {
      title: "Voltage at the load",
      givens: supplyWithLoadGivens,
      steps: loadedSupplySteps,
      values: { ...supply, ...loaded },
    },
  ],
});

const supplyLimitEntry = defineEntry({
  id: "SUPPLY_LIMIT",
  family: "supply",
  parameters: { openCircuitVoltage, resistance },
  result: { shape: "number", unit: "W" },
  example: { args: [400, 4] },
  citations: ["maximum-power"],
  read: (values) => values,
  calculate: supplyLimit,
  shows: "power",
  caveats: ({ caveats }) => caveats,
  working: (supply, limit) => [
    {
      title: "Most power that arrives",
      givens: supplyBehindResistanceGivens,
      steps: supplyLimitSteps,
      values: { ...supply, ...limit },
    },
  ],
});

const supplyBattery = defineEntry({
  id: "SUPPLY_BATTERY",
  family: "supply",
  parameters: {
    cellsInSeries: fills(batteryGivens.cellsInSeries, {
      name: "cells in series",
      meaning: "whole number",
      kind: "number",
    }),
    stateOfCharge: fills(batteryGivens.stateOfCharge, {
      name: "state of charge",
      meaning: "0 (empty) to 1 (full): the least for the lowest voltage, 1 for the highest",
      kind: "number",
      zero: "real",
    }),
    current: fills(batteryGivens.current, {
      name: "current",
      meaning:
        "of the whole battery, discharge positive, its greatest for the lowest voltage; 0 is at rest",
      kind: "number",
      zero: "real",
    }),
    cellResistance: fills(batteryGivens.cellResistance, {
      name: "cell resistance",
      meaning:
        "of one cell, its greatest for the lowest voltage: coldest, at low charge and end of life",
      kind: "number",
    }),
    chemistry: {
      name: "chemistry",
      unit: "",
      meaning: "NMC: NMC 811 with graphite and silicon",
      kind: "choice",
      choices: CHEMISTRIES,
      optional: true,
    },
    strings: fills(batteryGivens.strings, {
      name: "strings in parallel",
      meaning: "whole number; 1 unless told otherwise",
      kind: "number",
      optional: true,
    }),
  },
  result: { shape: "number", unit: "V" },
  example: {
    args: [100, 0.5, 50, 0.002],
  },
  citations: ["chen-2020", "cells-in-series", "ohm-joule"],
  form: "depends on inputs",
  read: (values): Battery => ({
    ...values,
    chemistry: (values.chemistry ?? "NMC") as Chemistry,
    strings: values.strings ?? 1,
  }),
  calculate: batteryVoltage,
  shows: "voltage",
  caveats: ({ caveats }) => caveats,
  working: (battery, record) => [
    {
      title: "Voltage of the battery",
      givens: batteryGivens,
      steps: batterySteps(battery),
      values: { ...battery, ...record },
    },
  ],
});

const supplyRectified = defineEntry({
  id: "SUPPLY_RECTIFIED",
  family: "supply",
  parameters: {
    lineVoltage: fills(rectifiedLineGivens.lineVoltage, {
      name: "line V rms",
      meaning: "nominal, of the line that is rectified, phase to neutral or phase to phase",
      kind: "number",
    }),
    tolerance: {
      ...toleranceParameter,
      meaning: 'fraction of the line voltage, its greatest, or "exact"',
    },
  },
  result: { shape: "number", unit: "V" },
  example: { args: [230, 0.1] },
  citations: ["rectified-peak"],
  read: ({ lineVoltage, tolerance }) => ({
    lineVoltage,
    tolerance: toleranceFrom(tolerance),
  }),
  calculate: rectifiedPeak,
  shows: "peak",
  caveats: ({ caveats }) => caveats,
  working: (line, record) => [
    {
      title: "Peak of the rectified line",
      givens: rectifiedLineGivens,
      steps: rectifiedPeakSteps,
      values: { ...line, ...record },
    },
  ],
});

export const supplyEntries = [supplyVoltage, supplyLimitEntry, supplyBattery, supplyRectified];
