/** Numbers of a budget by what the sheets of 0.2 called them, wherever they stand now. */
import type { HostValue } from "../../taskpane/hosts/host.js";
import type { OpenSheets, Records } from "./open-sheets.js";

export type Figures = ReadonlyMap<string, number>;

/** Label of 0.2 on Budget, and the one of today. */
const BALANCE = {
  "Supply voltage, open circuit": "Supply voltage, open circuit",
  "Supply power": "Supply power",
  "All loads": "All loads",
  "All losses, given off as heat": "All losses, given off as heat",
  "Loads and losses together": "Loads and losses together",
  "Efficiency, supply to loads": "Efficiency, supply to loads",
  "Closing error": "Closing error",
  "Mass of cables and stages": "Mass",
  "Cost of cables and stages": "Price",
} as const;

/** Columns of 0.2's results, of CHAIN_SOLVE today. */
const ITEM_BY_ITEM = {
  "Input (V)": "Input V",
  "Input (A)": "Input A",
  "Output (V)": "Output V",
  "Output (A)": "Output A",
  "Output (W)": "Output W",
  "Loss (W)": "Loss W",
  Loading: "Loading",
} as const;

const CASES = {
  "Supply power (W)": "Supply W",
  "All loads (W)": "Load W",
  "All losses (W)": "Loss W",
  Efficiency: "Efficiency",
  "Lowest margin": "Least margin",
} as const;

const LOSSES = "All losses, given off as heat";

const SOLVED = "Budget › Solved rows, as CHAIN_SOLVE gives them";
const WORST = "Cases › Worst case of every item, as CHAIN_WORST gives it";
const HEADROOM = "Cases › Headroom on the lowest supply, as CHAIN_HEADROOM gives it";

/** Of a load the feed table of 0.2 wrote the unit. */
const TABLE_HEADERS: Readonly<Record<string, string>> = {
  "Light load": "Light load (W)",
  Load: "Load (W)",
  "Peak load": "Peak load (W)",
};

export function figuresAsOf02(sheets: OpenSheets): Figures {
  const { spilled, places, beside } = sheets;
  const figures = new Map<string, number>();
  const put = (key: string, value: HostValue | undefined) => {
    if (typeof value === "number") figures.set(key, value);
  };
  for (const [old, label] of Object.entries(BALANCE))
    put(`Budget › Power balance › ${old} › Value`, beside("Budget", label));
  const table = spilled(places.table);
  const solved = spilled(places.solved);
  for (const row of solved) {
    const item = String(row["Item"]);
    for (const [old, heading] of Object.entries(ITEM_BY_ITEM))
      put(`Budget › Item by item › ${item} › ${old}`, row[heading]);
    for (const [heading, value] of Object.entries(row))
      put(`${SOLVED} › ${item} › ${heading}`, value);
  }
  putDrops(solved, table, put);
  put("Budget › Item by item › Total › Loss (W)", beside("Budget", LOSSES));
  put("Budget › Item by item › Total › Mass (kg)", beside("Budget", "Mass"));
  put("Budget › Item by item › Total › Cost (EUR)", beside("Budget", "Price"));
  for (const row of table) {
    const item = String(row["Item"]);
    put(`Budget › Item by item › ${item} › Mass (kg)`, row["Mass (kg)"]);
    put(`Budget › Item by item › ${item} › Cost (EUR)`, row["Price"]);
    for (const [heading, value] of Object.entries(row))
      put(
        `Budget › Feed table › ${item} · ${String(row["Kind"])} › ${TABLE_HEADERS[heading] ?? heading}`,
        value,
      );
  }
  for (const row of spilled(places.bands))
    for (const name of ["In service", "After one fault", "Limit"])
      put(`Bands › ${String(row["Item"])} › ${name} (V)`, row[`${name} V`]);
  for (const row of spilled(places.cases))
    for (const [old, heading] of Object.entries(CASES))
      put(`Cases › All nine operating points › ${String(row["Case"])} › ${old}`, row[heading]);
  for (const row of spilled(places.worst))
    for (const [heading, value] of Object.entries(row))
      put(`${WORST} › ${String(row["Item"])} › ${heading}`, value);
  putPeriods(sheets, put);
  const headroom = places.worst.row - 4;
  put(`${HEADROOM} › Times the loads at collapse`, sheets.workbook.value("Cases", `A${headroom}`));
  put(`${HEADROOM} › At the first limit`, sheets.workbook.value("Cases", `C${headroom}`));
  for (const row of spilled(places.checks))
    for (const column of ["Found", "Limit"])
      put(`Checks › ${String(row["Item"])} · ${String(row["Check"])} › ${column}`, row[column]);
  return figures;
}

/** 0.2 showed a drop for what is in line, and of a ratio stage its droop. */
function putDrops(
  solved: Records,
  table: Records,
  put: (key: string, value: HostValue | undefined) => void,
): void {
  solved.forEach((row, index) => {
    const { Ratio: ratio } = table[index] ?? {};
    const [input, output] = [row["Input V"], row["Output V"]];
    if (typeof input !== "number" || typeof output !== "number") return;
    const from = typeof ratio === "number" ? ratio * input : input;
    const item = String(row["Item"]);
    put(`Budget › Item by item › ${item} › Drop (V)`, from - output);
  });
}

/** What each item loses in a period stands in the period's own solved rows. */
function putPeriods(
  { spilled, places }: OpenSheets,
  put: (key: string, value: HostValue | undefined) => void,
): void {
  const { day } = places.sample;
  places.periods.forEach((period, index) => {
    const name = day!.periods[index]!.name;
    for (const row of spilled(period)) {
      const item = String(row["Item"]);
      for (const [heading, value] of Object.entries(row))
        put(`Day › Solved rows, ${name} › ${item} › ${heading}`, value);
      put(`Day › Where the heat is given off › ${item} › ${name} (W)`, row["Loss W"]);
    }
  });
}

/** Titles of answers that are two tables now, by their words of 0.2. */
export const RENAMED_ANSWERS: Readonly<Record<string, string>> = {
  "How two units share the solved load › Unit that carries most › Set (V)":
    "Two units as far apart as they may be › Unit that carries most › Set (V)",
  "How two units share the solved load › The other unit › Set (V)":
    "Two units as far apart as they may be › The other unit › Set (V)",
  "How two units share the solved load › Unit that carries most › Resistance (Ω)":
    "Two units as far apart as they may be › Unit that carries most › Resistance (Ω)",
  "How two units share the solved load › The other unit › Resistance (Ω)":
    "Two units as far apart as they may be › The other unit › Resistance (Ω)",
  "How two units share the solved load › Unit that carries most › Current (A)":
    "How they share the solved load › Current (A)",
  "How two units share the solved load › The other unit › Current (A)":
    "How they share the solved load › Current (A) (2)",
  "How two units share the solved load › Unit that carries most › Share":
    "How they share the solved load › Share",
  "How two units share the solved load › The other unit › Share":
    "How they share the solved load › Share (2)",
  ...Object.fromEntries(
    [
      ["Fixed (W)", "Fixed (W)"],
      ["Linear (V)", "Linear (W/A)"],
      ["Quadratic (Ω)", "Quadratic (W/A²)"],
      ["Misfit", "Misfit (part of 1)"],
    ].map(([before, now]) => [
      `Losses of the sonar's stage: entered, and fitted to its datasheet › Fitted › ${before}`,
      `Losses fitted to that datasheet › ${now}`,
    ]),
  ),
};
