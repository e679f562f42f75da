/** Chosen cells with every step of their working. */
import { heading, list } from "../../functions/documents/markup.js";
import { workingOf, type WorkingRow } from "../../functions/working/text/working-of.js";
import { readWorking } from "../formula-reading/read-working.js";
import type { Area, Host } from "../hosts/host.js";
import { formulaNumber, shownNumber } from "../words/shown-numbers.js";
import type { References } from "./references.js";
import { LANDSCAPE, phrase, type ReportCell, reportTable, words } from "./report-table.js";

export async function workings(
  host: Host,
  cells: readonly Area[],
  references: References,
): Promise<string> {
  const sections: string[] = [];
  for (const cell of cells) {
    const read = await readWorking(host, cell);
    if (!read) continue;
    const { tree, row } = read;
    sections.push(heading(2, `Working of ${cell.sheet}!${cell.address}`));
    for (const call of workingOf(tree, { row, number: formulaNumber })) {
      sections.push(`<h3>${phrase(call.text)}</h3>`, list(call.notes));
      for (const { title, rows } of call.blocks)
        sections.push(
          reportTable({
            caption: title,
            head: ["Quantity", "Formula", "In numbers", "Value", "From"],
            rows: rows.map((each) => workingCells(each, references)),
            room: LANDSCAPE,
          }),
        );
    }
  }
  return sections.join("\n");
}

function workingCells(row: WorkingRow, references: References): ReportCell[] {
  const { value, unit } = row;
  return [
    words(`${row.label}${row.symbol === "" ? "" : `, ${row.symbol}`}`),
    words(row.kind === "solved" ? `${row.inSymbols} = 0` : row.inSymbols),
    words(
      row.kind === "solved" ? `leaves ${shownNumber(row.residual ?? 0, "").text}` : row.inNumbers,
    ),
    typeof value === "number"
      ? { text: `${formulaNumber(value)} ${unit === "1" ? "" : unit}`.trim(), isNumber: true }
      : words(value),
    words([references.mark(row.citation), row.origin].filter((one) => one !== "").join("; ")),
  ];
}
