/**
 * The highest voltage of every node in service and after one fault, its band, and what that means. Each row reads its
 * feeding row above it; the rule is the one of `safety/fault-path.ts`, and a test compares the two.
 */
import type { PlanCell, SheetPlan } from "../plans/sheet-plan.js";
import {
  at,
  call,
  firstOf,
  fixedAt,
  formulaCell,
  headingRow,
  valueCell,
  widthFor,
} from "../plans/sheet-builder.js";
import {
  BANDS_HEAD,
  type BandsColumn,
  bandsColumnAt,
  bandsColumns,
} from "./bands-layout.js";
import { feedColumnAt } from "./budget-columns.js";
import { type BudgetLayout, limitAt } from "./budget-layout.js";
import type { FeedColumn } from "./budget-scenario.js";
import { checkRules } from "./results-table.js";
import {
  inShownRow,
  shownItem,
  SOLVED_FOR_ROW,
  whenReady,
} from "./typed-feed.js";

const UNKNOWN = '"not determined"';

export function bandsSheet(layout: BudgetLayout, title: string): SheetPlan {
  const { items } = layout;
  return {
    key: "bands",
    name: "Bands",
    columnWidths: [widthFor(180, items), 420, ...columnWidths().slice(2)],
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
        "Highest voltage between poles at no load: supply at its highest, ratios and set points at the top of their tolerance. One fault at a time, of any stage on the path.",
        "label",
      ),
      formulaCell(0, 4, whenReady(layout, altitudeLine()), "label", {
        citation: "iec-60664-1-altitude",
      }),
      ...headingRow(
        0,
        BANDS_HEAD,
        bandsColumns.map(({ heading }) => heading),
      ),
      ...items.flatMap((_, index) =>
        rowCells(layout, BANDS_HEAD + 1 + index, layout.feedHead + 1 + index),
      ),
    ],
    merges: [],
    validations: [],
    conditionalFormats: checkRules(
      bandsColumnAt("check"),
      BANDS_HEAD + 1,
      BANDS_HEAD + items.length,
    ),
    pictures: [],
  };
}

const WIDE: Readonly<Partial<Record<BandsColumn, number>>> = {
  band: 560,
  bandAfterFault: 560,
};

function columnWidths(): number[] {
  return bandsColumns.map(
    ({ key, heading }) => WIDE[key] ?? widthFor(80, [heading]),
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
  return `IF(NOT(ISNUMBER(${altitude})),"◇ the altitude is not entered: larger clearances may be asked for",IF(${altitude}>${most},"▲ "&${words}"above "&${most}&" m clearances must be larger (IEC 60664-1 Table A.2)","✔ "&${words}"no larger clearances asked for up to "&${most}&" m"))`;
}

function rowCells(
  layout: BudgetLayout,
  line: number,
  feedLine: number,
): PlanCell[] {
  const formulas = rowFormulas(line, feedLine);
  const item = `$${at(bandsColumnAt("item"), line)}`;
  return bandsColumns.map((column, index) => {
    const format = "format" in column ? column.format : undefined;
    const formula = formulas[column.key];
    return formulaCell(
      index,
      line,
      column.key === "item"
        ? shownItem(layout, formula)
        : inShownRow(layout, item, formula),
      format === undefined ? "resultText" : "result",
      format === undefined ? {} : { format },
    );
  });
}

function rowFormulas(
  line: number,
  feedLine: number,
): Readonly<Record<BandsColumn, string>> {
  const own = (key: BandsColumn) => `$${at(bandsColumnAt(key), line)}`;
  const entered = (key: FeedColumn) =>
    `{budget}!$${at(feedColumnAt(key), feedLine)}`;
  const band = (voltage: BandsColumn) =>
    `IF(ISNUMBER(${own(voltage)}),${call("SAFETY_BAND", own(voltage), limit("framework"), limit("place"))},${UNKNOWN})`;
  const margin = (voltage: BandsColumn) =>
    `IF(AND(ISNUMBER(${own("limit")}),ISNUMBER(${own(voltage)})),${own("limit")}-${own(voltage)},"–")`;
  return {
    item: entered("item"),
    check: checkFormula(own),
    ...voltageFormulas(line, own, entered),
    limit: limit("bandLimit"),
    margin: margin("inService"),
    marginAfterFault: margin("afterFault"),
    isolation: isolationFormula(line, own, entered),
    band: band("inService"),
    bandAfterFault: band("afterFault"),
    fedByRow: `IF(${entered("kind")}="supply",0,IFERROR(MATCH(${entered("fedFrom")},${above(line, "item")},0),0))`,
  };
}

/** The column above a row, from the top of the sheet, so that a place in it is a row of the sheet; a row never reads itself. */
function above(line: number, key: BandsColumn): string {
  const column = bandsColumnAt(key);
  const first = at(column, 1).replace(/^([A-Z]+)/, "$$$1$$");
  return `${first}:$${at(column, line - 1)}`;
}

function voltageFormulas(
  line: number,
  own: (key: BandsColumn) => string,
  entered: (key: FeedColumn) => string,
): { readonly inService: string; readonly afterFault: string } {
  const fed = (key: BandsColumn) =>
    `INDEX(${above(line, key)},${own("fedByRow")})`;
  const worst = (input: string, ratio: string) =>
    call("SAFETY_WORST_VOLTAGE", input, ratio, entered("tolerance"));
  const is = (kind: string) => `${entered("kind")}="${kind}"`;
  const nothing = `${own("fedByRow")}=0`;
  const insulated = `${entered("isolation")}="reinforced"`;
  const through = `IF(${insulated},0,${fed("afterFault")})`;
  const known = `AND(ISNUMBER(${own("inService")}),N(${entered("trip")})>0,OR(${insulated},ISNUMBER(${fed("afterFault")})))`;
  return {
    inService: firstOf(
      [
        [
          is("supply"),
          `IF(N(${entered("highest")})>0,MAX(${entered("voltage")},${entered("highest")}),${UNKNOWN})`,
        ],
        [nothing, UNKNOWN],
        [
          is("ratio"),
          `IFERROR(${worst(fed("inService"), entered("ratio"))},${UNKNOWN})`,
        ],
        [
          is("regulated"),
          `IFERROR(${worst(entered("voltage"), "1")},${UNKNOWN})`,
        ],
      ],
      fed("inService"),
    ),
    afterFault: firstOf(
      [
        [is("supply"), own("inService")],
        [nothing, UNKNOWN],
        [
          is("ratio"),
          `IFERROR(MAX(${worst(fed("afterFault"), entered("ratio"))},${through}),${UNKNOWN})`,
        ],
        [
          is("regulated"),
          `IF(${known},MAX(${own("inService")},${entered("trip")},${through}),${UNKNOWN})`,
        ],
      ],
      fed("afterFault"),
    ),
  };
}

/** The strongest of the stages on the path; two basic ones do not make a reinforced one. */
function isolationFormula(
  line: number,
  own: (key: BandsColumn) => string,
  entered: (key: FeedColumn) => string,
): string {
  const feeding = `INDEX(${above(line, "isolation")},${own("fedByRow")})`;
  const isStage = `OR(${entered("kind")}="ratio",${entered("kind")}="regulated")`;
  const either = (isolation: string): readonly [string, string] => [
    `OR(${entered("isolation")}="${isolation}",${feeding}="${isolation}")`,
    `"${isolation}"`,
  ];
  return firstOf(
    [
      [`${entered("kind")}="supply"`, '"–"'],
      [`${own("fedByRow")}=0`, UNKNOWN],
      [`NOT(${isStage})`, feeding],
      either("reinforced"),
      either("basic"),
      either("functional"),
    ],
    '"none"',
  );
}

/** Of the bands' own words, so that inclusive and exclusive limits stay the framework's; `warnings/` reads the same. */
function checkFormula(own: (key: BandsColumn) => string): string {
  const within = (band: BandsColumn, line: "band" | "bandAbove") =>
    `LEFT(${own(band)},LEN(${limit(line)})+2)=${limit(line)}&" ·"`;
  const low = (band: BandsColumn) =>
    `OR(${within(band, "band")},${within(band, "bandAbove")})`;
  const unknown = (band: BandsColumn) => `LEFT(${own(band)},14)=${UNKNOWN}`;
  const place = `${limit("place")}`;
  const above = `"above "&${limit("bandLimit")}&" V "&${place}`;
  const volts = (key: BandsColumn) => `ROUND(${own(key)},1)&" V"`;
  return firstOf(
    [
      [unknown("band"), '"◇ not determined in service: treat as live"'],
      [
        `AND(${low("band")},NOT(${unknown("bandAfterFault")}),NOT(${low("bandAfterFault")}))`,
        `"✖ "&${volts("afterFault")}&" after one fault: reinforced isolation needed"`,
      ],
      [
        `NOT(${low("band")})`,
        `"▲ above "&${limit("bandAboveLimit")}&" V: enclosure and fault protection needed"`,
      ],
      [`NOT(${within("band", "band")})`, `"▲ "&${above}&": enclosure needed"`],
      [
        unknown("bandAfterFault"),
        '"◇ not determined after one fault: enter Tolerance and Trip V"',
      ],
      [
        `NOT(${within("bandAfterFault", "band")})`,
        `"▲ "&${volts("afterFault")}&" after one fault, "&${above}&": enclosure needed"`,
      ],
    ],
    `"✔ within "&${limit("bandLimit")}&" V "&${place}&", also after one fault"`,
  );
}
