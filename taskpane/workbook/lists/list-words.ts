/** What people call the columns of load lists and cable schedules, and their units. */
import {
  HEADER_UNITS,
  headerParts,
  hasUnits,
  type HeaderQuantity,
  unitInSi,
} from "../../../src/quantities/header-units.js";
import { type BlockColumn, BLOCKS } from "../../../src/schedules/columns.js";

/** Blocks that a list can become rows of. */
export const LIST_BLOCKS = ["Load", "Cable"] as const;

export type ListBlock = (typeof LIST_BLOCKS)[number];

/** Becomes a column of the user's own beside the block: carried, never counted. */
export const OWN = "#";
export const LEFT_OUT = "";
/** End of a header whose figure is of all that the row counts; it is divided by Quantity. */
export const OF_ALL = " of all";

/**
 * A header of the block, the block's own name for the names of items, one of the above, or a header with `OF_ALL`
 * behind it.
 */
export type Role = string;

/** Headers that a list may say by one of these words, the first that fits; "#" is carried whatever comes behind. */
const WORDS: Readonly<Record<ListBlock, readonly (readonly [RegExp, Role])[]>> = {
  Load: [
    [
      /factor|simultan|diversity|coinciden|utili[sz]ation|duty|\bcos\b|phase|state|status|standing|\brev|remark|comment|note|description|^\W*pos\W*$/,
      OWN,
    ],
    [/fed (from|by)|feeder|supplied|supply (from|by)|panel|board|source|^from$/, "Fed from"],
    [/location|area|room|place|zone|compartment/, "Location"],
    [
      /\bqty\b|quantity|\bpcs\b|pieces|\bcount\b|no\.? off|number of|^units?$|^no\.? of/,
      "Quantity",
    ],
    [/total|\bsum\b/, `Nominal${OF_ALL}`],
    [/stand-?by|sleep|idle|light load|least load/, "Light"],
    [/peak|start|inrush|surge|max\S* (power|load|demand|consumption|current|watt)/, "Peak"],
    [/min\S* (volt|v\b|u\b)|lowest v|^umin/, "Lowest V"],
    [/max\S* (volt|v\b|u\b)|highest v|^umax/, "Highest V"],
    [/capacitance/, "Capacitance"],
    [/volt/, OWN],
    [
      /power|consumption|demand|absorbed|rating|rated|installed|connected|watt|\bload\b(?! (name|tag|no|id))|current|running|nominal|^k?w\b/,
      "Nominal",
    ],
    [/^tag|\btag\b|equipment|consumer|designation|name|^item|^load\b|\bid\b|identifier/, "Load"],
  ],
  Cable: [
    [
      /^to$|^to |destination|drop|design current|load current|state|status|standing|\brev|remark|comment|note|description|route$|gland|tray/,
      OWN,
    ],
    [/^from\b|source|origin|fed (from|by)|feeder/, "Fed from"],
    [/location|area|room|zone/, "Location"],
    [/length|distance/, "Length"],
    [/in parallel|no\.? of cables|number of cables|^runs$|cables per/, "Cables"],
    [/no\.? of (cores|conductors)|number of (cores|conductors)|^cores$|core count/, "Cores"],
    [/outer diameter|overall diameter|outside diameter|^o\.?d\.?$/, "Outer diameter"],
    [/size|section|\bcsa\b|mm2|\bawg\b|gauge|conductors?$/, "Size"],
    [/insulation|dielectric/, "Insulation"],
    [/material|metal/, "Material"],
    [/rated volt|voltage (rating|class)|rated v$/, "Rated V"],
    [/ampacity|rated (current|a)$|current (rating|capacity)/, "Rated A"],
    [/mass|weight/, "Mass"],
    [
      /^tag|\btag\b|cable (no|id|number|name|ref)|^cable$|^no\.?$|^ref|designation|name|\bid\b/,
      "Cable",
    ],
  ],
};

/** Units of apparent power, energy and charge, and of powers that no schedule is typed in: no figure of a column. */
const OTHER_UNITS = /(^|[\s([,/])([kM]?VA|MW|hp|HP|BTU\/h|[kM]?Wh|m?Ah)[\s)\],]*$/;

/** @param unit That the column is in; "" where it names none. */
export function wordedRole(block: ListBlock, header: string, unit: string): Role | undefined {
  if (OTHER_UNITS.test(header)) return OWN;
  const text = headerParts(header).name.normalize("NFKC").toLowerCase();
  const isOf = (role: Role) => {
    const units = unitsOfRole(block, role);
    return unit === "" || unit === "1" || role === OWN || units.includes(unit);
  };
  return WORDS[block].find(([words, role]) => words.test(text) && isOf(role))?.[1];
}

/** Undefined for the names of items, and for what is carried or left out. */
export function columnOfRole(block: ListBlock, role: Role): BlockColumn | undefined {
  return BLOCKS[block].find(({ header }) => header === role.replace(OF_ALL, ""));
}

/** What people write for a unit that the headers of a schedule write in another way. */
const UNIT_WORDS: Readonly<Record<string, string>> = {
  w: "W",
  watt: "W",
  watts: "W",
  kw: "kW",
  kilowatt: "kW",
  a: "A",
  amp: "A",
  amps: "A",
  ampere: "A",
  ma: "mA",
  volt: "V",
  volts: "V",
  vdc: "V",
  "v dc": "V",
  metre: "m",
  metres: "m",
  meter: "m",
  meters: "m",
  feet: "ft",
  foot: "ft",
  sqmm: "mm²",
  "sq mm": "mm²",
  "sq. mm": "mm²",
  mm2: "mm²",
  "mm^2": "mm²",
  awg: "AWG",
  pcs: "1",
  "-": "1",
  "–": "1",
  nos: "1",
  "no.": "1",
};

/** Units of sizes, which no header of a schedule has in brackets. */
export const SIZE_UNITS = ["mm²", "AWG"] as const;

const LOAD_UNITS = ["W", "kW", "mW", "A", "mA", "Ω"] as const;

/** Units that a column of the role may be in; none for words and counts. */
export function unitsOfRole(block: ListBlock, role: Role): readonly string[] {
  const column = columnOfRole(block, role);
  if (column?.content.holds === "size") return SIZE_UNITS;
  if (column?.content.holds !== "figure") return [];
  const { quantity } = column;
  if (quantity === "load") return LOAD_UNITS;
  if (!hasUnits(quantity) || quantity === "number") return [];
  return Object.keys(HEADER_UNITS[quantity]);
}

const BY_SIGN: ReadonlyMap<string, string> = new Map(
  Object.values(HEADER_UNITS)
    .flatMap((units) => Object.keys(units))
    .map((unit) => [sign(unit), unit] as const),
);

/** As the schedules write it; undefined for a text that is no unit known here. */
export function plainUnit(text: string): string | undefined {
  const bare = text.trim().replace(/^[[(]\s*|\s*[\])]$/g, "");
  return UNIT_WORDS[bare.toLowerCase()] ?? BY_SIGN.get(sign(bare));
}

function sign(text: string): string {
  return text
    .normalize("NFKC")
    .replace(/ohms?/gi, "Ω")
    .replace(/^u(?=[FHΩ])/, "μ")
    .replace(/\s|\^/g, "");
}

/** The unit that a header of a list names: `Power [kW]`, `Power, kW`, `Length m`, `W each`; "" where it names none. */
export function unitOfHeader(text: string): string {
  const { unit } = headerParts(text);
  if (unit !== "") return plainUnit(unit) ?? "";
  const [first = "", ...others] = text.trim().split(/[\s,;/]+/);
  const known =
    plainUnit(others.at(-1) ?? "") ?? (others[0] === "each" ? plainUnit(first) : undefined);
  return known === undefined || known === "1" ? "" : known;
}

/** What one of the unit is in SI; for a load in the unit of its kind. */
export function listUnitInSi(quantity: HeaderQuantity, unit: string): number | undefined {
  if (quantity === "load")
    return { W: 1, kW: 1e3, mW: 1e-3, A: 1, mA: 1e-3, Ω: 1 }[unit as (typeof LOAD_UNITS)[number]];
  return hasUnits(quantity) ? unitInSi(quantity, unit) : undefined;
}

/** The kind of load that figures in this unit are of. */
export function loadKindOf(unit: string): "power" | "current" | "resistance" {
  if (unit === "A" || unit === "mA") return "current";
  return unit === "Ω" ? "resistance" : "power";
}
