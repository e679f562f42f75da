/** Assumptions and checks that every fed budget has: a warm cable, its fuse, faults, what stays charged, and stability. */
import { call } from "../plans/sheet-builder.js";
import {
  type CheckReach,
  type CheckRow,
  COMMON_KEYS,
  type InputBlock,
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

/** Items of the feed that the checks are about. */
export interface ProtectedFeed {
  readonly supply: string;
  /** In line before the cable; its resistance counts in a fault. */
  readonly fuse: string;
  readonly cable: string;
  /** The first stage behind the cable. */
  readonly stage: string;
  /** Formula of the cables in parallel. */
  readonly cables?: string;
  readonly hasCurrentLimit?: true;
}

export function headroomCheck(
  { given, headroom }: CheckReach,
  item: string,
): CheckRow {
  return {
    check: "Headroom to collapse",
    item,
    found: headroom,
    limit: given("headroomAsked"),
    unit: "",
    format: "0.00",
    how: "CHAIN_HEADROOM: how many times every load, on the lowest supply",
  };
}

export function protectionChecks(
  reach: CheckReach,
  feed: ProtectedFeed,
): CheckRow[] {
  return [
    ...heatChecks(reach, feed),
    ...fuseChecks(reach, feed),
    ...faultChecks(reach, feed),
    headroomCheck(reach, feed.cable),
    stabilityCheck(reach, feed),
    ...chargeChecks(reach, feed),
  ];
}

/** Of one cable. */
function worstCurrent({ worst }: CheckReach, { cable, cables }: ProtectedFeed) {
  const all = worst(cable, "Highest input A");
  return cables === undefined ? all : `${all}/${cables}`;
}

function heatChecks(reach: CheckReach, feed: ProtectedFeed): CheckRow[] {
  const { given } = reach;
  const found = call(
    "CONDUCTOR_TEMPERATURE",
    worstCurrent(reach, feed),
    given("cableSize"),
    given("cableAmbient"),
    given("cableOuter"),
    given("cableLoaded"),
    given("cableInsulation"),
    given("cableGrouping"),
    given(COMMON_KEYS.altitude),
    given("cableSun"),
    '"copper"',
    given("cableBuild"),
  );
  const row = { item: feed.cable, found, unit: "°C", format: "0.0" };
  const how = "CONDUCTOR_TEMPERATURE of its highest current in any case";
  return [
    {
      ...row,
      check: "Conductor temperature",
      limit: given("cableTemperature"),
      how: `${how}, against the temperature that its resistance is entered at`,
    },
    {
      ...row,
      check: "Insulation temperature",
      limit: given("cableLimit"),
      how: `${how}, against its insulation`,
    },
  ];
}

function fuseChecks(reach: CheckReach, feed: ProtectedFeed): CheckRow[] {
  const { given } = reach;
  const current = reach.worst(feed.cable, "Highest input A");
  const item = feed.fuse;
  return [
    {
      check: "Fuse carries the load",
      item,
      found: given("fuseRated"),
      limit: call("FUSE_RATING", current, given("fuseFactor")),
      unit: "A",
      format: "0.0",
      how: "FUSE_RATING: the next step of the series above the highest current times the factor",
    },
    {
      check: "Fuse breaks the voltage",
      item,
      found: given("fuseVolts"),
      limit: given(COMMON_KEYS.supplyVoltage, 2),
      unit: "V",
      format: "0",
      how: "its dc voltage rating against the highest supply voltage",
    },
    {
      check: "Fuse protects the cable",
      item,
      found: given("fuseRated"),
      limit: given("cableRated"),
      unit: "A",
      format: "0.0",
      how: "its rating against the rated current of one cable; the local code may ask for more",
    },
  ];
}

function faultChecks(reach: CheckReach, feed: ProtectedFeed): CheckRow[] {
  const { given, entered } = reach;
  const limit = feed.hasCurrentLimit ? [given("supplyLimit")] : [];
  const resistance = (item: string) => entered(item, "resistance");
  const cable =
    feed.cables === undefined
      ? resistance(feed.cable)
      : `${resistance(feed.cable)}/${feed.cables}`;
  const farEnd = call(
    "FAULT_CURRENT",
    given(COMMON_KEYS.supplyVoltage, 0),
    resistance(feed.supply),
    `${resistance(feed.fuse)}+${cable}`,
    ...limit,
  );
  const nearEnd = call(
    "FAULT_CURRENT",
    given(COMMON_KEYS.supplyVoltage, 2),
    resistance(feed.supply),
    resistance(feed.fuse),
    ...limit,
  );
  return [
    {
      check: "Far-end fault blows the fuse",
      item: feed.cable,
      found: farEnd,
      limit: given("fuseBlows"),
      unit: "A",
      format: "0.0",
      how: "FAULT_CURRENT on the lowest supply through the hot cable; from the curve of the fuse, within 5 s",
    },
    {
      check: "Cable withstands a fault",
      item: feed.cable,
      found: call(
        "CONDUCTOR_WITHSTAND_TIME",
        nearEnd,
        given("cableSize"),
        given("cableTemperature"),
        given("faultEnd"),
      ),
      limit: given("fuseClears"),
      unit: "s",
      format: "0.000",
      how: "CONDUCTOR_WITHSTAND_TIME of one cable with a fault at its near end on the highest supply",
    },
  ];
}

function stabilityCheck(reach: CheckReach, feed: ProtectedFeed): CheckRow {
  const { given, entered, worst } = reach;
  const path = [feed.supply, feed.fuse].map((item) =>
    entered(item, "resistance"),
  );
  const cables = feed.cables === undefined ? "" : `/${feed.cables}`;
  const cable = `${entered(feed.cable, "resistance")}${cables}`;
  const inductance = `${call(
    "CONDUCTOR_INDUCTANCE",
    given("cableLength"),
    given("coreDiameter"),
    given("coreSpacing"),
  )}${cables}`;
  return {
    check: "Stability margin",
    item: feed.stage,
    found: call(
      "STABILITY_MARGIN",
      given(COMMON_KEYS.supplyVoltage, 0),
      `${worst(feed.stage, "Lowest input V")}*${worst(feed.stage, "Highest input A")}`,
      [...path, cable].join("+"),
      inductance,
      given("busCapacitance"),
      given("busCapacitorResistance"),
    ),
    limit: given("stabilityAsked"),
    unit: "",
    format: "0.00",
    how: "STABILITY_MARGIN of the stage as a constant power, lowest input voltage times highest input current, behind supply, fuse and cable",
  };
}

function chargeChecks(reach: CheckReach, feed: ProtectedFeed): CheckRow[] {
  const { given } = reach;
  const highest = given(COMMON_KEYS.supplyVoltage, 2);
  const capacitance = given("busCapacitance");
  return [
    {
      check: "Discharge time",
      item: feed.stage,
      found: call(
        "SAFETY_DISCHARGE_TIME",
        capacitance,
        highest,
        given("dischargeTo"),
        given("bleedResistance"),
      ),
      limit: given("dischargeWithin"),
      unit: "s",
      format: "0.00",
      how: "SAFETY_DISCHARGE_TIME from the highest supply voltage after it is cut off; verify by measurement",
    },
    {
      check: "Stored energy",
      item: feed.stage,
      found: call("SAFETY_STORED_ENERGY", capacitance, highest),
      limit: given("energyLimit"),
      unit: "J",
      format: "0.0",
      how: "SAFETY_STORED_ENERGY at the highest supply voltage",
    },
  ];
}
