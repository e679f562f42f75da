/** Rows of an old feed table as rows of schedules: the figures that solve it first, then what its Inputs say beside them. */
import type { Entered, ScheduleName, ScheduleRow } from "../sample.js";
import { rangeRows, numberOf, sameItem, textOf } from "../reading/range-table.js";
import type { FoundBudget } from "../reading/found-budget.js";
import type { OldRow } from "./old-feed.js";
import type { OldInput, OldInputs } from "./old-inputs.js";

type Cells = Record<string, Entered>;
export type MovedSchedules = Partial<Record<ScheduleName, ScheduleRow[]>>;

/** Where everything stood: 0.2 knew one altitude. */
const SITE = "Site";

const BLOCK_OF: Readonly<Record<OldRow["kind"], ScheduleName>> = {
  supply: "Supply",
  run: "Cable",
  series: "In line",
  bus: "In line",
  tie: "Cable",
  ratio: "Stage",
  regulated: "Stage",
  "power load": "Load",
  "current load": "Load",
  "resistance load": "Load",
};

export class MovedRows {
  private readonly rows = new Map<string, { block: ScheduleName; cells: Cells; type?: Cells }>();

  constructor(
    private readonly old: readonly OldRow[],
    private readonly inputs: OldInputs,
    private readonly margin: number,
    private readonly lost: (line: string) => void,
  ) {
    for (const row of old) this.add(row);
  }

  /** @param checks Of the old budget: which item each of its checks is about. */
  finish({ ranges }: FoundBudget): MovedSchedules {
    const checks = ranges["Checks"] ? rangeRows(ranges["Checks"]) : [];
    const about = (check: string) =>
      checks.find((row) => textOf(row.value("Check")) === check) ?? undefined;
    const found = (check: string) => numberOf(about(check)?.value("Found") ?? "");
    this.fuse(about("Fuse carries the load")?.item, found("Fuse carries the load"));
    const cable = this.cable(about("Conductor temperature")?.item);
    this.inputOfStage(about("Stability margin")?.item ?? about("Discharge time")?.item);
    this.put("Supply", /gives into a fault$/, "Current limit A");
    this.put("Supply", /^Capacitance on the/, "Capacitance", 1e6);
    this.massAndPrice();
    return this.schedules(cable);
  }

  private add(row: OldRow): void {
    const { item, fedFrom, kind, figures } = row;
    const cells: Cells = {};
    const block = BLOCK_OF[kind];
    const put = (header: string, value: Entered | undefined, to = cells) => {
      if (value !== undefined) to[header] = typeof value === "number" ? plain(value) : value;
    };
    put(block, item);
    if (fedFrom !== "") put("Fed from", fedFrom);
    const inParallel = figures.inParallel;
    const type: Cells | undefined =
      block === "Stage" ? { "Stage type": `${item}, type` } : undefined;
    const ohms = figures.resistance;
    if (block !== "Cable" && block !== "Stage" && block !== "Load" && inParallel > 1)
      this.lost(
        `${item}: ${inParallel} in parallel are one row, with their resistance and rating together`,
      );
    switch (block) {
      case "Supply":
        for (const [header, field] of WINDOW) put(header, figures[field]);
        put("Voltage", figures.voltage);
        put("Resistance", ohms && ohms / inParallel);
        put("Rated A", figures.ratedCurrent && figures.ratedCurrent * inParallel);
        if (figures.tolerance) this.lost(`${item}: Tolerance ${figures.tolerance} of the supply`);
        break;
      case "In line":
        put("Kind", figures.voltage ? "diode" : "other");
        put("Resistance", ohms && (ohms / inParallel) * 1000);
        put("Drop", figures.voltage);
        put("Rated A", figures.ratedCurrent && figures.ratedCurrent * inParallel);
        put("Tolerance", tolerance(figures.tolerance));
        break;
      case "Cable":
        if (inParallel > 1) put("Cables", inParallel);
        if (!this.size(row, cells)) {
          put("Resistance", ohms && ohms / inParallel);
          this.lost(`${item}: its length and size; its resistance is carried as a measured loop`);
        }
        put("Rated A", figures.ratedCurrent);
        put("Tolerance", tolerance(figures.tolerance));
        break;
      case "Stage":
        put("Type", type!["Stage type"]);
        if (inParallel > 1) put("In parallel", inParallel);
        put("Tolerance", tolerance(figures.tolerance));
        put("Overvoltage trip", figures.tripVoltage);
        put("Kind", kind, type);
        put("Steps down by", figures.ratio && 1 / figures.ratio, type);
        put("Voltage", figures.voltage, type);
        for (const [header, field] of WINDOW) put(header, figures[field], type);
        put("Rated A", figures.ratedCurrent, type);
        put("Resistance", ohms && ohms * 1000, type);
        for (const [header, field] of LOSSES) put(header, figures[field], type);
        if (isLossless(figures) && (kind === "regulated" || !ohms)) {
          put("Fixed loss", 0, type);
          this.lost(`${item}: no loss was given, and 0 W is typed; enter its losses`);
        }
        put("Isolation", figures.isolation, type);
        break;
      case "Load": {
        put("Kind", LOAD_KIND[kind]);
        if (inParallel > 1) put("Quantity", inParallel);
        for (const [header, heading, field] of LOADS) {
          const factor = kind === "resistance load" ? 1 / (1 + this.margin) : 1 + this.margin;
          const value = figures[field];
          const typed = row.typed(`${heading} before margin`);
          put(header, value === 0 ? "none" : (typed ?? (value && value / factor)));
        }
        for (const [header, field] of WINDOW) put(header, figures[field]);
        put("Tolerance", tolerance(figures.tolerance));
        break;
      }
    }
    const bases = row.inputs.flatMap((cell) => {
      this.inputs.take(cell);
      return this.inputs.inputAt(cell)?.basis ?? [];
    });
    const basis = [...new Set(bases)].filter((text) => !/^(required|choose)/.test(text)).join("; ");
    put("Basis", basis === "" ? "from an earlier budget" : basis);
    this.rows.set(item, { block, cells, ...(type && { type }) });
  }

  /** Enters length, size and material of a resistance that was calculated from them. */
  private size({ formula }: OldRow, cells: Cells): boolean {
    const [, list] = /CONDUCTOR_RESISTANCE\(([^()]*)\)$/i.exec(formula("Resistance")) ?? [];
    const given = list?.split(",").map((part): Entered | undefined => {
      const [cell] = this.inputs.cellsIn(part);
      if (cell) return this.inputs.inputAt(cell)?.values.get(cell) as Entered | undefined;
      const [, text] = /^\s*"([^"]*)"\s*$/.exec(part) ?? [];
      return text ?? (part.trim() === "" || Number.isNaN(Number(part)) ? undefined : Number(part));
    });
    if (!given || given.length < 3 || given.length > 5 || given.includes(undefined)) return false;
    ["Length", "Size", "Conductor at most", "Material", "Build"].forEach((header, at) => {
      const value = given[at];
      if (value !== undefined) cells[header] = value;
    });
    return true;
  }

  /** A value beside a label into a column of an item, or of its type; the first supply where a block is named. */
  private put(item: string | undefined, label: RegExp, header: string, times = 1): void {
    const row =
      item === "Supply"
        ? [...this.rows.values()].find(({ block }) => block === "Supply")
        : this.rows.get(item ?? "");
    if (!row) return;
    const found = this.inputs.takeFirst(label);
    if (!found) return;
    const { value } = found;
    const to = row.type && header !== "Bleed" && !/spread$/.test(header) ? row.type : row.cells;
    to[header] = typeof value === "number" ? plain(value * times) : value;
  }

  private fuse(item: string | undefined, rated: number | undefined): void {
    const row = this.rows.get(item ?? "");
    if (!row || row.block !== "In line") return;
    row.cells["Kind"] = "fuse";
    if (rated !== undefined && row.cells["Rated A"] !== rated)
      this.lost(`${item}: its fuse is rated ${rated} A; give it a row of its own`);
    this.inputs.takeFirst(/^Rated current of the .*fuse$/);
    this.put(item, /^Dc voltage that the fuse breaks$/, "Rated V");
    this.put(item, /^Current that blows it within 5 s$/, "Clears at A");
    if (row.cells["Clears at A"] !== undefined) row.cells["Within s"] = 5;
    this.put(item, /clears a fault at its own terminals$/, "Clears near end s");
  }

  private cable(item: string | undefined): string | undefined {
    for (const [label, header] of [
      [/^Diameter over its sheath$/, "Outer diameter"],
      [/^Insulation$/, "Insulation"],
      [/^Loaded cores inside/, "Cores"],
      [/grouping leaves$/, "Grouping"],
      [/^Between the middles of its conductors$/, "Core spacing"],
    ] as const)
      this.put(item, label, header);
    return this.rows.has(item ?? "") ? item : undefined;
  }

  private inputOfStage(item: string | undefined): void {
    this.put(item, /^Capacitance at the stage's input$/, "Input capacitance", 1e6);
    this.put(item, /^Series resistance of that capacitance$/, "Input series resistance", 1e3);
    this.put(item, /^Resistor that discharges it$/, "Bleed");
    const parallel = [...this.rows.values()].find((row) => Number(row.cells["In parallel"]) > 1);
    const name = parallel && textOf(parallel.cells["Stage"]);
    this.put(name, /^Units differ in ratio by$/, "Set-point spread");
    this.put(name, /^Units differ in resistance by$/, "Resistance spread");
  }

  /** In the group and column of Inputs from which an item has its other figures. */
  private massAndPrice(): void {
    for (const input of this.inputs.rows)
      for (const [cell, value] of input.values) {
        const header = headerOf(input);
        if (header === undefined || typeof value !== "number") continue;
        const owner = this.ownerOf(input, cell, header);
        if (!owner) continue;
        this.inputs.take(cell);
        (owner.type ?? owner.cells)[header] = value;
      }
    for (const { item, kind, typed } of this.old) {
      const [mass, price] = [typed("Mass"), typed("Cost")];
      const { cells, block, type } = this.rows.get(item)!;
      if (block === "Stage" || block === "In line") {
        if (mass !== undefined) (type ?? cells)["Mass"] = mass;
        if (price !== undefined) (type ?? cells)["Price"] = price;
      } else if (mass !== undefined || price !== undefined)
        this.lost(`${item}: mass and cost of a ${kind} row`);
    }
  }

  private ownerOf(input: OldInput, cell: string, header: string) {
    const column = cell.replace(/\d/g, "");
    const block: ScheduleName = header === "Mass" || header === "Price" ? "Stage" : "Cable";
    const isCable = input.unit.includes("/m") || input.unit.includes("per m");
    const owners = this.old.filter(
      ({ item, inputs }) =>
        this.rows.get(item)?.block === (isCable ? "Cable" : block) &&
        inputs.some(
          (one) => one.startsWith(column) && this.inputs.inputAt(one)?.group === input.group,
        ),
    );
    return owners.length === 1 ? this.rows.get(owners[0]!.item) : undefined;
  }

  private schedules(cable: string | undefined): MovedSchedules {
    const altitude = this.inputs.takeFirst(/^Altitude of the highest equipment$/);
    const air = this.inputs.takeFirst(/^Air around it, hottest$/);
    const sun = this.inputs.takeFirst(/^Sun on it$/);
    const high: Cells = altitude ? { Altitude: altitude.value } : {};
    const around = cable === undefined ? "" : `Around ${cable}`;
    const places: ScheduleRow[] = [
      { Location: SITE, ...high, Basis: altitude?.basis ?? "from an earlier budget" },
      ...(cable === undefined || !air
        ? []
        : [
            {
              Location: around,
              Hottest: air.value,
              ...high,
              ...(sun && { Sun: sun.value }),
              Basis: air.basis,
            },
          ]),
    ];
    const moved: MovedSchedules = { Location: places, "Stage type": [] };
    for (const { block, cells, type } of this.rows.values()) {
      const [name] = Object.values(cells);
      const isAround = air !== undefined && sameItem(String(name), cable ?? "");
      (moved[block] ??= []).push({ ...cells, Location: isAround ? around : SITE });
      if (type) moved["Stage type"]!.push({ ...type, Basis: cells["Basis"]! });
    }
    return moved;
  }
}

const WINDOW = [
  ["Lowest V", "lowestVoltage"],
  ["Highest V", "highestVoltage"],
] as const;

const LOSSES = [
  ["Fixed loss", "fixedLoss"],
  ["Linear loss", "linearLoss"],
  ["Quadratic loss", "quadraticLoss"],
  ["Efficiency", "efficiency"],
] as const;

const LOADS = [
  ["Light", "Light load", "lightLoad"],
  ["Nominal", "Load", "load"],
  ["Peak", "Peak load", "peakLoad"],
] as const;

const LOAD_KIND: Readonly<Partial<Record<OldRow["kind"], string>>> = {
  "power load": "power",
  "current load": "current",
  "resistance load": "resistance",
};

/** What 0.2 called the mass and the price of a stage and of a metre of cable. */
function headerOf({ label, unit }: OldInput): "Mass" | "Price" | "Price per m" | undefined {
  if (/^Mass of all that/.test(label)) return undefined;
  if (/^Mass$|^Mass of (one|the)|, mass$/.test(label)) return "Mass";
  if (!/^Price$|^Price of (one|the) |, price$/.test(label)) return undefined;
  return unit.includes("per m") ? "Price per m" : "Price";
}

function tolerance(value: number | undefined): Entered | undefined {
  return value === 0 ? "exact" : value;
}

/** The number without what rounding left behind the digits that were typed. */
function plain(value: number): number {
  return Number(value.toPrecision(14));
}

function isLossless(figures: OldRow["figures"]): boolean {
  return LOSSES.every(([, field]) => figures[field] === undefined);
}
