/** How the voltages and margins of an item's bands come about. */
import { ROW_KINDS } from "../network/row-kinds.js";
import { frozenIn, type GivenSources } from "../quantities/given-sources.js";
import type { Quantities, Step, Steps } from "../quantities/steps.js";
import type { Circuit } from "./circuits.js";
import type { ItemBand, ItemBands } from "./feed-bands.js";
import { ripplePeakCite } from "./judgement-caveats.js";
import { checkGivens, checkSteps } from "./limit-check-steps.js";

export interface BandsWorking extends GivenSources {
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

/** Workings of every item's voltages, then of each voltage against the band that may be touched. */
export function bandsWorkings(items: readonly ItemBands[]): BandsWorking[] {
  const places = workingPlaces(items);
  return items.flatMap((bands, row): BandsWorking[] => {
    const { item, circuit, normal, inService, inFault } = bands;
    if (!circuit || normal.outcome !== "determined") return [];
    const { voltages } = places[row]!;
    return [
      { ...voltagesWorking(bands, circuit, normal.voltage), ...sourcesOf(bands, circuit, items) },
      ...(inService.outcome === "determined"
        ? [marginWorking(`${item}, margin in service`, inService, voltages, "inService")]
        : []),
      ...(inFault.outcome === "determined"
        ? [marginWorking(`${item}, margin after one fault`, inFault, voltages, "afterFault")]
        : []),
    ];
  });
}

/** Places of an item's workings among those of all; undefined where it has none. */
export interface WorkingPlaces {
  readonly voltages: number;
  readonly inService: number | undefined;
  readonly afterFault: number | undefined;
}

export function workingPlaces(items: readonly ItemBands[]): readonly (WorkingPlaces | undefined)[] {
  let next = 0;
  const place = (isThere: boolean) => (isThere ? next++ : undefined);
  return items.map(({ circuit, normal, inService, inFault }) => {
    const voltages = place(circuit !== undefined && normal.outcome === "determined");
    if (voltages === undefined) return undefined;
    return {
      voltages,
      inService: place(inService.outcome === "determined"),
      afterFault: place(inFault.outcome === "determined"),
    };
  });
}

/** The step or given of a margin's working that is the limit as printed. */
export function printedLimit({ check }: ItemBand): "limit" | "dcLimit" {
  return check.rule === "plain" ? "limit" : "dcLimit";
}

/** Where the voltages of an item come from: the row of the table that its circuit begins with, and the rows above it. */
function sourcesOf(
  { afterFault }: ItemBands,
  circuit: Circuit,
  items: readonly ItemBands[],
): GivenSources {
  const places = workingPlaces(items);
  const found = (name: string | undefined) => {
    const row = items.findIndex(({ item }) => item === name);
    const working = places[row]?.voltages;
    return working === undefined ? undefined : { working, step: "inService" };
  };
  const own = circuit.item.item;
  const fault = afterFault.outcome === "determined" ? afterFault.fault : undefined;
  const failed = items.find(({ item }) => item === fault?.item)?.circuit;
  const links = {
    inputVoltage: found(circuit.input?.item.item),
    faultInput: found(failed?.input?.item.item),
    faultOutput: found(fault?.item),
  };
  return {
    found: Object.fromEntries(
      Object.entries(links).flatMap(([field, link]) => (link ? [[field, link] as const] : [])),
    ),
    inTable: {
      supplyHighest: { item: own, figure: "highestVoltage" },
      ratio: { item: own, figure: "ratio" },
      tolerance: { item: own, figure: "tolerance" },
      setPoint: { item: own, figure: "voltage" },
      ...(fault && { faultTrip: { item: fault.item, figure: "tripVoltage" } }),
    },
    frozen: {
      supplyHighest: "the supply's window, with its tolerance",
      gain: "the stages between",
    },
  };
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
function marginWorking(
  title: string,
  found: ItemBand,
  working: number,
  step: "inService" | "afterFault",
): BandsWorking {
  const { touch, check, margin, judgement } = found;
  const { framework, condition, rippleRms } = touch;
  const { voltage, ...ripple } = checkGivens;
  const peakCite = ripplePeakCite(framework, check, condition);
  const steps = Object.entries(checkSteps(check, judgement.band.cite, true, peakCite));
  const printed = ([, { kind }]: (typeof steps)[number]) => kind === "lookup";
  const limits = steps
    .filter(printed)
    .map(([name, { label, symbol, unit }]) => [name, { label, symbol, unit }] as const);
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
        formula: `margin / ${printedLimit(found)}`,
        cite: judgement.band.cite,
      },
    },
    values: { ...touch, ...check, marginPart: margin },
    found: { voltage: { working, step } },
    frozen: {
      ...frozenIn(Object.keys(ripple), "ripple of its circuit"),
      ...frozenIn(
        limits.map(([name]) => name),
        `as ${framework} prints it`,
      ),
    },
  };
}
