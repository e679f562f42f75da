/**
 * What people may touch, in service and after one fault of one stage. One row for all that stands behind one isolating
 * stage, or before the first one: hazardous by its nature there, and answered by an enclosure. What is enclosed or locked
 * is not touched, whatever its voltage.
 */
import { figure } from "../../quantities/figures.js";
import {
  type FeedBands,
  feedBands,
  type ItemBand,
  type ItemBands,
  type NoBand,
  touchableBand,
} from "../../safety/feed-bands.js";
import { type Circuit, feedCircuits, type HighestVoltage } from "../../safety/circuits.js";
import { NO_RIPPLE_COUNTED } from "../../safety/judgement-caveats.js";
import { stageFaultText } from "../../safety/stage-fault.js";
import type { FrameworkName, TouchBand, TouchCondition } from "../../safety/touch-bands.js";
import type { CheckName } from "../check-row.js";
import { ifItIs, levelVoltage } from "../mends/changes.js";
import type { Check, Figure, Finding } from "../check.js";
import { MissingFigure, MissingRequirement, type Place } from "../place.js";
import type { TableField } from "../../schedules/columns.js";

type BandCheck = Extract<CheckName, "Band in service" | "Band after one fault">;

const TOUCHED = {
  asked: "is",
  weight: "danger",
  cite: "touch-voltage-faults",
} as const;

export const BAND_CHECKS: Readonly<Record<BandCheck, Check>> = {
  "Band in service": {
    ...TOUCHED,
    means: "it may not be touched in service",
    find: (place) => touched(place, (bands) => [bands.inService, bands.normal]),
  },
  "Band after one fault": {
    ...TOUCHED,
    means: "one fault makes it such that it may not be touched",
    find: (place) => touched(place, (bands) => [bands.inFault, bands.afterFault]),
  },
};

type Looked = readonly [ItemBand | NoBand, HighestVoltage];

interface Touched {
  readonly place: Place;
  readonly bands: ItemBands;
  readonly limit: TouchBand;
  readonly band: ItemBand | NoBand;
  readonly voltage: HighestVoltage;
}

function touched(place: Place, look: (bands: ItemBands) => Looked): Finding | undefined {
  const { role } = place.kind;
  if (role !== "supply" && role !== "stage") return undefined;
  const framework = place.tree.requirements.framework;
  const rows = placesOf(place);
  if (rows.length === 0) return undefined;
  if (framework === "not given" || framework === "not asked")
    throw new MissingRequirement("Framework", framework);
  const looked = (one: Place): Touched => {
    const { items } = bandsOf(one, framework);
    const bands = items[one.row]!;
    const [band, voltage] = look(bands);
    return { place: one, bands, limit: touchableBand(framework), band, voltage };
  };
  const open = rows.filter((one) => !isClosed(one)).map(looked);
  if (open.length === 0) return closed(rows.map(looked));
  const beyond = open.filter(({ band }) => isBeyond(band));
  const [unknown] = open.filter(({ band }) => band.outcome !== "determined");
  if (beyond.length === 0 && unknown) throw missing(unknown, framework);
  const worst = leastMargin(beyond.length > 0 ? beyond : open);
  const band = worst.band as ItemBand;
  return {
    found: band.judgement.band.name,
    limit: worst.limit.name,
    unit: "",
    margin: band.margin,
    holds: beyond.length === 0,
    worstIn: `${worst.place.name}, ${voltsOf(worst)}${takenWords([worst])}`,
    cause: worst.place,
    field: "access",
    figures: () => [
      isolated(worst),
      [ifItIs(worst.place, { field: "access", to: "enclosed" }, "enclosed or locked")],
      levelVoltage(worst.place, "less"),
    ],
    comesTo: () => voltsAt(worst),
  };
}

function voltsAt({ place, voltage }: Touched): string {
  const volts = voltage.outcome === "determined" ? `${figure(voltage.voltage)} V` : "less";
  return `${volts} at ${place.name}`;
}

/** The stage whose fault it is, reinforced. */
function isolated({ place, voltage }: Touched): Figure[] {
  if (voltage.outcome !== "determined" || !voltage.fault) return [];
  const failed = place.at(place.tree.feed.columns.item.indexOf(voltage.fault.item));
  return [ifItIs(failed, { field: "isolation", to: "reinforced" }, "reinforced")];
}

/** The items behind the same supply or the same basic or reinforced insulation as the place, itself the first. */
function placesOf(place: Place): readonly Place[] {
  const { ofRow } = place.tree.onceOfColumns("circuits", () =>
    feedCircuits(place.tree.feed.columns),
  );
  return ofRow.flatMap((circuit, row) =>
    !("outcome" in circuit) && behind(circuit) === place.row ? [place.at(row)] : [],
  );
}

/** The supply, or the nearest stage whose insulation protects. */
function behind({ row, item, input }: Circuit): number {
  const protects = item.isolation === "basic" || item.isolation === "reinforced";
  return input === undefined || protects ? row : behind(input);
}

function bandsOf(place: Place, framework: FrameworkName): FeedBands {
  const condition = conditionOf(place);
  const { tree } = place;
  return tree.onceOfColumns(`bands ${framework} ${condition ?? ""}`, () =>
    feedBands(tree.feed.columns, { framework, condition }),
  );
}

/** Wet where either its location or the requirement says so, immersed too; undefined where neither says anything. */
function conditionOf(place: Place): TouchCondition | undefined {
  const asked = place.tree.requirements.get("Place");
  const words = [place.word("place"), asked];
  if (words.some((word) => word === "wet" || word === "immersed")) return "wet";
  return words.includes("dry") ? "dry" : undefined;
}

function isClosed(place: Place): boolean {
  const access = place.word("access");
  return access === "enclosed" || access === "locked";
}

/** Whether it is beyond the band by its framework's rule: some count a voltage equal to the limit as beyond. */
function isBeyond(band: ItemBand | NoBand): boolean {
  return band.outcome === "determined" && !band.check.within;
}

function closed(group: readonly Touched[]): Finding {
  const access = [...new Set(group.map(({ place }) => place.word("access")!))].sort();
  const volts = group.flatMap(({ voltage }) =>
    voltage.outcome === "determined" ? [voltage.voltage] : [],
  );
  const highest = volts.length === group.length ? `, ${figure(Math.max(...volts))} V at most` : "";
  return {
    found: access.join(", "),
    limit: "enclosed or locked",
    unit: "",
    holds: true,
    worstIn: `${group.length === 1 ? group[0]!.place.name : `all ${group.length} items`}${highest}${takenWords(group)}`,
  };
}

/** What was taken where more is not given or not printed. */
function takenWords(group: readonly Touched[]): string {
  const isImmersed = group.some(({ place }) => place.word("place") === "immersed");
  const lacksRipple = group.some(
    ({ band }) =>
      band.outcome === "determined" &&
      band.judgement.caveats.some(({ code }) => code === "no-ripple"),
  );
  return `${lacksRipple ? `, ${NO_RIPPLE_COUNTED}` : ""}${isImmersed ? ", immersed judged as wet" : ""}`;
}

function leastMargin(group: readonly Touched[]): Touched {
  const margin = ({ band }: Touched) => (band.outcome === "determined" ? band.margin : Infinity);
  return group.reduce((least, one) => (margin(one) < margin(least) ? one : least));
}

function voltsOf({ voltage }: Touched): string {
  if (voltage.outcome !== "determined") return "voltage not determined";
  const fault = voltage.fault ? `, ${stageFaultText(voltage.fault)}` : "";
  return `${figure(voltage.voltage)} V without load or drop${fault}`;
}

function missing(
  { place, band }: Touched,
  framework: FrameworkName,
): MissingFigure | MissingRequirement {
  const { why } = band as NoBand;
  if ("reason" in why)
    return new MissingRequirement(
      "Framework",
      "not given",
      `${why.reason}: choose another Framework than ${framework}, or set Access of ${place.name} to enclosed or locked where it stands`,
    );
  const row = place.tree.feed.columns.item.indexOf(why.blamed);
  const { value, field, message } = why.error;
  const advice =
    value === null
      ? undefined
      : `${why.blamed}: ${message.replace(field, place.at(row).said(field))}`;
  return new MissingFigure(place.at(row), [field as TableField], advice);
}
