/**
 * The one list of what may stand in a schedule's blocks and in the feed table that is made of them: headers, units,
 * figures, words. Whatever reads, checks, draws or lays out a schedule takes them from here.
 *
 * A figure is in SI inside (°C for temperatures); `unit` is the one that its header shows, and a header may name another
 * unit of the same quantity.
 */
import { CONDUCTOR_BUILDS } from "../conductors/conductor-build.js";
import { MATERIAL_NAMES } from "../conductors/conductor-materials.js";
import { INSULATION_NAMES } from "../conductors/insulations.js";
import { ISOLATIONS } from "../network/feed-item.js";
import { SPREAD_FIGURES } from "../sensitivity/moving-figures.js";
import { type HeaderQuantity, HEADER_UNITS, unitInSi } from "../quantities/header-units.js";
import { DISTRIBUTION_NAMES } from "../spread/distributions.js";

/** What a figure may be; `refused` in words by `boundInWords`. */
export type Bound = "any" | "above 0" | "0 or more" | "part of one" | "tolerance" | "whole";

/** What a cell of a column holds. */
export type ColumnContent =
  /** The column is there for the layout of the sheet only. */
  | { readonly holds: "nothing" }
  | { readonly holds: "name" }
  /** Names parted by ";". */
  | { readonly holds: "names" }
  | { readonly holds: "text" }
  /** A number or a text, as the row's label says. */
  | { readonly holds: "value" }
  | { readonly holds: "word"; readonly words: readonly string[] }
  /** A number of mm² of metal, or a name like "2.5 mm²" or "12 AWG". */
  | { readonly holds: "size" }
  | {
      readonly holds: "figure";
      readonly bound: Bound;
      /** Words that stand for a figure. */
      readonly words?: Readonly<Record<string, number>>;
    };

export interface Column {
  /** Without its unit. */
  readonly header: string;
  /** What stands in brackets behind the header; "" where its name says it. */
  readonly unit: string;
  readonly quantity: HeaderQuantity;
}

export interface BlockColumn extends Column {
  /** The figure in the block's rows. */
  readonly field: string;
  readonly content: ColumnContent;
  /** For a heading's note and for help. */
  readonly means: string;
  /** Words of the block's Kind that it is of use to; to all where it is left out. */
  readonly kinds?: readonly string[];
}

/** Blocks that the feed table is made of, in the order in which people type them. */
export const TABLE_BLOCKS = [
  "Supply",
  "Stage",
  "Cable",
  "In line",
  "Load",
  "Location",
  "Stage type",
  "Asked for",
] as const;

export type TableBlock = (typeof TABLE_BLOCKS)[number];

/** All blocks of a feed; Spread says of the table's figures how far they may vary. */
export const BLOCK_NAMES = [...TABLE_BLOCKS, "Spread"] as const;

export type BlockName = (typeof BLOCK_NAMES)[number];

export const IN_LINE_KINDS = [
  "fuse",
  "breaker",
  "contactor",
  "isolator",
  "connector",
  "slip ring",
  "diode",
  "filter",
  "bus",
  "other",
] as const;

export type InLineKind = (typeof IN_LINE_KINDS)[number];

export const LOAD_KINDS = ["power", "current", "heater", "resistance"] as const;

export type LoadKind = (typeof LOAD_KINDS)[number];

export const STAGE_TYPE_KINDS = ["ratio", "regulated"] as const;

export type StageTypeKind = (typeof STAGE_TYPE_KINDS)[number];

export const PLACES = ["dry", "wet", "immersed"] as const;

export type Place = (typeof PLACES)[number];

/** Who may reach a place, from everybody on. */
export const ACCESSES = ["open", "enclosed", "locked"] as const;

export type Access = (typeof ACCESSES)[number];

/** Only cables in still air are judged by their heat. */
export const SURROUNDINGS = ["still air", "duct", "ground", "water", "drum"] as const;

export type Surroundings = (typeof SURROUNDINGS)[number];

/** What a cable is rated by that has no rating typed. */
export const HEAT_BALANCE = "heat balance";

/** The place of all rows of a feed without locations. */
export const EVERYWHERE = "Everywhere";

const NAME: ColumnContent = { holds: "name" };
const TEXT: ColumnContent = { holds: "text" };

function words(header: string, field: string, content: ColumnContent, means: string): BlockColumn {
  return { header, unit: "", quantity: "words", field, content, means };
}

function list(
  header: string,
  field: string,
  choices: readonly string[],
  means: string,
): BlockColumn {
  return words(header, field, { holds: "word", words: choices }, means);
}

function figure(
  header: string,
  unit: string,
  quantity: HeaderQuantity,
  field: string,
  bound: Bound,
  means: string,
): BlockColumn {
  const content: ColumnContent = { holds: "figure", bound };
  return { header, unit, quantity, field, content, means };
}

/** ± part of a figure; `exact` where there is none. */
function tolerance(header: string, field: string, means: string): BlockColumn {
  return {
    header,
    unit: "",
    quantity: "fraction",
    field,
    content: { holds: "figure", bound: "tolerance", words: { exact: 0 } },
    means,
  };
}

/** In the kind's own unit; `none` is no load in every host. */
function load(header: string, field: string, means: string): BlockColumn {
  return {
    header,
    unit: "",
    quantity: "load",
    field,
    content: { holds: "figure", bound: "0 or more", words: { none: 0 } },
    means,
  };
}

const CLEARING: readonly InLineKind[] = ["fuse", "breaker"];
const HEATER: readonly LoadKind[] = ["heater"];

/** A column that only some kinds of a block use. */
function only<Kind extends string>(kinds: readonly Kind[], column: BlockColumn): BlockColumn {
  return { ...column, kinds, means: `${column.means}; of ${kinds.join(" and ")} only` };
}

const FED_FROM = words(
  "Fed from",
  "fedFrom",
  NAME,
  "name of the item that feeds it; empty: not fed yet",
);
/** Of rows that may stand between several. */
const FED_FROM_SEVERAL = (several: string): BlockColumn => ({
  ...FED_FROM,
  means: `${FED_FROM.means}; ${several}`,
});
const LOCATION = words(
  "Location",
  "locations",
  { holds: "names" },
  'where it is, as named in Location; several parted by ";"',
);
const BASIS = words("Basis", "basis", TEXT, "where the figures come from");
const PRICE = figure(
  "Price",
  "",
  "money",
  "price",
  "0 or more",
  "of one, in the currency of Asked for",
);
const MASS = figure("Mass", "kg", "mass", "mass", "0 or more", "of one");
/** What faults, sharing and stability are worst at; without it they take the greatest. */
const LEAST_RESISTANCE = (unit: string, means: string) =>
  figure("Least resistance", unit, "resistance", "leastResistance", "above 0", means);
const RATED_A = (means: string) =>
  figure("Rated A", "", "current", "ratedCurrent", "above 0", means);
const RATED_W = (means: string) => figure("Rated W", "", "power", "ratedPower", "above 0", means);
const RATED_V = (means: string) =>
  figure("Rated V", "", "voltage", "ratedVoltage", "above 0", means);
const LOWEST_V = (means: string) =>
  figure("Lowest V", "", "voltage", "lowestVoltage", "above 0", means);
const HIGHEST_V = (means: string) =>
  figure("Highest V", "", "voltage", "highestVoltage", "above 0", means);
const RIPPLE = [
  figure(
    "Ripple V rms",
    "",
    "voltage",
    "rippleRms",
    "0 or more",
    "alternating part of its output at full load, rms",
  ),
  figure(
    "Ripple V peak",
    "",
    "voltage",
    "ripplePeak",
    "0 or more",
    "alternating part of its output at full load, peak",
  ),
];
const ISOLATION = list("Isolation", "isolation", ISOLATIONS, "between input and output");
const CLEARS = (means: string) =>
  figure("Clears at A", "", "current", "clearsAt", "above 0", means);
const WITHIN = (means: string) => figure("Within s", "", "time", "within", "above 0", means);

/** Efficiencies at loads, as a datasheet prints them. */
export const EFFICIENCY_POINTS = 6;

const POINTS = Array.from({ length: EFFICIENCY_POINTS }, (_, index) => [
  figure(
    `Load ${index + 1} W`,
    "",
    "power",
    `load${index + 1}`,
    "above 0",
    `output at which Efficiency ${index + 1} holds`,
  ),
  figure(
    `Efficiency ${index + 1}`,
    "",
    "fraction",
    `efficiency${index + 1}`,
    "part of one",
    `of the datasheet at Load ${index + 1} W`,
  ),
]).flat();

/** A column of the feed table that the blocks make; `field` is its name in the code, words as they stand. */
export interface TableColumn extends Column {
  readonly field: string;
}

function column<const Field extends string>(
  field: Field,
  header: string,
  quantity: HeaderQuantity = "words",
  unit = "",
) {
  return { field, header, quantity, unit } as const;
}

/** In the order of the spill, which is frozen: later ones are appended. Figures are of one; Mass and Price of the row. */
export const TABLE_COLUMNS = [
  column("item", "Item"),
  column("fedFrom", "Fed from"),
  column("kind", "Kind"),
  column("voltage", "Voltage", "voltage", "V"),
  column("resistance", "Resistance", "resistance", "Ω"),
  column("ratio", "Ratio", "number"),
  column("fixedLoss", "Fixed loss", "power", "W"),
  column("linearLoss", "Linear loss", "loss for each ampere", "W/A"),
  column("quadraticLoss", "Quadratic loss", "loss for each square ampere", "W/A²"),
  column("efficiency", "Efficiency", "fraction"),
  column("lightLoad", "Light load", "load"),
  column("load", "Load", "load"),
  column("peakLoad", "Peak load", "load"),
  column("inParallel", "In parallel", "number"),
  column("lowestVoltage", "Lowest V", "voltage"),
  column("highestVoltage", "Highest V", "voltage"),
  column("ratedCurrent", "Rated A", "current"),
  column("tolerance", "Tolerance", "fraction"),
  column("isolation", "Isolation"),
  column("tripVoltage", "Trip V", "voltage"),
  column("ratedPower", "Rated W", "power"),
  /** Current limit of a supply, or the output limit of one unit of a stage. */
  column("currentLimit", "Current limit A", "current"),
  column("shutsDownAt", "Shuts down at A", "current"),
  column("within", "Within s", "time"),
  column("rippleRms", "Ripple V rms", "voltage"),
  column("ripplePeak", "Ripple V peak", "voltage"),
  column("capacitance", "Capacitance", "capacitance", "µF"),
  column("price", "Price", "money"),
  column("length", "Length", "length", "m"),
  column("cores", "Cores", "number"),
  column("size", "Size"),
  column("material", "Material"),
  column("build", "Build"),
  column("corePerMetre", "Core Ω/km at 20 °C", "resistance for each metre"),
  column("conductorC", "Conductor at most", "temperature", "°C"),
  column("outerDiameter", "Outer diameter", "length", "mm"),
  column("insulation", "Insulation"),
  column("surroundings", "Surroundings"),
  column("grouping", "Grouping", "number"),
  column("ratedVoltage", "Rated V", "voltage"),
  /** Inductance of one cable\'s loop, over its whole length. */
  column("inductance", "Inductance", "inductance", "µH"),
  column("mass", "Mass", "mass", "kg"),
  column("clearsAt", "Clears at A", "current"),
  column("clearsNearEnd", "Clears near end s", "time"),
  column("breaksAt", "Breaks A", "current"),
  column("type", "Type"),
  column("unitsNeeded", "Units needed", "number"),
  column("setPointSpread", "Set-point spread", "fraction"),
  column("resistanceSpread", "Resistance spread", "fraction"),
  column("bleed", "Bleed", "resistance", "Ω"),
  column("quantity", "Quantity", "number"),
  column("margin", "Margin", "fraction"),
  column("locations", "Location"),
  column("coldestC", "Coldest", "temperature", "°C"),
  column("hottestC", "Hottest", "temperature", "°C"),
  column("altitude", "Altitude", "length", "m"),
  column("place", "Place"),
  column("access", "Access"),
  column("sun", "Sun", "irradiance", "W/m²"),
  column("lowestC", "Lowest", "temperature", "°C"),
  column("fullUpToC", "Full up to", "temperature", "°C"),
  column("derating", "Derating", "for each kelvin", "1/K"),
  column("highestC", "Highest", "temperature", "°C"),
  column("inputCapacitance", "Input capacitance", "capacitance", "µF"),
  column("inputSeriesResistance", "Input series resistance", "resistance", "mΩ"),
  column("volume", "Volume", "volume", "cm³"),
  column("leastResistance", "Least resistance", "resistance", "Ω"),
  /** `HEAT_BALANCE` where Rated A was worked out; empty where it was typed. */
  column("ratedBy", "Rated by"),
  column("inLineKind", "In line kind"),
  column("block", "Block"),
  /** 1 is the first below the block's header. */
  column("row", "Row", "number"),
  column("basis", "Basis"),
  column("note", "Note"),
] as const satisfies readonly TableColumn[];

/** Of a feed table that is typed: schedules have it by the kind of an item. */
export const REVERSE_FLOW_COLUMN: Column = {
  header: "Reverse flow",
  unit: "",
  quantity: "words",
};

/** Header of each figure that may vary in a feed, as it stands in the feed table. */
const MOVING_HEADERS = SPREAD_FIGURES.map(
  (figure) => TABLE_COLUMNS.find(({ field }) => field === figure)!.header,
);

/** Columns behind the first, which names the block, in the order of the sheets. */
export const BLOCKS: Readonly<Record<BlockName, readonly BlockColumn[]>> = {
  Supply: [
    LOCATION,
    LOWEST_V("least open-circuit voltage"),
    figure("Voltage", "V", "voltage", "voltage", "above 0", "nominal open-circuit voltage"),
    HIGHEST_V("greatest open-circuit voltage"),
    figure(
      "Resistance",
      "Ω",
      "resistance",
      "resistance",
      "0 or more",
      "internal, with its leads, at its greatest",
    ),
    LEAST_RESISTANCE("Ω", "internal, at its least: new, full, warm"),
    RATED_A("greatest continuous current"),
    RATED_W("greatest continuous power; the lesser of both counts"),
    figure(
      "Current limit A",
      "",
      "current",
      "currentLimit",
      "above 0",
      "most that it gives into a fault",
    ),
    figure(
      "Shuts down at A",
      "",
      "current",
      "shutsDownAt",
      "above 0",
      "current at which it switches itself off",
    ),
    WITHIN("time after which it does"),
    ...RIPPLE,
    figure("Capacitance", "µF", "capacitance", "capacitance", "0 or more", "at its output"),
    PRICE,
    BASIS,
  ],
  Stage: [
    FED_FROM,
    LOCATION,
    words("Type", "type", NAME, "as named in Stage type"),
    figure(
      "In parallel",
      "",
      "number",
      "inParallel",
      "whole",
      "identical units side by side; empty: 1",
    ),
    figure(
      "Units needed",
      "",
      "number",
      "unitsNeeded",
      "whole",
      "that carry the load alone; empty: all of them",
    ),
    figure(
      "Voltage",
      "V",
      "voltage",
      "voltage",
      "above 0",
      "set point, wins over the type's; none on a ratio stage",
    ),
    tolerance("Tolerance", "tolerance", "± part of set point or ratio"),
    figure(
      "Overvoltage trip",
      "V",
      "voltage",
      "tripVoltage",
      "above 0",
      "output at which it is stopped after a fault",
    ),
    ISOLATION,
    tolerance("Set-point spread", "setPointSpread", "± part between units in parallel"),
    tolerance("Resistance spread", "resistanceSpread", "± part between units in parallel"),
    figure("Bleed", "Ω", "resistance", "bleed", "above 0", "resistor that discharges its input"),
    BASIS,
  ],
  Cable: [
    FED_FROM_SEVERAL('two parted by ";": a tie that joins their outputs'),
    LOCATION,
    figure("Length", "m", "length", "length", "above 0", "route, one way"),
    figure("Cables", "", "number", "cables", "whole", "side by side; empty: 1"),
    figure(
      "Cores",
      "",
      "number",
      "cores",
      "whole",
      "that carry current, in each cable, out and back together; empty: 2. Odd: half of the cables go out, half back",
    ),
    words("Size", "size", { holds: "size" }, 'of one core: mm² of metal, or "2.5 mm²", "12 AWG"'),
    list("Material", "material", MATERIAL_NAMES, "empty: copper"),
    list("Build", "build", CONDUCTOR_BUILDS, "empty: class 2 of a metric size, solid for AWG"),
    figure(
      "Core Ω/km at 20 °C",
      "",
      "resistance for each metre",
      "corePerMetre",
      "above 0",
      "of one core, from its maker; wins over Size",
    ),
    figure(
      "Resistance",
      "Ω",
      "resistance",
      "resistance",
      "above 0",
      "loop of the whole row, measured; wins over size and Ω/km",
    ),
    figure(
      "Conductor at most",
      "°C",
      "temperature",
      "conductorC",
      "any",
      "hottest that the metal gets; empty: by insulation",
    ),
    figure("Outer diameter", "mm", "length", "outerDiameter", "above 0", "over everything"),
    list("Insulation", "insulation", INSULATION_NAMES, "of the cores"),
    list(
      "Surroundings",
      "surroundings",
      SURROUNDINGS,
      "empty: still air, which alone is judged by heat",
    ),
    figure(
      "Grouping",
      "",
      "number",
      "grouping",
      "part of one",
      "part of the current left among other cables; empty: 1",
    ),
    RATED_A("of one cable; empty: by its heat balance"),
    RATED_V("dc, between poles"),
    figure(
      "Inductance",
      "µH/m",
      "inductance for each metre",
      "inductancePerMetre",
      "above 0",
      "of a loop, for each metre of route",
    ),
    figure(
      "Core spacing",
      "mm",
      "length",
      "coreSpacing",
      "above 0",
      "centre to centre, instead of Inductance",
    ),
    tolerance("Tolerance", "tolerance", "± part of its resistance"),
    figure(
      "Mass",
      "kg/m",
      "mass for each metre",
      "massPerMetre",
      "above 0",
      "of one whole cable; empty: of its metal",
    ),
    figure("Price per m", "", "money", "pricePerMetre", "0 or more", "of one cable"),
    BASIS,
  ],
  "In line": [
    FED_FROM_SEVERAL(
      'two parted by ";": a tie that joins their outputs, or of a bus all that feed it',
    ),
    LOCATION,
    list("Kind", "kind", IN_LINE_KINDS, "what it is"),
    figure("Resistance", "mΩ", "resistance", "resistance", "0 or more", "of both poles"),
    figure(
      "Drop",
      "V",
      "voltage",
      "voltage",
      "0 or more",
      "that does not change with current: of a diode",
    ),
    RATED_A("continuous; of a fuse or breaker its rating"),
    RATED_V("dc"),
    only(CLEARING, CLEARS("current that makes it clear within the time beside")),
    only(CLEARING, WITHIN("of a fault at the far end")),
    only(
      CLEARING,
      figure(
        "Clears near end s",
        "",
        "time",
        "clearsNearEnd",
        "above 0",
        "time of a fault right behind it",
      ),
    ),
    only(
      CLEARING,
      figure("Breaks A", "", "current", "breaksAt", "above 0", "greatest fault that it can break"),
    ),
    tolerance("Tolerance", "tolerance", "± part of resistance and drop"),
    MASS,
    PRICE,
    BASIS,
  ],
  Load: [
    FED_FROM,
    LOCATION,
    list("Kind", "kind", LOAD_KINDS, "power and heater in W, current in A, resistance in Ω"),
    only(HEATER, RATED_V("at which its watts hold")),
    figure("Quantity", "", "number", "quantity", "whole", "identical ones in this row; empty: 1"),
    load("Light", "light", "of one; empty: none"),
    load("Nominal", "nominal", "of one"),
    load("Peak", "peak", "of one; empty: as Nominal"),
    figure(
      "Margin",
      "",
      "fraction",
      "margin",
      "0 or more",
      "on top; empty: Load margin of Asked for",
    ),
    LOWEST_V("least that it works at"),
    HIGHEST_V("greatest that it allows"),
    figure("Capacitance", "µF", "capacitance", "capacitance", "0 or more", "at its input, of one"),
    tolerance("Tolerance", "tolerance", "± part of the load"),
    BASIS,
  ],
  Location: [
    figure("Coldest", "°C", "temperature", "coldestC", "any", "air, lowest in service"),
    figure("Hottest", "°C", "temperature", "hottestC", "any", "air, highest in service"),
    figure("Altitude", "m", "length", "altitude", "any", "above the sea"),
    list("Place", "place", PLACES, "immersed is judged as wet"),
    list("Access", "access", ACCESSES, "who may reach what is there"),
    figure("Sun", "W/m²", "irradiance", "sun", "0 or more", "empty: none"),
    BASIS,
  ],
  "Stage type": [
    list("Kind", "kind", STAGE_TYPE_KINDS, "fixed ratio, or holds its output"),
    only<StageTypeKind>(
      ["ratio"],
      figure(
        "Steps down by",
        "",
        "number",
        "stepsDownBy",
        "above 0",
        "input ÷ output: 16; 0.5 steps up",
      ),
    ),
    figure(
      "Voltage",
      "V",
      "voltage",
      "voltage",
      "above 0",
      "set point; of a ratio stage its rated output, for points",
    ),
    LOWEST_V("least input"),
    HIGHEST_V("greatest input"),
    RATED_A("output of one unit, continuous"),
    RATED_W("output of one unit; the lesser of both counts"),
    figure(
      "Limit A",
      "",
      "current",
      "currentLimit",
      "above 0",
      "most output that one unit gives into a fault",
    ),
    figure("Resistance", "mΩ", "resistance", "resistance", "0 or more", "output, hot"),
    LEAST_RESISTANCE("mΩ", "output, cold"),
    figure("Fixed loss", "W", "power", "fixedLoss", "0 or more", "at no load"),
    figure(
      "Linear loss",
      "W/A",
      "loss for each ampere",
      "linearLoss",
      "0 or more",
      "for each ampere of output",
    ),
    figure(
      "Quadratic loss",
      "W/A²",
      "loss for each square ampere",
      "quadraticLoss",
      "0 or more",
      "for each square ampere of output",
    ),
    figure(
      "Efficiency",
      "",
      "fraction",
      "efficiency",
      "part of one",
      "at any load, where no losses are known",
    ),
    ...POINTS,
    figure("Lowest", "°C", "temperature", "lowestC", "any", "least ambient that it works in"),
    figure(
      "Full up to",
      "°C",
      "temperature",
      "fullUpToC",
      "any",
      "ambient up to which it gives its rating",
    ),
    figure(
      "Derating",
      "1/K",
      "for each kelvin",
      "derating",
      "0 or more",
      "part of its rating lost for each kelvin above",
    ),
    figure("Highest", "°C", "temperature", "highestC", "any", "greatest ambient that it works in"),
    ...RIPPLE,
    figure(
      "Input capacitance",
      "µF",
      "capacitance",
      "inputCapacitance",
      "0 or more",
      "of one unit",
    ),
    figure(
      "Input series resistance",
      "mΩ",
      "resistance",
      "inputSeriesResistance",
      "0 or more",
      "of that capacitance",
    ),
    ISOLATION,
    MASS,
    figure("Volume", "cm³", "volume", "volume", "above 0", "of one"),
    PRICE,
    BASIS,
  ],
  "Asked for": [
    words("Value", "value", { holds: "value" }, 'figure or word, or "not asked"'),
    words("Unit", "unit", TEXT, "not read"),
    words("Citation", "citation", TEXT, "where it is asked; not read"),
  ],
  Spread: [
    list("Column", "column", MOVING_HEADERS, "which figure of the item, by its header on Table"),
    tolerance(
      "Tolerance",
      "tolerance",
      "± part of the figure; empty: as Table says; wins over what the item's own row says",
    ),
    list(
      "Distribution",
      "distribution",
      DISTRIBUTION_NAMES,
      "how it lies within ± Tolerance; empty: flat, all values alike; normal: three standard uncertainties are the tolerance",
    ),
    words(
      "Group",
      "group",
      TEXT,
      "any word; figures of one group are low and high together: one batch, one temperature",
    ),
    BASIS,
  ],
};

export type TableField = (typeof TABLE_COLUMNS)[number]["field"];

/** As it stands on a sheet: `Voltage (V)`. */
export function headerText({ header, unit }: Column): string {
  return unit === "" ? header : `${header} (${unit})`;
}

const HEADER_OF: ReadonlyMap<string, string> = new Map(
  TABLE_COLUMNS.map((one) => [one.field, headerText(one)]),
);

/** A column's header as it stands in the feed table. */
export function tableHeader(field: TableField): string {
  return HEADER_OF.get(field)!;
}

/** Place of a column in the feed table, from 0. */
export function tablePlace(field: TableField): number {
  return TABLE_COLUMNS.findIndex((one) => one.field === field);
}

/** Headers whose name holds their unit, where it is not SI. */
const UNIT_IN_NAME: Readonly<Record<string, string>> = {
  "Core Ω/km at 20 °C": "Ω/km",
};

/** What one of the column's own unit is in SI: 0.001 for mΩ. */
export function ownUnitInSi({ header, unit, quantity }: Column): number {
  if (!(quantity in HEADER_UNITS)) return 1;
  const own = UNIT_IN_NAME[header] ?? unit;
  return unitInSi(quantity as keyof typeof HEADER_UNITS, own)!;
}

/** Cores of a cable that go out; with an odd count the whole cable goes one way, and a loop takes two of them. */
export function coresPerPole(cores: number): number {
  return cores % 2 === 0 ? cores / 2 : cores;
}
