/** Chosen cells with every step of their working. */
import { heading, list, paragraph } from "../../functions/documents/markup.js";
import {
  type CallSteps,
  isAboutItem,
  type WorkingBlock,
  workingOf,
  type WorkingRow,
} from "../../functions/working/text/working-of.js";
import { readCellAt } from "../formula-reading/cell-reading.js";
import { workingOfCell } from "../formula-reading/read-working.js";
import type { CellRange, Host } from "../hosts/host.js";
import { formulaNumber, shownNumber } from "../words/shown-numbers.js";
import type { References } from "./references.js";
import { LANDSCAPE, phrase, type ReportCell, reportTable, words } from "./report-table.js";

export async function workings(
  host: Host,
  cells: readonly CellRange[],
  references: References,
): Promise<string> {
  const sections: string[] = [];
  for (const cell of cells) {
    const read = workingOfCell(await readCellAt(host, cell));
    sections.push(heading(2, `Working of ${cell.sheet}!${cell.address}`));
    if (!read) {
      sections.push(paragraph("The cell calls no function of Downfeed."));
      continue;
    }
    const { tree, row, item } = read;
    for (const call of workingOf(tree, { row, number: formulaNumber })) {
      sections.push(`<h3>${phrase(call.text)}</h3>`, list(notesAbout(item, call)));
      for (const { title, rows } of blocksAbout(item, call.blocks))
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

/** Of a spilled row those of its item; all of any other cell. */
function blocksAbout(
  item: string | undefined,
  blocks: readonly WorkingBlock[],
): readonly WorkingBlock[] {
  if (item === undefined) return blocks;
  const own = blocks.filter(
    ({ title }) => isAboutItem(title, item) || title.startsWith(`${item}, `),
  );
  return own.length > 0 ? own : blocks;
}

/** Notes that name another item of the spill are left to its own working. */
function notesAbout(item: string | undefined, { caveats, blocks }: CallSteps): readonly string[] {
  if (item === undefined) return caveats;
  const others = blocks.map(({ title }) => title).filter((title) => title !== item);
  return caveats.filter((note) => !others.some((other) => note.startsWith(`${other}: `)));
}

function workingCells(row: WorkingRow, references: References): ReportCell[] {
  const { value, unit } = row;
  return [
    words(`${row.label}${row.symbol === "" ? "" : `, ${row.symbol}`}`),
    words(row.kind === "solved" ? `${row.inSymbols} = 0` : row.inSymbols),
    inNumbers(row),
    typeof value === "number"
      ? { text: `${formulaNumber(value)} ${unit === "1" ? "" : unit}`.trim(), isNumber: true }
      : words(value),
    words([references.mark(row.citation), row.origin].filter((one) => one !== "").join("; ")),
  ];
}

/** A figure alone is one number too. */
function inNumbers({ kind, residual = 0, inNumbers: text }: WorkingRow): ReportCell {
  if (kind === "solved") return words(`leaves ${shownNumber(residual, "").text}`);
  return { text, isNumber: /^[-−]?[\d.,]+$/.test(text) };
}
