/** Checks of a cable from its supply, each at its worst case: heat, fuse, faults, headroom, stability, what stays charged. */
import { call } from "../plans/sheet-builder.js";
import {
  type CheckReach,
  type CheckRow,
  COMMON_KEYS,
} from "./budget-scenario.js";

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
