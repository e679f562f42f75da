/** The columns of a budget's tables, and where they stand. */
import type { FeedColumn, ResultColumn } from "./budget-scenario.js";

export interface TableColumn<Key> {
  readonly key: Key;
  readonly heading: string;
  /** Not there for words. */
  readonly format?: string;
}

/** Headings as CHAIN_SOLVE reads them; what stands in brackets is for people. */
export const feedColumns: readonly TableColumn<FeedColumn>[] = [
  { key: "item", heading: "Item" },
  { key: "fedFrom", heading: "Fed from" },
  { key: "kind", heading: "Kind" },
  { key: "voltage", heading: "Voltage (V)", format: "0.0" },
  { key: "resistance", heading: "Resistance (Ω)", format: "0.0000" },
  { key: "ratio", heading: "Ratio", format: "0.0000" },
  { key: "fixedLoss", heading: "Fixed loss (W)", format: "0.0" },
  { key: "linearLoss", heading: "Linear loss (W/A)", format: "0.00" },
  { key: "quadraticLoss", heading: "Quadratic loss (W/A²)", format: "0.0000" },
  { key: "efficiency", heading: "Efficiency", format: "0.0%" },
  { key: "lightLoad", heading: "Light load (W)", format: "0.0" },
  { key: "load", heading: "Load (W)", format: "0.0" },
  { key: "peakLoad", heading: "Peak load (W)", format: "0.0" },
  { key: "inParallel", heading: "In parallel", format: "0" },
  { key: "lowest", heading: "Lowest V", format: "0.00" },
  { key: "highest", heading: "Highest V", format: "0.00" },
  { key: "rated", heading: "Rated A", format: "0.0" },
  { key: "tolerance", heading: "Tolerance", format: "0.0%" },
  { key: "isolation", heading: "Isolation" },
  { key: "trip", heading: "Trip V", format: "0.0" },
  { key: "rippleRms", heading: "Ripple V rms", format: "0.000" },
  { key: "ripplePeak", heading: "Ripple V peak", format: "0.000" },
];

export type TypedColumn =
  FeedColumn | "lightBefore" | "loadBefore" | "peakBefore" | "mass" | "cost";

const BEFORE = {
  lightLoad: { key: "lightBefore", heading: "Light load before margin" },
  load: { key: "loadBefore", heading: "Load before margin" },
  peakLoad: { key: "peakBefore", heading: "Peak load before margin" },
} as const;
/** Of a power, current or resistance load. */
const LOAD_UNITS = "(W, A, Ω)";

function isLoad(key: FeedColumn): key is keyof typeof BEFORE {
  return key in BEFORE;
}

/** Of a feed table that is typed: the loads without their margin, what the solver reads of them, then mass and cost. */
export const typedColumns: readonly (TableColumn<TypedColumn> & {
  /** The column that this one is worked out from. */
  readonly before?: TypedColumn;
})[] = [
  ...feedColumns.map((column) => {
    if (!isLoad(column.key)) return column;
    const { key, heading } = BEFORE[column.key];
    return { key, heading: `${heading} ${LOAD_UNITS}`, format: "0.0" };
  }),
  ...feedColumns.flatMap(({ key, heading }) =>
    isLoad(key)
      ? [
          {
            key,
            heading: heading.replace("(W)", LOAD_UNITS),
            format: "0.0",
            before: BEFORE[key].key,
          },
        ]
      : [],
  ),
  { key: "mass", heading: "Mass (kg)", format: "0.0" },
  { key: "cost", heading: "Cost", format: "#,##0" },
];

/** Check takes two columns, so that its words stand whole. */
export const resultColumns: readonly (TableColumn<ResultColumn> & {
  readonly column: number;
})[] = [
  { key: "item", heading: "Item", column: 0 },
  { key: "check", heading: "Check", column: 1 },
  { key: "inputVoltage", heading: "Input (V)", column: 3, format: "0.00" },
  { key: "inputCurrent", heading: "Input (A)", column: 4, format: "0.00" },
  { key: "outputVoltage", heading: "Output (V)", column: 5, format: "0.00" },
  { key: "outputCurrent", heading: "Output (A)", column: 6, format: "0.00" },
  { key: "outputPower", heading: "Output (W)", column: 7, format: "0.0" },
  { key: "loss", heading: "Loss (W)", column: 8, format: "0.0" },
  { key: "drop", heading: "Drop (V)", column: 9, format: "0.00" },
  { key: "dropShare", heading: "Drop share", column: 10, format: "0.0%" },
  { key: "loading", heading: "Loading", column: 11, format: "0%" },
  { key: "mass", heading: "Mass (kg)", column: 12, format: "0.0" },
  { key: "cost", heading: "Cost", column: 13, format: "#,##0" },
];

/** As CHAIN_SOLVE spills them. */
export const solvedColumns = [
  { heading: "Item" },
  { heading: "Input V", format: "0.00" },
  { heading: "Input A", format: "0.00" },
  { heading: "Input W", format: "0.0" },
  { heading: "Output V", format: "0.00" },
  { heading: "Output A", format: "0.00" },
  { heading: "Output W", format: "0.0" },
  { heading: "Loss W", format: "0.0" },
  { heading: "Efficiency", format: "0.0%" },
  { heading: "Share of losses", format: "0.0%" },
  { heading: "Loading", format: "0%" },
  { heading: "Note" },
] as const satisfies readonly {
  readonly heading: string;
  readonly format?: string;
}[];

export type SolvedHeading = (typeof solvedColumns)[number]["heading"];

export function feedColumnAt(key: FeedColumn): number {
  return feedColumns.findIndex((column) => column.key === key);
}

export function typedColumnAt(key: TypedColumn): number {
  return typedColumns.findIndex((column) => column.key === key);
}

export function resultColumnAt(key: ResultColumn): number {
  return resultColumns.find((column) => column.key === key)?.column ?? -1;
}

export function solvedColumnAt(heading: SolvedHeading): number {
  return solvedColumns.findIndex((column) => column.heading === heading);
}
