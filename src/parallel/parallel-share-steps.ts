/** The working of a share. Its givens and steps are numbered by unit, `setVoltage1` on, so they are built for each answer. */
import { numbered, placesOf } from "../quantities/numbered.js";
import type { Quantities, Quantity, Steps } from "../quantities/steps.js";
import type { LoadKind } from "./bus-voltage.js";
import type { ParallelShare, ParallelUnits } from "./parallel-share.js";

const LOAD: Readonly<Record<LoadKind, Quantity>> = {
  current: { label: "Load", symbol: "IL", unit: "A" },
  power: { label: "Load", symbol: "PL", unit: "W" },
  resistance: { label: "Load", symbol: "RL", unit: "Ω" },
};

const LOAD_CURRENT: Readonly<Record<LoadKind, string>> = {
  current: "load",
  power: "load / busVoltage",
  resistance: "busVoltage / load",
};

export function parallelShareGivens({ setVoltages, loadKind }: ParallelUnits): Quantities {
  const ofUnit = (unit: number): [string, Quantity][] => [
    [
      `setVoltage${unit}`,
      {
        label: `Set voltage of unit ${unit}`,
        symbol: `V${subscript(unit)}`,
        unit: "V",
      },
    ],
    [
      `resistance${unit}`,
      {
        label: `Resistance of unit ${unit}`,
        symbol: `R${subscript(unit)}`,
        unit: "Ω",
      },
    ],
  ];
  return {
    ...Object.fromEntries(placesOf(setVoltages).flatMap(ofUnit)),
    load: LOAD[loadKind],
  };
}

export function parallelShareSteps(parallel: ParallelUnits): Steps {
  const units = placesOf(parallel.setVoltages);
  const loadCurrent = LOAD_CURRENT[parallel.loadKind];
  return {
    busVoltage: {
      label: "Bus voltage",
      symbol: "V",
      unit: "V",
      kind: "solved",
      residual: `${units.map((unit) => currentFormula(unit, parallel)).join(" + ")} - ${loadCurrent}`,
      cite: parallel.loadKind === "power" ? "two-roots" : "parallel-generators",
    },
    ...Object.fromEntries(
      units.map((unit) => [
        `current${unit}`,
        {
          label: `Current of unit ${unit}`,
          symbol: `I${subscript(unit)}`,
          unit: "A",
          kind: "formula",
          formula: currentFormula(unit, parallel),
          cite: "parallel-generators",
        },
      ]),
    ),
    totalCurrent: {
      label: "Sum of the currents",
      symbol: "ΣI",
      unit: "A",
      kind: "formula",
      formula: units.map((unit) => `current${unit}`).join(" + "),
      cite: "definition",
    },
    loadCurrent: {
      label: "Current of the load",
      symbol: "I",
      unit: "A",
      kind: "formula",
      formula: loadCurrent,
      cite: "ohm-joule",
    },
    residual: {
      label: "Sum of the currents less the load's",
      symbol: "δI",
      unit: "A",
      kind: "formula",
      formula: "totalCurrent - loadCurrent",
      cite: "definition",
    },
    ...(parallel.load > 0 ? shareSteps(units) : {}),
  };
}

function shareSteps(units: readonly number[]): Steps {
  return Object.fromEntries(
    units.map((unit) => [
      `share${unit}`,
      {
        label: `Share of unit ${unit}`,
        symbol: `s${subscript(unit)}`,
        unit: "1",
        kind: "formula",
        formula: `current${unit} / totalCurrent`,
        cite: "definition",
      },
    ]),
  );
}

/** Every given and every result by the names that givens and steps use. */
export function parallelShareValues(
  { setVoltages, resistances, load }: ParallelUnits,
  { busVoltage, units, totalCurrent, loadCurrent, residual }: ParallelShare,
): Readonly<Record<string, number>> {
  return {
    ...numbered("setVoltage", setVoltages),
    ...numbered("resistance", resistances),
    load,
    busVoltage,
    ...numbered(
      "current",
      units.map(({ current }) => current),
    ),
    totalCurrent,
    loadCurrent,
    residual,
    ...numbered(
      "share",
      units.map(({ share }) => share),
    ),
  };
}

function currentFormula(unit: number, { reverseFlow }: ParallelUnits): string {
  const flow = `(setVoltage${unit} - busVoltage) / resistance${unit}`;
  return reverseFlow === "blocked" ? `max(0, ${flow})` : flow;
}

function subscript(unit: number): string {
  return String(unit).replace(/\d/g, (digit) => String.fromCharCode(0x2080 + Number(digit)));
}
