/** What the checks of a cable from its supply assume: how warm it gets, its fuse, faults, what stays charged, stability. */
import type { InputBlock } from "./budget-scenario.js";
import {
  amount,
  amountOrNone,
  numberFrom,
  oneOf,
  share,
  wholeFrom,
  word,
} from "./input-lines.js";

export interface CableSurroundings {
  readonly ambientC: number;
  readonly ambientBasis: string;
  readonly outerDiameterMm: number;
  readonly insulation: "PVC" | "XLPE";
  readonly insulationLimitC: number;
  readonly grouping: number;
  readonly groupingBasis: string;
}

/** Of the cable from the supply. */
export function cableSurroundings(cable: CableSurroundings): InputBlock {
  return {
    title: "How warm that cable gets",
    columns: ["Value"],
    lines: [
      {
        key: "cableAmbient",
        label: "Air around it, hottest",
        values: [cable.ambientC],
        unit: "°C",
        basis: cable.ambientBasis,
        format: "0",
        allowed: numberFrom(-60, 100),
      },
      amount(
        "cableOuter",
        "Diameter over its sheath",
        [cable.outerDiameterMm],
        "mm",
        "0.0",
      ),
      wholeLine("cableLoaded", "Loaded cores inside the sheath", 2),
      word(
        "cableInsulation",
        "Insulation",
        [cable.insulation],
        oneOf(["none", "PVC", "XLPE", "PTFE", "silicone"]),
      ),
      {
        ...amount(
          "cableLimit",
          "Its insulation lasts up to",
          [cable.insulationLimitC],
          "°C",
          "0",
          "conductors in service: PVC 70 °C, XLPE 90 °C",
        ),
        citation: "insulation-limits",
      },
      share(
        "cableGrouping",
        "Part of its current that grouping leaves",
        [cable.grouping],
        numberFrom(0.05, 1),
        cable.groupingBasis,
      ),
      amountOrNone(
        "cableSun",
        "Sun on it",
        [0],
        "W/m²",
        "0",
        "assumed; covered or indoors",
      ),
    ],
  };
}

export interface FuseAndFaults {
  readonly fuseVolts: number;
  readonly blowingAmperes: number;
  readonly clearingSeconds: number;
  readonly faultEndC: number;
  /** The most that the supply gives; none is counted where it is left out. */
  readonly currentLimit?: number;
}

export function fuseAndFaults(fuse: FuseAndFaults): InputBlock {
  return {
    title: "Fuse and faults",
    columns: ["Value"],
    lines: [
      amount(
        "fuseVolts",
        "Dc voltage that the fuse breaks",
        [fuse.fuseVolts],
        "V",
        "0",
      ),
      amount(
        "fuseFactor",
        "Fuse over load current, at least",
        [1.25],
        "",
        "0.00",
        "common practice, no source",
      ),
      amount(
        "fuseBlows",
        "Current that blows it within 5 s",
        [fuse.blowingAmperes],
        "A",
        "0",
        "assumed; from the curve of the fuse",
      ),
      amount(
        "fuseClears",
        "Time in which it clears a fault at its own terminals",
        [fuse.clearingSeconds],
        "s",
        "0.000",
        "assumed; from the curve of the fuse",
      ),
      ...(fuse.currentLimit === undefined
        ? []
        : [
            amount(
              "supplyLimit",
              "Most that the supply gives into a fault",
              [fuse.currentLimit],
              "A",
              "0",
            ),
          ]),
      {
        ...amount(
          "faultEnd",
          "Conductor temperature at the end of a fault, at most",
          [fuse.faultEndC],
          "°C",
          "0",
          "PVC 160 °C, XLPE 250 °C",
        ),
        citation: "iec-60364-5-54",
      },
    ],
  };
}

export interface ChargeAndStability {
  /** Left out where the scenario has lines `busCapacitance` and `bleedResistance` already. */
  readonly capacitance?: number;
  readonly bleedResistance?: number;
  readonly capacitorResistance: number;
  readonly coreDiameterMm: number;
  readonly spacingMm: number;
}

export function chargeAndStability(of: ChargeAndStability): InputBlock {
  return {
    title: "Charge, discharge and stability",
    columns: ["Value"],
    lines: [
      ...(of.capacitance === undefined
        ? []
        : [
            amount(
              "busCapacitance",
              "Capacitance at the stage's input",
              [of.capacitance],
              "F",
              "0.000000",
            ),
          ]),
      amountOrNone(
        "busCapacitorResistance",
        "Series resistance of that capacitance",
        [of.capacitorResistance],
        "Ω",
        "0.000",
      ),
      ...(of.bleedResistance === undefined
        ? []
        : [
            amount(
              "bleedResistance",
              "Resistor that discharges it",
              [of.bleedResistance],
              "Ω",
              "0",
            ),
          ]),
      {
        ...amount(
          "dischargeTo",
          "Voltage to be discharged to",
          [60],
          "V",
          "0",
          "IEC 60204-1, 6.2.4",
        ),
        citation: "iec-60204-1-discharge",
      },
      {
        ...amount(
          "dischargeWithin",
          "Time to get there, at most",
          [5],
          "s",
          "0.0",
          "IEC 60204-1, 6.2.4",
        ),
        citation: "iec-60204-1-discharge",
      },
      {
        ...amount(
          "energyLimit",
          "Stored energy that counts as hazardous",
          [20],
          "J",
          "0.0",
          "IEC 60950-1, withdrawn; other standards ask for far less, see the help of SAFETY_STORED_ENERGY",
        ),
        citation: "iec-60950-1-energy",
      },
      amount(
        "coreDiameter",
        "Diameter of one conductor",
        [of.coreDiameterMm],
        "mm",
        "0.00",
      ),
      amount(
        "coreSpacing",
        "Between the middles of its conductors",
        [of.spacingMm],
        "mm",
        "0.0",
      ),
      amount(
        "stabilityAsked",
        "Stability margin asked for",
        [2],
        "",
        "0.0",
        "common practice, no source",
      ),
      HEADROOM_ASKED,
    ],
  };
}

export const HEADROOM_ASKED = amount(
  "headroomAsked",
  "Headroom to collapse asked for, times every load",
  [2],
  "",
  "0.0",
  "common practice, no source",
);

function wholeLine(key: string, label: string, value: number) {
  const allowed = wholeFrom(1, 100);
  return {
    key,
    label,
    values: [value],
    unit: "",
    basis: "assumed",
    format: "0",
    allowed,
  };
}
