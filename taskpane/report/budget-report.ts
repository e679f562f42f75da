/** The report of a budget: one page that prints to PDF, with everything that a reviewer asks for first. */
import { ENGINE_VERSION } from "../../functions/downfeed.js";
import { heading, list, paragraph, table, text } from "../../functions/documents/markup.js";
import type { CopiedSheet } from "../../functions/working/copy/copied-sheet.js";
import { workingOf } from "../../functions/working/text/working-of.js";

import { BLOCK_AREAS } from "../budgets/names.js";
import { areaRows, textOf } from "../budgets/reading/area-table.js";
import { CAUTIONS } from "../budgets/cautions.js";
import type { FoundBudget, ReadArea, ReadValue } from "../budgets/reading/found-budget.js";
import {
  findingLine,
  type JudgedWarning,
  judgedWarnings,
} from "../budgets/warnings/acceptances.js";
import type { Warning } from "../budgets/warnings/warning.js";
import { warningsOf } from "../budgets/warnings/warnings.js";

import { readForCopy } from "../workbook/budget-copying.js";
import { readWorking } from "../formula-reading/read-working.js";
import type { Area, Host } from "../hosts/host.js";
import { feedItems } from "../budgets/reading/feed-figures.js";
import { drawingPart } from "../pictures/parts/drawing.js";
import { SHEET_PALETTE } from "../pictures/parts/palettes.js";
import { svgText } from "../pictures/parts/svg-parts.js";
import { singleLine } from "../pictures/single-line.js";
import { words } from "../words/words.js";
import { REPORT_STYLE } from "./report-style.js";

/** HTML as text. @param workings Cells whose working is shown. */
export async function budgetReport(
  host: Host,
  budget: FoundBudget,
  workings: readonly Area[],
): Promise<string> {
  const { title, sheets } = await readForCopy(host, budget);
  const { areas, stem } = budget;
  const warnings = warningsOf(budget);
  const steps = await workingSections(host, workings);
  const body = [
    `<h1>${text(title)}</h1>`,
    paragraph(
      `Budget ${stem}, reported ${new Date().toLocaleDateString(undefined, { dateStyle: "long" })} by Downfeed ${ENGINE_VERSION}.`,
    ),
    heading(2, "Single-line diagram"),
    diagram(budget),
    heading(2, "Warnings"),
    warningList(judgedWarnings(warnings, budget)),
    ...areaSection("Feed solved", areas["Solved"]),
    ...areaSection("Bands", areas["Bands"]),
    ...areaSection("Checks", areas["Checks"]),
    ...areaSection("Balance", areas["Balance"]),
    heading(2, "What the figures of every row rest on"),
    basisTable(areas),
    ...sheets.flatMap(assumptions),
    ...steps,
    heading(2, "Citations"),
    list(citationsOf(warnings)),
    heading(2, "Cautions"),
    list(CAUTIONS),
    heading(2, "Versions"),
    list(versions(areas["About"])),
  ];
  return page(title, body.join("\n"));
}

const DIAGRAM_WIDTH = 640;

function diagram(budget: FoundBudget): string {
  const picture = singleLine(feedItems(budget));
  if (!picture) return paragraph("No items are typed yet.");
  const surface = { width: DIAGRAM_WIDTH, palette: SHEET_PALETTE, stem: "report" };
  return svgText(drawingPart(picture, surface));
}

function page(title: string, body: string): string {
  return `<!doctype html>
<html lang="en"><head><meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">
<title>${text(title)}</title><style>${REPORT_STYLE}</style></head>
<body>${body}</body></html>`;
}

const { severity: named, symbol: marked, because, lapsed } = words.warnings;

/** A row for each item. */
function warningList(warnings: readonly JudgedWarning[]): string {
  if (warnings.length === 0) return paragraph("None: every check that is asked for holds.");
  return table(
    "What fails, is not determined, or is worth a look",
    ["", "Check", "Item", "Finding", "What to enter or try", "Accepted"],
    warnings.flatMap(({ warning, findings, ...whole }) =>
      findings.map(({ finding, ...own }) => {
        const { acceptance, holds } = whole.acceptance ? whole : own;
        return [
          `${marked[warning.severity]} ${named[warning.severity]}`,
          warning.check,
          finding.item,
          findingLine({ ...finding, item: "" }),
          finding.remedy,
          acceptance === undefined
            ? "open"
            : (holds ? because : lapsed)(acceptance.reason, acceptance.accepted),
        ];
      }),
    ),
  );
}

function areaSection(title: string, area: ReadArea | undefined): string[] {
  if (!area) return [];
  const [head = [], ...rows] = area.values;
  const filled = rows.filter((row) => row.some((cell) => shown(cell) !== ""));
  return [
    heading(2, title),
    table(
      `${area.sheet}!${area.address}`,
      head.map(shown),
      filled.map((row) => row.map(shown)),
    ),
  ];
}

/** Of every row of every schedule; one without a basis says so. */
function basisTable(areas: FoundBudget["areas"]): string {
  const rows = Object.entries(BLOCK_AREAS).flatMap(([block, part]) => {
    const area = areas[part];
    return (area ? areaRows(area) : [])
      .filter(({ has }) => has("Basis"))
      .map((row) => [block, row.item, textOf(row.value("Basis")) || "not given"]);
  });
  return rows.length === 0
    ? paragraph("No schedule has a row.")
    : table("Basis of every row of the schedules", ["Schedule", "Row", "Basis"], rows);
}

/** The sheets on which nothing is calculated by a function: inputs and notes. */
function assumptions({ name, values, formulas }: CopiedSheet): string[] {
  const calculates = formulas.flat().some((formula) => /FEED/i.test(formula));
  if (calculates) return [];
  const rows = values.filter((row) => row.some((cell) => shown(cell) !== ""));
  return rows.length === 0
    ? []
    : [
        heading(2, name),
        table(
          name,
          [],
          rows.map((row) => row.map(shown)),
        ),
      ];
}

function shown(value: ReadValue | undefined): string {
  if (typeof value === "number")
    return new Intl.NumberFormat(undefined, {
      maximumSignificantDigits: 5,
    }).format(value);
  if (typeof value === "object") return value.error;
  return textOf(value);
}

async function workingSections(host: Host, cells: readonly Area[]): Promise<string[]> {
  const sections: string[] = [];
  for (const cell of cells) {
    const read = await readWorking(host, cell);
    if (!read) continue;
    const { tree, row } = read;
    sections.push(heading(2, `Working of ${cell.sheet}!${cell.address}`));
    for (const { text: call, blocks, notes } of workingOf(tree, { row })) {
      sections.push(heading(3, call), list(notes));
      for (const { title, rows } of blocks)
        sections.push(
          table(
            title,
            ["Quantity", "Formula", "In numbers", "Value", "From"],
            rows.map((row) => [
              `${row.label}${row.symbol === "" ? "" : `, ${row.symbol}`}`,
              row.kind === "solved" ? `${row.inSymbols} = 0` : row.inSymbols,
              row.kind === "solved" ? `leaves ${String(row.residual ?? 0)}` : row.inNumbers,
              `${shown(row.value)} ${row.unit === "1" ? "" : row.unit}`.trim(),
              [row.citation, row.origin].filter((one) => one !== "").join("; "),
            ]),
          ),
        );
    }
  }
  return sections;
}

function citationsOf(warnings: readonly Warning[]): string[] {
  const lines = warnings.flatMap(({ citation }) => (citation === "" ? [] : [citation]));
  return lines.length === 0
    ? ["Named beside each figure on the budget's sheets."]
    : [...new Set(lines)];
}

function versions(about: ReadArea | undefined): string[] {
  const [plan = "", version = "", engine = ""] = (about?.values[0] ?? []).map(shown);
  return [
    `Budget ${plan}, version ${version}, inserted with Downfeed ${engine}.`,
    `Calculated and reported with Downfeed ${ENGINE_VERSION}.`,
  ];
}
