/** The candidates that none beats as a sheet of values, with the job and the limits that they were searched for. */
import { headingRow, valueCell } from "../../src/plans/sheet-builder.js";
import type { PlanCell, WorkbookPlan } from "../../src/plans/sheet-plan.js";
import type { TradeRequest } from "../../src/tradeoffs/trade-request.js";
import type { TradeFindings } from "../../src/tradeoffs/trade-search.js";
import {
  tradeCandidate,
  type TradeCandidate,
  tradeSpace,
} from "../../src/tradeoffs/trade-space.js";
import type { FrontPoint } from "../../src/tradeoffs/pareto-front.js";

interface FrontColumn {
  readonly heading: string;
  readonly width: number;
  readonly format?: string;
  /** "" where the candidate has none. */
  readonly of: (candidate: TradeCandidate, point: FrontPoint) => string | number;
}

const COLUMNS: readonly FrontColumn[] = [
  {
    heading: "Distribution (V)",
    width: 240,
    format: "0.0",
    of: ({ supply }) => supply.voltage,
  },
  { heading: "Material", width: 110, of: ({ cable }) => cable.material },
  { heading: "Size", width: 90, of: ({ cable }) => cable.size },
  { heading: "Build", width: 110, of: ({ cable }) => cable.make.build },
  {
    heading: "First stage, to 1",
    width: 130,
    format: "0",
    of: ({ arrangement }) => arrangement[0] ?? "",
  },
  {
    heading: "Second stage, to 1",
    width: 150,
    format: "0",
    of: ({ arrangement }) => arrangement[1] ?? "",
  },
  {
    heading: "Units in parallel",
    width: 130,
    format: "0",
    of: ({ inParallel }) => inParallel,
  },
  {
    heading: "Loss (W)",
    width: 100,
    format: "0.00",
    of: (_, { loss }) => loss,
  },
  {
    heading: "Mass (kg)",
    width: 100,
    format: "0.00",
    of: (_, { mass }) => mass,
  },
  {
    heading: "Cost (money)",
    width: 120,
    format: "#,##0.00",
    of: (_, { cost }) => cost,
  },
];

const JOB_ROW = 4;
/** Shown as per cent, with no unit beside it. */
const SHARE = "";

export function frontPlan(
  request: TradeRequest,
  { front, judged, verdicts }: TradeFindings,
): WorkbookPlan {
  const space = tradeSpace(request);
  const title = "Trade-off: candidates that none beats";
  const job = jobLines(request);
  const head = JOB_ROW + job.length + 2;
  const cells: PlanCell[] = [
    valueCell(0, 1, title, "title"),
    valueCell(
      0,
      2,
      `${verdicts.kept} of ${judged} candidates keep every limit; these ${front.length} are Pareto-optimal in loss, mass and cost.`,
      "subtitle",
    ),
    valueCell(0, JOB_ROW, "Searched for", "heading"),
    ...job.flatMap(([label, value, unit], index) => {
      const row = JOB_ROW + 1 + index;
      return [
        valueCell(0, row, label, "label"),
        valueCell(1, row, value, "result", {
          format: unit === SHARE ? "0.0%" : "General",
        }),
        ...(unit === SHARE ? [] : [valueCell(2, row, unit, "unit")]),
      ];
    }),
    ...headingRow(
      0,
      head,
      COLUMNS.map(({ heading }) => heading),
    ),
    ...front.flatMap((point, index) =>
      rowCells(head + 1 + index, tradeCandidate(space, point.index), point),
    ),
  ];
  return {
    id: "trade-off-front",
    title,
    stem: "Front",
    names: [],
    sheets: [
      {
        key: "front",
        name: "Trade-off",
        columnWidths: COLUMNS.map(({ width }) => width),
        frozenRows: 0,
        cells,
        merges: [],
        validations: [],
        conditionalFormats: [],
        pictures: [],
      },
    ],
  };
}

function rowCells(row: number, candidate: TradeCandidate, point: FrontPoint): PlanCell[] {
  return COLUMNS.flatMap(({ of, format }, column) => {
    const value = of(candidate, point);
    if (value === "") return [];
    return [
      typeof value === "number"
        ? valueCell(column, row, value, "result", format ? { format } : {})
        : valueCell(column, row, value, "resultText"),
    ];
  });
}

/** What was asked; a limit that was not given is left out. */
function jobLines({
  load,
  length,
  converter,
  limits,
}: TradeRequest): readonly (readonly [string, number, string])[] {
  const limit = (
    label: string,
    value: number | undefined,
    inUnit: string,
  ): (readonly [string, number, string])[] => (value === undefined ? [] : [[label, value, inUnit]]);
  return [
    ["Light load", load.light, "W"],
    ["Nominal load", load.nominal, "W"],
    ["Peak load", load.peak, "W"],
    ["Load, lowest", load.lowestVoltage, "V"],
    ["Load, highest", load.highestVoltage, "V"],
    ["Route, one way", length, "m"],
    ["Rating of one unit", converter.ratedPower, "W"],
    ...limit("Load side, no load, at most", limits.loadBand, "V"),
    ...limit("Distribution at most", limits.distributionBand, "V"),
    ...limit("Drop of the cable at peak, at most", limits.drop, SHARE),
    ...limit("Mass at most", limits.mass, "kg"),
    ...limit("Cost at most", limits.cost, "money"),
  ];
}
