/** Short ways to write the lines of a scenario. */
import { FRAMEWORKS } from "../safety/touch-bands.js";
import { ISOLATIONS } from "../network/feed-item.js";
import {
  type Allowed,
  COMMON_KEYS,
  type InputBlock,
  type InputLine,
} from "./budget-scenario.js";

/** "" stands empty, to be entered. */
export type Figure = number | "";

/** Invented, or chosen without a work to point to. */
export const ASSUMED = "assumed";

export function numberFrom(least: number, most: number): Allowed {
  return { kind: "number", least, most };
}

export function wholeFrom(least: number, most: number): Allowed {
  return { kind: "whole", least, most };
}

export function oneOf(values: readonly string[]): Allowed {
  return { kind: "list", values };
}

/** What a cell takes, for the message that is shown when it does not. */
export function allowedInWords(allowed: Allowed, unit = ""): string {
  if (allowed.kind === "list") return `one of ${allowed.values.join(", ")}`;
  const number = allowed.kind === "whole" ? "a whole number" : "a number";
  return `${number} from ${allowed.least} to ${allowed.most} ${unit}`.trim();
}

export const anyIsolation = oneOf(ISOLATIONS);
const anyBuild = oneOf(["class 1", "class 2", "class 5", "class 5 tinned"]);

const MORE_THAN_NOTHING = 1e-6;

/** Above 0: volts, ohms, amperes, metres. */
export function amount(
  key: string,
  label: string,
  values: readonly Figure[],
  unit: string,
  format: string,
  basis = ASSUMED,
): InputLine {
  const allowed = numberFrom(MORE_THAN_NOTHING, 1e6);
  return { key, label, values, unit, basis, format, allowed };
}

/** 0 is allowed. */
export function amountOrNone(
  key: string,
  label: string,
  values: readonly Figure[],
  unit: string,
  format: string,
  basis = ASSUMED,
): InputLine {
  const allowed = numberFrom(0, 1e6);
  return { key, label, values, unit, basis, format, allowed };
}

/** In the currency of Inputs, which its unit names. */
export function price(
  key: string,
  label: string,
  values: readonly Figure[],
  unit: string,
  format: string,
  basis = ASSUMED,
): InputLine {
  return {
    ...amountOrNone(key, label, values, unit, format, basis),
    priced: true,
  };
}

/** Shown as per cent. */
export function share(
  key: string,
  label: string,
  values: readonly Figure[],
  allowed: Allowed,
  basis = ASSUMED,
): InputLine {
  return { key, label, values, unit: "", basis, format: "0.0%", allowed };
}

export function word(
  key: string,
  label: string,
  values: readonly string[],
  allowed: Allowed | undefined,
  basis = ASSUMED,
): InputLine {
  const line = { key, label, values, unit: "", basis };
  return allowed === undefined ? line : { ...line, allowed };
}

export function conductorSize(
  key: string,
  size: string,
  label = "Size of each conductor",
): InputLine {
  return word(
    key,
    label,
    [size],
    undefined,
    "any AWG, kcmil or mm² size; a number is bare metal area in mm²",
  );
}

export function conductorBuild(
  key: string,
  build: string,
  label = "Build",
): InputLine {
  const basis = "IEC 60228, greatest resistance of the class at 20 °C";
  return {
    ...word(key, label, [build], anyBuild, basis),
    citation: "iec-60228",
  };
}

export function conductorTemperature(
  key: string,
  hottestC: number,
  basis: string,
  label = "Conductor temperature, hottest",
): InputLine {
  return {
    key,
    label,
    values: [hottestC],
    unit: "°C",
    basis,
    format: "0",
    allowed: numberFrom(-60, 250),
  };
}

/** Where the cable has its least resistance, which damps least. */
export function coldestConductor(coldestC: number, basis: string): InputLine {
  return conductorTemperature(
    "cableColdest",
    coldestC,
    basis,
    "Conductor temperature, coldest",
  );
}

/** Two lines, `keyRms` and `keyPeak`: of a supply or of what stages give, a value for each. */
export function rippleLines(
  key: string,
  of: string,
  rms: readonly Figure[],
  peak: readonly Figure[],
  basis = `${ASSUMED}, at full load`,
): InputLine[] {
  const said = `${basis}; empty or 0: no ripple counted`;
  return [
    amountOrNone(`${key}Rms`, `Ripple of ${of}, rms`, rms, "V", "0.00", said),
    amountOrNone(
      `${key}Peak`,
      `Ripple of ${of}, peak`,
      peak,
      "V",
      "0.00",
      `${said}; without a peak √3 × rms is taken`,
    ),
  ];
}

/** Why a stage has a lowest and a highest input. */
export const STAGE_WINDOW = "assumed; what the stage accepts at its input";

/** What is solved; every budget has it. */
export const SOLVED_CASE: InputBlock = {
  title: "What is solved",
  columns: ["Choice"],
  lines: [
    word(
      COMMON_KEYS.loads,
      "Loads",
      ["nominal"],
      oneOf(["light", "nominal", "peak"]),
      "choose; the light, nominal or peak load of every item",
    ),
    word(
      COMMON_KEYS.supply,
      "Supply voltage",
      ["nominal"],
      oneOf(["lowest", "nominal", "highest"]),
      "choose; the lowest, nominal or highest that the supply may be",
    ),
  ],
};

/** How many of each row with several in parallel are taken away in turn in the worst case. */
export function unitsLost(lost: 0 | 1, basis = "choose 0 or 1"): InputLine {
  return {
    key: COMMON_KEYS.unitsLost,
    label: "Units lost of those in parallel, in the worst case",
    values: [lost],
    unit: "",
    basis,
    format: "0",
    allowed: wholeFrom(0, 1),
  };
}

export interface Requirements {
  readonly framework: (typeof FRAMEWORKS)[number] | "";
  readonly condition: "dry" | "wet";
  readonly conditionBasis: string;
  readonly margin: Figure;
  readonly dropLimit: Figure;
  /** Of anything with a rating; 1 where it is not said. */
  readonly loadingLimit?: Figure;
  readonly altitude: Figure;
  readonly altitudeBasis?: string;
  readonly currency: string;
  readonly currencyBasis?: string;
  readonly unitsLost?: 0 | 1;
}

/** What is asked of a budget; every budget has it. */
export function requirements(asked: Requirements): InputBlock {
  return {
    title: "What is asked for",
    columns: ["Value"],
    lines: [
      {
        ...word(
          COMMON_KEYS.framework,
          "Framework of the voltage bands",
          [asked.framework],
          oneOf(FRAMEWORKS),
          "choose; the one that governs the equipment, see Notes",
        ),
        citation: "iec-60364-4-41",
      },
      word(
        COMMON_KEYS.condition,
        "Place where people can touch",
        [asked.condition],
        oneOf(["dry", "wet"]),
        asked.conditionBasis,
      ),
      share(
        COMMON_KEYS.margin,
        "Margin for growth and ageing, on each load",
        [asked.margin],
        numberFrom(0, 2),
        "required",
      ),
      share(
        COMMON_KEYS.dropLimit,
        "Largest drop of a run",
        [asked.dropLimit],
        numberFrom(0.001, 0.5),
        "required",
      ),
      share(
        COMMON_KEYS.loadingLimit,
        "Largest loading of anything with a rating",
        [asked.loadingLimit ?? 1],
        numberFrom(0.1, 1),
        "required; continuous ratings",
      ),
      amountOrNone(
        COMMON_KEYS.altitude,
        "Altitude of the highest equipment",
        [asked.altitude],
        "m",
        "0",
        asked.altitudeBasis,
      ),
      {
        ...amountOrNone(
          COMMON_KEYS.altitudeLimit,
          "Clearances hold as printed up to",
          [2000],
          "m",
          "0",
          "IEC 60664-1 (from memory)",
        ),
        citation: "iec-60664-1-altitude",
      },
      word(
        COMMON_KEYS.currency,
        "Currency of prices",
        [asked.currency],
        undefined,
        asked.currencyBasis,
      ),
      ...(asked.unitsLost === undefined ? [] : [unitsLost(asked.unitsLost)]),
    ],
  };
}
