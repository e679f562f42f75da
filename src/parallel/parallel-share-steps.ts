/** The working of a share. Its givens and steps are numbered by unit, `setVoltage1` on, so they are built for each answer. */
import { numbered, placesOf } from "../quantities/numbered.js";
import type { Quantities, Quantity, Steps } from "../quantities/steps.js";
import type { LoadKind } from "./bus-voltage.js";
import type { ParallelShare, ParallelConverters } from "./parallel-share.js";

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

export function parallelShareGivens({ setVoltages, loadKind }: ParallelConverters): Quantities {
  const ofConverter = (converter: number): [string, Quantity][] => [
    [
      `setVoltage${converter}`,
      {
        label: `Set voltage of unit ${converter}`,
        symbol: `V${subscript(converter)}`,
        unit: "V",
      },
    ],
    [
      `resistance${converter}`,
      {
        label: `Resistance of unit ${converter}`,
        symbol: `R${subscript(converter)}`,
        unit: "Ω",
      },
    ],
  ];
  return {
    ...Object.fromEntries(placesOf(setVoltages).flatMap(ofConverter)),
    load: LOAD[loadKind],
  };
}

export function parallelShareSteps(parallel: ParallelConverters): Steps {
  const converters = placesOf(parallel.setVoltages);
  const loadCurrent = LOAD_CURRENT[parallel.loadKind];
  return {
    busVoltage: {
      label: "Bus voltage",
      symbol: "V",
      unit: "V",
      kind: "solved",
      residual: `${converters.map((converter) => currentFormula(converter, parallel)).join(" + ")} - ${loadCurrent}`,
      cite: parallel.loadKind === "power" ? "two-roots" : "parallel-generators",
    },
    ...Object.fromEntries(
      converters.map((converter) => [
        `current${converter}`,
        {
          label: `Current of unit ${converter}`,
          symbol: `I${subscript(converter)}`,
          unit: "A",
          kind: "formula",
          formula: currentFormula(converter, parallel),
          cite: "parallel-generators",
        },
      ]),
    ),
    totalCurrent: {
      label: "Sum of the currents",
      symbol: "ΣI",
      unit: "A",
      kind: "formula",
      formula: converters.map((converter) => `current${converter}`).join(" + "),
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
    ...(parallel.load > 0 ? shareSteps(converters) : {}),
  };
}

function shareSteps(converters: readonly number[]): Steps {
  return Object.fromEntries(
    converters.map((converter) => [
      `share${converter}`,
      {
        label: `Share of unit ${converter}`,
        symbol: `s${subscript(converter)}`,
        unit: "1",
        kind: "formula",
        formula: `current${converter} / totalCurrent`,
        cite: "definition",
      },
    ]),
  );
}

/** Every given and every result by the names that givens and steps use. */
export function parallelShareValues(
  { setVoltages, resistances, load }: ParallelConverters,
  { busVoltage, converters, totalCurrent, loadCurrent, residual }: ParallelShare,
): Readonly<Record<string, number>> {
  return {
    ...numbered("setVoltage", setVoltages),
    ...numbered("resistance", resistances),
    load,
    busVoltage,
    ...numbered(
      "current",
      converters.map(({ current }) => current),
    ),
    totalCurrent,
    loadCurrent,
    residual,
    ...numbered(
      "share",
      converters.map(({ share }) => share),
    ),
  };
}

function currentFormula(converter: number, { reverseFlow }: ParallelConverters): string {
  const flow = `(setVoltage${converter} - busVoltage) / resistance${converter}`;
  return reverseFlow === "blocked" ? `max(0, ${flow})` : flow;
}

function subscript(converter: number): string {
  return String(converter).replace(/\d/g, (digit) => String.fromCharCode(0x2080 + Number(digit)));
}
