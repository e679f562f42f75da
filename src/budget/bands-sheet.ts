/** The highest voltage of every item in service and after one fault, and its band: the spill of CHAIN_BANDS. */
import type { PlanCell, PlanRule, SheetPlan } from "../plans/sheet-plan.js";
import {
  area,
  at,
  bareCell,
  call,
  fixedArea,
  fixedAt,
  formulaCell,
  headingRow,
  valueCell,
  widthFor,
} from "../plans/sheet-builder.js";
import {
  BANDS_ASKED_ROWS,
  BANDS_HEAD,
  type BandsHeading,
  bandsAskedAt,
  bandsColumnAt,
  bandsColumns,
  lastBandsRow,
} from "./bands-layout.js";
import { type BudgetLayout, feedArea, limitAt } from "./budget-layout.js";
import { SOLVED_FOR_ROW, whenReady } from "./typed-feed.js";

export function bandsSheet(layout: BudgetLayout, title: string): SheetPlan {
  const { items } = layout;
  return {
    key: "bands",
    name: "Bands",
    columnWidths: [widthFor(210, items), ...columnWidths().slice(1)],
    frozenRows: BANDS_HEAD,
    cells: [
      valueCell(0, 1, `${title}: voltage bands`, "title"),
      formulaCell(
        0,
        2,
        whenReady(
          layout,
          heldAgainst(),
          `{budget}!${fixedAt(0, SOLVED_FOR_ROW)}`,
        ),
        "subtitle",
      ),
      valueCell(
        0,
        3,
        "Highest voltage between poles at no load: supply at its highest, ratios and set points at the top of their tolerance. One fault at a time, of any stage of the feed.",
        "label",
      ),
      formulaCell(0, 4, whenReady(layout, altitudeLine()), "label", {
        citation: "iec-60664-1-altitude",
      }),
      ...askedCells(layout),
      valueCell(
        0,
        BANDS_HEAD - 1,
        "Bands of every item, as CHAIN_BANDS gives them",
        "heading",
      ),
      ...spillCells(layout),
    ],
    merges: [],
    validations: [],
    conditionalFormats: bandRules(BANDS_HEAD + 1, lastBandsRow(items.length)),
    pictures: [],
  };
}

const WIDE: Readonly<Partial<Record<BandsHeading, number>>> = {
  "Which fault": 310,
  Note: 700,
};

/** Bold letters are wider, and the heading of a spill has one line. */
const BOLD = 1.2;

function columnWidths(): number[] {
  return bandsColumns.map(
    ({ heading }) => WIDE[heading] ?? Math.ceil(BOLD * widthFor(80, [heading])),
  );
}

function limit(line: Parameters<typeof limitAt>[0]): string {
  return `{budget}!${limitAt(line)}`;
}

function heldAgainst(): string {
  const upTo = `IF(ISNUMBER(${limit("bandLimit")}),"up to "&${limit("bandLimit")}&" V dc","which has no limit for "&${limit("place")})`;
  return `"Held against "&${limit("framework")}&", "&${limit("place")}&": band "&${limit("band")}&", "&${upTo}&". A screening aid: it approves nothing."`;
}

/** Air insulates less where it is thin. */
function altitudeLine(): string {
  const [altitude, most] = [limit("altitude"), limit("altitudeLimit")];
  const words = `${altitude}&" m up: "&`;
  return `IF(NOT(ISNUMBER(${altitude})),"◇ the altitude is not entered: larger clearances may be asked for",IF(${altitude}>${most},"▲ "&${words}"above "&${most}&" m clearances must be larger (IEC 60664-1)","✔ "&${words}"no larger clearances asked for up to "&${most}&" m"))`;
}

function askedCells(layout: BudgetLayout): PlanCell[] {
  const { heading, ...lines } = BANDS_ASKED_ROWS;
  const labels = {
    framework: "Framework",
    place: "Place",
    band: "Band asked for",
    bandAbove: "Band above it",
  } as const;
  return [
    ...headingRow(0, heading, ["Asked for", "Value"]),
    ...(Object.keys(lines) as (keyof typeof lines)[]).flatMap((line) => [
      valueCell(0, lines[line], labels[line], "label"),
      formulaCell(1, lines[line], whenReady(layout, limit(line)), "resultText"),
    ]),
  ];
}

/** The one call that judges the feed. Cells below stay free for more items. */
function spillCells(layout: BudgetLayout): PlanCell[] {
  const { items, typed } = layout;
  const { framework, place } = BANDS_ASKED_ROWS;
  const judge = call(
    "CHAIN_BANDS",
    `{budget}!${feedArea(layout)}`,
    fixedArea(0, framework, 1, place),
  );
  const anchor = formulaCell(
    0,
    BANDS_HEAD,
    whenReady(layout, judge),
    typed ? "label" : "tableHeading",
  );
  const spill = typed
    ? ([1, 1] as const)
    : ([items.length + 1, bandsColumns.length] as const);
  return [
    { ...anchor, spill },
    ...bandsColumns
      .slice(1)
      .map((_, index) => bareCell(index + 1, BANDS_HEAD, "tableHeading")),
    ...items.flatMap((_, index) =>
      bandsColumns.map((column, number) => {
        const line = BANDS_HEAD + 1 + index;
        return "format" in column
          ? bareCell(number, line, "result", { format: column.format })
          : bareCell(number, line, "resultText");
      }),
    ),
  ];
}

/** A row lifted out of the lower bands by a fault stands out from one that is above the band asked for. */
function bandRules(first: number, last: number): PlanRule[] {
  const [asked, above] = [bandsAskedAt("band"), bandsAskedAt("bandAbove")];
  const column = (heading: BandsHeading) => bandsColumnAt(heading);
  const cell = (heading: BandsHeading) => `$${at(column(heading), first)}`;
  const service = cell("Band in service");
  const fault = cell("Band after one fault");
  const low = (band: string) => `OR(${band}=${asked},${band}=${above})`;
  const beyond = (band: string) => `AND(${band}<>"",${band}<>${asked})`;
  const within = (band: string) => `AND(${band}<>"",${band}=${asked})`;
  const lifted = `AND(${low(service)},NOT(${low(fault)}),${fault}<>"",${fault}<>"not determined")`;
  const rules = [
    ["Band in service", beyond(service), "warning"],
    ["Band in service", within(service), "good"],
    ["Band after one fault", lifted, "danger"],
    ["Band after one fault", `AND(${beyond(fault)},NOT(${lifted}))`, "warning"],
    ["Band after one fault", within(fault), "good"],
  ] as const;
  return rules.map(([heading, formula, paint]) => ({
    area: area(column(heading), first, column(heading), last),
    formula,
    paint,
  }));
}
