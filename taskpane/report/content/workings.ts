/** Chosen cells with every step of their working. */
import {
  type CallSteps,
  isAboutItem,
  type WorkingBlock,
  workingOf,
  type WorkingRow,
} from "../../../functions/working/text/working-of.js";
import { readCellAt } from "../../formula-reading/cell-reading.js";
import { workingOfCell } from "../../formula-reading/read-working.js";
import type { CellRange, Host } from "../../hosts/host.js";
import { formulaNumber, shownNumber } from "../../words/shown-numbers.js";
import {
  heading,
  list,
  numberText,
  paragraph,
  type ReportBlock,
  type ReportCell,
  table,
  words,
} from "./blocks.js";
import type { References } from "./references.js";

export async function workings(
  host: Host,
  cells: readonly CellRange[],
  references: References,
): Promise<readonly ReportBlock[]> {
  const blocks: ReportBlock[] = [];
  for (const cell of cells) {
    const read = workingOfCell(await readCellAt(host, cell));
    blocks.push(heading(`Working of ${cell.sheet}!${cell.address}`));
    if (!read) {
      blocks.push(paragraph("The cell calls no function of Downfeed."));
      continue;
    }
    const { tree, row, item } = read;
    for (const call of workingOf(tree, { row, number: formulaNumber })) {
      blocks.push({ kind: "subheading", text: call.text }, ...list(notesAbout(item, call)));
      for (const { title, rows } of blocksAbout(item, call.blocks))
        blocks.push(
          table({
            caption: title,
            head: ["Quantity", "Formula", "In numbers", "Value", "From"],
            rows: rows.map((each) => workingCells(each, references)),
          }),
        );
    }
  }
  return blocks;
}

/** For a spilled row, the blocks about its item; all blocks of any other cell. */
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
      ? numberText(`${formulaNumber(value)} ${unit === "1" ? "" : unit}`.trim())
      : words(value),
    words([references.mark(row.citation), row.origin].filter((one) => one !== "").join("; ")),
  ];
}

/** A figure alone is one number too. */
function inNumbers({ kind, residual = 0, inNumbers: text }: WorkingRow): ReportCell {
  if (kind === "solved") return words(`leaves ${shownNumber(residual, "").text}`);
  return { text, isNumber: /^[-−]?[\d.,]+$/.test(text) };
}
