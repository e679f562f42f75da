/** The feed on one page: its power, the worst of every question, where the losses are, how many checks hold. */
import { type CheckName, type Verdict, VERDICTS } from "../../../src/judgement/check-row.js";
import { caseText } from "../../../src/network/feed-cases.js";
import type { FeedKind } from "../../../src/network/feed-item.js";
import { rangePlace } from "../../../src/plans/addresses.js";
import { EVERYWHERE } from "../../../src/schedules/columns.js";
import {
  type RangeRow,
  rangeRows,
  numberOf,
  sameItem,
  textOf,
} from "../../budgets/reading/range-table.js";
import { caseRows, greatest } from "../../budgets/reading/case-rows.js";
import type { ReadRange } from "../../budgets/reading/found-budget.js";
import { headingFormat } from "../../budgets/formats.js";
import { type JudgedWarning } from "../../budgets/warnings/acceptances.js";
import {
  heading,
  numberText,
  paragraph,
  type ReportBlock,
  type ReportCell,
  table,
  withoutEmptyColumns,
  words,
} from "./blocks.js";
import { shownRange, shownCell, type ReportSource } from "./report-source.js";

/** In the order in which a reviewer asks. */
const ASKED_FIRST: readonly CheckName[] = [
  "Operating point",
  "Headroom to collapse",
  "Spare capacity",
  "Loading",
  "Drop",
  "Drop of a voltage level",
  "Input above lowest",
  "Input below highest",
  "Band in service",
  "Band after one fault",
];

export function summary(
  source: ReportSource,
  judged: readonly JudgedWarning[],
): readonly ReportBlock[] {
  const { ranges } = source.budget;
  return [
    heading("Summary"),
    counts(ranges["Checks"], judged),
    ...power(source),
    ...worst(ranges["Checks"]),
    ...lossByLocation(ranges["Feed"], ranges["Solved"]),
    ...balance(source),
  ];
}

/** Counts the verdicts of Checks, and the warnings that stand accepted. */
function counts(checks: ReadRange | undefined, judged: readonly JudgedWarning[]): ReportBlock {
  if (!checks) return paragraph("The budget has no sheet of checks: nothing is judged.");
  const rows = rangeRows(checks);
  const accepted = judged.flatMap(({ holds, findings }) =>
    findings.filter((finding) => holds || finding.holds),
  );
  const count = (shown: number): ReportCell => shownCell(shown, "0");
  return table({
    caption: "Checks",
    head: [...VERDICTS, "accepted with a reason"],
    rows: [
      [
        ...VERDICTS.map((verdict) =>
          count(rows.filter((row) => textOf(row.value("Verdict")) === verdict).length),
        ),
        count(accepted.length),
      ],
    ],
  });
}

/** Supply windows, and every case of the feed with the loads that it is solved for. */
function power(source: ReportSource): readonly ReportBlock[] {
  const { ranges } = source.budget;
  const figure = (row: RangeRow, column: string) =>
    shownCell(row.value(column), headingFormat(column));
  const supplies = ranges["Supplies"] ? rangeRows(ranges["Supplies"]) : [];
  const windows = supplies.map((row) => [
    words(row.item),
    ...["Lowest V", "Voltage", "Highest V", "Rated A", "Rated W"].map((column) =>
      shownCell(row.value(column), headingFormat(column) ?? "0.00"),
    ),
  ]);
  const cases = ranges["Cases"] ? caseRows(ranges["Cases"]) : [];
  const unsolved = cases.filter((row) => numberOf(row.value("Supply W")) === undefined);
  const { Feed: feed, Checks: checks } = ranges;
  const normal = cases.find(({ item }) => item === NORMAL);
  const most = greatest(cases, "Supply W");
  const installed = greatest(cases, "Load W");
  const loaded = cases.filter((row) => (numberOf(row.value("Load W")) ?? 0) > 0);
  const least = greatest(loaded, "Efficiency", -1);
  const line = (label: string, row: RangeRow | undefined, column: string) =>
    row ? [words(label), figure(row, column), words(row.item)] : [];
  const lines = [
    ...(feed ? [installedPower(feed)] : []),
    line("Loads as usual, with their margin, W", normal, "Load W"),
    line("Loads at the most, with their margin, W", installed, "Load W"),
    line("Supply power at the most, W", most, "Supply W"),
    line("Losses in that case, W", most, "Loss W"),
    line("Efficiency at the least, with a load", least, "Efficiency"),
    ...(checks ? supplies.flatMap(({ item }) => spare(item, checks)) : []),
  ].filter((row) => row.length > 0);
  return [
    table(
      withoutEmptyColumns({
        caption: "Supply",
        head: ["Supply", "Lowest V", "Nominal V", "Highest V", "Rated A", "Rated W"],
        rows: windows,
      }),
    ),
    lines.length === 0
      ? paragraph("The feed has no operating point yet: its power is not known.")
      : table({ caption: "Power", head: ["Figure", "Value", "Case"], rows: lines }),
    // The greatest of what is left would pass for the greatest of all.
    ...(lines.length === 0 || unsolved.length === 0
      ? []
      : [
          paragraph(
            `Not solved, and not among these: ${unsolved.map(({ item }) => item).join("; ")}.`,
          ),
        ]),
  ];
}

const NORMAL = caseText({ supply: "nominal", loads: "nominal" });

/** The highest of every load that is given in watts, each with its quantity. */
function installedPower(feed: ReadRange): ReportCell[] {
  const loads = rangeRows(feed).filter((row) => / load$/.test(textOf(row.value("Kind"))));
  const watts = loads.flatMap((row) => {
    const [nominal, peak, margin] = ["Load", "Peak load", "Margin"].map(
      (column) => numberOf(row.value(column)) ?? 0,
    );
    const isWatts = textOf(row.value("Kind")) === POWER_LOAD && nominal! + peak! > 0;
    return isWatts ? [Math.max(nominal!, peak!) / (1 + margin!)] : [];
  });
  if (watts.length === 0) return [];
  const others = loads.length - watts.length;
  return [
    words("Installed, of the loads given in watts, without margin, W"),
    shownCell(
      watts.reduce((sum, one) => sum + one, 0),
      headingFormat("Load W"),
    ),
    words(others === 0 ? "all loads" : `${watts.length} of ${loads.length} loads`),
  ];
}

const POWER_LOAD: FeedKind = "power load";

/** What is left of a supply's rating where its loading is worst. */
function spare(supply: string, checks: ReadRange): ReportCell[][] {
  const loading = rangeRows(checks).find(
    (row) => row.item === supply && textOf(row.value("Check")) === "Loading",
  );
  const part = loading && numberOf(loading.value("Found"));
  if (part === undefined) return [];
  return [
    [
      words(`Spare of ${supply}, ${textOf(loading?.value("Unit"))}`),
      shownCell(1 - part, headingFormat("Loading")),
      shownCell(loading?.value("Worst in")),
    ],
  ];
}

function balance(source: ReportSource): readonly ReportBlock[] {
  const range = source.budget.ranges["Balance"];
  if (!range) return [];
  const [, ...rows] = shownRange(source, range);
  const content = table({
    caption: `Balance of ${range.sheet}: ${solvedFor(source, range)}`,
    head: ["Figure", "Value", "Unit"],
    // Checks are counted above, of all cases.
    rows: rows.filter(([label]) => !/^Checks /.test(label?.text ?? "")),
  });
  return [content];
}

/** What the sheet itself says above the balance: which loads and supply voltage. */
function solvedFor({ sheets }: ReportSource, { sheet, address }: ReadRange): string {
  const { top } = rangePlace(address);
  const above = sheets.find(({ name }) => name === sheet)?.values[top - 1] ?? [];
  return textOf(above[0]) || "as its sheet is solved";
}

/** For each check the row of least margin, a failed one first, and one not determined, which no margin may hide. */
function worst(checks: ReadRange | undefined): readonly ReportBlock[] {
  if (!checks) return [];
  const all = rangeRows(checks);
  const lines = ASKED_FIRST.flatMap((check) => {
    const rows = all.filter((row) => textOf(row.value("Check")) === check);
    const of = (verdict: Verdict) => rows.filter((row) => textOf(row.value("Verdict")) === verdict);
    const judged = of("fails").length > 0 ? of("fails") : of("holds");
    const shown = [greatest(judged, "Margin", -1) ?? judged[0], of("not determined")[0]];
    const told = shown.filter((row) => row !== undefined);
    return (told.length > 0 ? told : rows.slice(0, 1)).map(line);
  });
  const head = ["Check", "Item", "Verdict", "Found", "Limit", "Margin", "Case"];
  return [table({ caption: "Worst of each check, in all cases", head, rows: lines })];
}

function line(row: RangeRow): ReportCell[] {
  const said = (column: string) => shownCell(row.value(column), headingFormat(column));
  const [found, asked, limit, unit] = ["Found", "Asked", "Limit", "Unit"].map(said);
  return [
    said("Check"),
    words(row.item),
    said("Verdict"),
    found!.isNumber ? numberText(`${found!.text} ${unit!.text}`.trim()) : found!,
    limit!.isNumber ? numberText(`${asked!.text} ${limit!.text}`) : limit!,
    said("Margin"),
    said("Worst in"),
  ];
}

/** As the sheet Budget is solved. What lies in several locations is a line of its own, so that the sum is that of all. */
function lossByLocation(
  feed: ReadRange | undefined,
  solved: ReadRange | undefined,
): readonly ReportBlock[] {
  if (!feed || !solved) return [];
  const items = rangeRows(feed);
  const losses = new Map<string, number>();
  let without = 0;
  for (const row of rangeRows(solved)) {
    const watts = numberOf(row.value("Loss W"));
    if (watts === undefined) {
      without += 1;
      continue;
    }
    const own = items.find(({ item }) => sameItem(item, row.item));
    const location = textOf(own?.value("Location")) || EVERYWHERE;
    losses.set(location, (losses.get(location) ?? 0) + watts);
  }
  if (losses.size === 0) return [];
  const sum = [...losses.values()].reduce((one, other) => one + other, 0);
  const content = table({
    caption: `Losses by location, as ${solved.sheet} is solved${without === 0 ? "" : `; items that are not solved, in no sum: ${without}`}`,
    head: ["Location", "Loss W"],
    rows: [...losses, ["Total", sum] as const].map(([location, watts]) => [
      words(location),
      shownCell(watts, headingFormat("Loss W")),
    ]),
  });
  return [content];
}
