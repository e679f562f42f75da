/** What the checks of a cable from its supply assume: how warm it gets, its fuse, faults, what stays charged, stability. */
import { call } from "../plans/sheet-builder.js";
import { DISCONNECTED_CIRCUITS } from "../protection/disconnection-times.js";
import {
  COMMON_KEYS,
  type InputBlock,
  type InputLine,
} from "./budget-scenario.js";
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
  /** Current and time of one point of its curve. */
  readonly blowingAmperes: number;
  readonly blowingSeconds: number;
  readonly clearingSeconds: number;
  readonly breakingAmperes: number;
  readonly leastSupplyResistance: number;
  readonly leastResistanceBasis: string;
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
        "Current that blows it within the time below",
        [fuse.blowingAmperes],
        "A",
        "0",
        CURVE,
      ),
      amount(
        "fuseBlowsWithin",
        "Time in which that current blows it",
        [fuse.blowingSeconds],
        "s",
        "0.000",
        `${CURVE}: enter both anew for another time`,
      ),
      ...disconnectionLines(),
      amount(
        "fuseClears",
        "Time in which it clears a fault at its own terminals",
        [fuse.clearingSeconds],
        "s",
        "0.000",
        `${CURVE}, at the greatest fault current`,
      ),
      amount(
        "fuseBreaks",
        "Breaking capacity of the fuse, at that dc voltage",
        [fuse.breakingAmperes],
        "A",
        "0",
      ),
      amount(
        "supplyLeast",
        "Internal resistance of the supply, at its least",
        [fuse.leastSupplyResistance],
        "Ω",
        "0.000",
        fuse.leastResistanceBasis,
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

const CURVE = "assumed; from the curve of the fuse";

/** The kind of circuit, a time that is typed instead, and the time that comes of them. */
function disconnectionLines(): InputLine[] {
  return [
    {
      ...word(
        "disconnectionBy",
        "Disconnection by IEC 60364-4-41, kind of circuit",
        ["TN distribution"],
        oneOf(DISCONNECTED_CIRCUITS),
        "choose; distribution, because the stage behind it feeds circuits of its own; a cable to one piece of equipment is final, for less time",
      ),
      citation: TABLE_OF_TIMES,
    },
    amountOrNone(
      "disconnectionTyped",
      "Disconnection time instead",
      [""],
      "s",
      "0.0",
      "may stay empty; counts where it is typed, and has to be up to 120 V",
    ),
    {
      key: "disconnection",
      label: "Disconnection time asked for",
      values: [""],
      follows: ({ given }) =>
        `IF(N(${given("disconnectionTyped")})>0,${given("disconnectionTyped")},${call("DISCONNECTION_TIME", given(COMMON_KEYS.supplyVoltage, 2), given("disconnectionBy"))})`,
      unit: "s",
      basis:
        "IEC 60364-4-41 (from memory) at the highest supply voltage, or the time typed instead",
      format: "0.0",
      citation: TABLE_OF_TIMES,
    },
  ];
}

const TABLE_OF_TIMES = "iec-60364-4-41-table-41-1";

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
        "assumed; the least that it may be, which damps least",
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
          [0.25],
          "J",
          "0.00",
          "NFPA 70E article 360 (from memory): shock above 0.25 J at 400 V or more, above 1 J at 100 V or more; the help of SAFETY_STORED_ENERGY has others",
        ),
        citation: "nfpa-70e-360",
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
