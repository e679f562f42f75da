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
    how: "CHAIN_HEADROOM: how many times every load, nominal or peak, whichever is less, on the lowest supply",
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

/** Formulas of what lies between the supply and the first stage. */
interface Loop {
  readonly supply: string;
  readonly fuse: string;
  /** All cables in parallel, hot. */
  readonly cable: string;
  readonly coldCable: string;
}

function loopOf({ given, entered }: CheckReach, feed: ProtectedFeed): Loop {
  const cables = feed.cables === undefined ? "" : `/${feed.cables}`;
  const cold = call(
    "CONDUCTOR_RESISTANCE",
    given("cableLength"),
    given("cableSize"),
    given("cableColdest"),
    '"copper"',
    given("cableBuild"),
  );
  return {
    supply: entered(feed.supply, "resistance"),
    fuse: entered(feed.fuse, "resistance"),
    cable: `${entered(feed.cable, "resistance")}${cables}`,
    coldCable: `${cold}${cables}`,
  };
}

const BETWEEN_POLES =
  "only a fault between the poles is computed, not the loop of a fault to earth nor the second fault of an unearthed supply";

/** Cleared at the least fault current, broken and withstood at the greatest. */
function faultChecks(reach: CheckReach, feed: ProtectedFeed): CheckRow[] {
  const { given } = reach;
  const { supply, fuse, cable } = loopOf(reach, feed);
  const leastAtFarEnd = call(
    "FAULT_CURRENT",
    given(COMMON_KEYS.supplyVoltage, 0),
    supply,
    `${fuse}+${cable}`,
    feed.hasCurrentLimit ? given("supplyLimit") : "",
    '"least"',
  );
  const greatestBehind = (resistance: string) =>
    call(
      "FAULT_CURRENT",
      given(COMMON_KEYS.supplyVoltage, 2),
      given("supplyLeast"),
      resistance,
      "",
      '"greatest"',
    );
  const withstood = (current: string) =>
    call(
      "CONDUCTOR_WITHSTAND_TIME",
      current,
      given("cableSize"),
      given("cableTemperature"),
      given("faultEnd"),
    );
  const seconds = { unit: "s", format: "0.000" };
  return [
    {
      check: "Far-end fault blows the fuse",
      item: feed.cable,
      found: leastAtFarEnd,
      limit: given("fuseBlows"),
      unit: "A",
      format: "0.0",
      how: "FAULT_CURRENT, least: lowest supply voltage, hot cable, the supply's current limit where it has one; a fault nearer draws no less",
    },
    {
      ...seconds,
      check: "Fuse clears in time",
      item: feed.fuse,
      found: given("fuseBlowsWithin"),
      limit: given("disconnection"),
      how: `time of the fuse's curve at the current of the row above, against the disconnection time on Inputs; ${BETWEEN_POLES}`,
    },
    {
      check: "Fuse breaks the fault",
      item: feed.fuse,
      found: given("fuseBreaks"),
      limit: greatestBehind("0"),
      unit: "A",
      format: "0",
      how: "its breaking capacity against FAULT_CURRENT, greatest: highest supply voltage, least resistance of the supply alone, no current limit; capacitors discharge into the fault on top",
    },
    {
      ...seconds,
      check: "Cable withstands a fault",
      item: feed.cable,
      found: withstood(greatestBehind(fuse)),
      limit: given("fuseClears"),
      how: "CONDUCTOR_WITHSTAND_TIME of one hot cable, fault at its near end, greatest current: highest supply voltage, least resistance of the supply, no current limit",
    },
    {
      ...seconds,
      check: "Cable withstands a slow fault",
      item: feed.cable,
      found: withstood(given("fuseBlows")),
      limit: given("fuseBlowsWithin"),
      how: "CONDUCTOR_WITHSTAND_TIME of one hot cable at the least current that counts as cleared, as of a fault at its far end; a fuse lets through less heat at any larger one",
    },
  ];
}

/** With all resistance at its greatest the feed collapses first, at its least it is damped least. */
function stabilityCheck(reach: CheckReach, feed: ProtectedFeed): CheckRow {
  const { given, worst } = reach;
  const { supply, fuse, cable, coldCable } = loopOf(reach, feed);
  const cables = feed.cables === undefined ? "" : `/${feed.cables}`;
  const inductance = `${call(
    "CONDUCTOR_INDUCTANCE",
    given("cableLength"),
    given("coreDiameter"),
    given("coreSpacing"),
  )}${cables}`;
  const behind = (...path: readonly string[]) =>
    call(
      "STABILITY_MARGIN",
      given(COMMON_KEYS.supplyVoltage, 0),
      `${worst(feed.stage, "Lowest input V")}*${worst(feed.stage, "Highest input A")}`,
      path.join("+"),
      inductance,
      given("busCapacitance"),
      given("busCapacitorResistance"),
    );
  const hot = behind(supply, fuse, cable);
  const cold = behind(given("supplyLeast"), fuse, coldCable);
  return {
    check: "Stability margin",
    item: feed.stage,
    found: `MIN(${hot},${cold})`,
    limit: given("stabilityAsked"),
    unit: "",
    format: "0.00",
    how: "STABILITY_MARGIN of the stage as a constant power, lowest input voltage times highest input current, behind supply, fuse and cable, hot and coldest; the lesser counts",
    taken: `IF(${cold}<${hot},"here the coldest cable and the supply's least resistance","here the hot cable")`,
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
      format: "0.00",
      how: "SAFETY_STORED_ENERGY at the highest supply voltage",
    },
  ];
}
