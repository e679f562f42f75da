/** How the voltages and margins of an item's bands come about. */
import { ROW_KINDS } from "../network/row-kinds.js";
import type { Quantities, Step, Steps } from "../quantities/steps.js";
import type { Circuit } from "./circuits.js";
import type { ItemBand, ItemBands } from "./feed-bands.js";
import { ripplePeakCite } from "./judgement-caveats.js";
import { checkGivens, checkSteps } from "./limit-check-steps.js";

export interface BandsWorking {
  readonly title: string;
  readonly givens: Quantities;
  readonly steps: Steps;
  readonly values: Readonly<Record<string, unknown>>;
}

const GIVENS = {
  supplyHighest: { label: "Supply, highest", symbol: "Us", unit: "V" },
  inputVoltage: { label: "Input, highest in service", symbol: "U₁", unit: "V" },
  ratio: { label: "Ratio, output ÷ input", symbol: "r", unit: "1" },
  setPoint: { label: "Set point", symbol: "U₀", unit: "V" },
  tolerance: { label: "Tolerance", symbol: "t", unit: "1" },
  faultInput: {
    label: "Failed stage, its input in service",
    symbol: "Ufi",
    unit: "V",
  },
  faultOutput: {
    label: "Failed stage, its output in service",
    symbol: "Ufo",
    unit: "V",
  },
  faultTrip: {
    label: "Failed stage, where its output is stopped",
    symbol: "Uft",
    unit: "V",
  },
  gain: {
    label: "Ratios of the stages that work on, at the top of their tolerance",
    symbol: "g",
    unit: "1",
  },
} as const satisfies Quantities;

type Given = keyof typeof GIVENS;

/** Its voltages, then each of them against the band that may be touched. */
export function itemBandsWorking(bands: ItemBands): BandsWorking[] {
  const { item, circuit, normal, inService, inFault } = bands;
  if (!circuit || normal.outcome !== "determined") return [];
  return [
    voltagesWorking(bands, circuit, normal.voltage),
    ...(inService.outcome === "determined"
      ? [marginWorking(`${item}, margin in service`, inService)]
      : []),
    ...(inFault.outcome === "determined"
      ? [marginWorking(`${item}, margin after one fault`, inFault)]
      : []),
  ];
}

function voltagesWorking(
  { item, afterFault }: ItemBands,
  circuit: Circuit,
  inService: number,
): BandsWorking {
  const service = serviceWorking(circuit);
  const values: Record<string, unknown> = { ...service.values, inService };
  const steps: Record<string, Step> = {
    inService: volts("Highest in service", "Un", service.formula),
  };
  if (afterFault.outcome === "determined") {
    const { voltage, fault } = afterFault;
    values["afterFault"] = voltage;
    const { inputVoltage, outputVoltage, tripVoltage, gain } = fault ?? {};
    const put = Object.entries({
      faultInput: inputVoltage,
      faultOutput: outputVoltage,
      faultTrip: tripVoltage,
    }).filter(([, value]) => value !== undefined);
    Object.assign(values, Object.fromEntries(put));
    if (fault) {
      values["gain"] = gain;
      values["lifted"] = Math.max(...put.map(([, value]) => value!));
      const names = put.map(([name]) => name);
      steps["lifted"] = volts(
        `What the fault of "${fault.item}" puts there`,
        "Uf",
        names.length === 1 ? names[0]! : `max(${names.join(", ")})`,
      );
    }
    steps["afterFault"] = volts(
      "Highest after one fault",
      "Ua",
      fault ? "lifted * gain" : "inService",
    );
  }
  const given = (Object.keys(GIVENS) as Given[]).filter((name) => values[name] !== undefined);
  const givens = Object.fromEntries(given.map((name) => [name, GIVENS[name]]));
  return { title: item, givens, steps, values };
}

function serviceWorking({ item, input, normal }: Circuit): {
  readonly formula: string;
  readonly values: Partial<Record<Given, number | undefined>>;
} {
  const { ratio, tolerance, voltage } = item;
  const fed = input?.normal.outcome === "determined" && input.normal.voltage;
  if (!input)
    return {
      formula: "supplyHighest",
      values: {
        supplyHighest: normal.outcome === "determined" ? normal.voltage : undefined,
      },
    };
  return ROW_KINDS[item.kind].inFault === "follows"
    ? {
        formula: "inputVoltage * ratio * (1 + tolerance)",
        values: { inputVoltage: fed || undefined, ratio, tolerance },
      }
    : {
        formula: "setPoint * (1 + tolerance)",
        values: { setPoint: voltage, tolerance },
      };
}

function volts(label: string, symbol: string, formula: string): Step {
  const cite = "touch-voltage-faults";
  return { label, symbol, unit: "V", kind: "formula", formula, cite };
}

/** Limits stand among the givens: what is asked for stands in a range, by which no printed table can be looked up. */
function marginWorking(title: string, found: ItemBand): BandsWorking {
  const { touch, check, margin, judgement } = found;
  const { framework, condition, rippleRms } = touch;
  const { voltage, ...ripple } = checkGivens;
  const peakCite = ripplePeakCite(framework, check, condition);
  const steps = Object.entries(checkSteps(check, judgement.band.cite, true, peakCite));
  const printed = ([, { kind }]: (typeof steps)[number]) => kind === "lookup";
  const limits = steps
    .filter(printed)
    .map(([name, { label, symbol, unit }]) => [name, { label, symbol, unit }]);
  return {
    title,
    givens: {
      voltage: voltage!,
      ...(rippleRms !== undefined && ripple),
      ...(Object.fromEntries(limits) as Quantities),
    },
    steps: {
      ...Object.fromEntries(steps.filter((step) => !printed(step))),
      marginPart: {
        label: "Margin, part of the limit",
        symbol: "m′",
        unit: "1",
        kind: "formula",
        formula: check.rule === "plain" ? "margin / limit" : "margin / dcLimit",
        cite: judgement.band.cite,
      },
    },
    values: { ...touch, ...check, marginPart: margin },
  };
}
