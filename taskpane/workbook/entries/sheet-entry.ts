/** What is typed on the sheet of a budget, read as the pane's forms read it. */
import { rangePlace } from "../../../src/plans/addresses.js";
import { type Label, LABELS } from "../../../src/judgement/requirements.js";
import { headerParts } from "../../../src/quantities/header-units.js";
import { type BlockColumn, type BlockName, BLOCKS } from "../../../src/schedules/columns.js";
import { BLOCK_AREAS } from "../../budgets/names.js";
import { sameItem, textOf } from "../../budgets/reading/range-table.js";
import type { HostName } from "../../hosts/host.js";
import type { EntryAnswer, SheetsNow, TypedEntry } from "../../hosts/typed-entry.js";
import { headedColumn } from "../typed-sheets.js";
import { askedColumn } from "./asked-column.js";
import { typedNumber } from "../../words/shown-numbers.js";
import { entryFor, partEntry } from "./entry-text.js";

/** An hour of a clock to the spreadsheet, an ampere or a number of poles to everybody else. */
const HOUR = /^\d{1,2}(:\d\d)?\s*[ap]$/i;

/** @returns undefined where the spreadsheet may read it itself. */
export function sheetEntry(entry: TypedEntry, now: SheetsNow): EntryAnswer | undefined {
  const text = entry.text.trim();
  if (text === "" || /^[='+@]/.test(text)) return undefined;
  const typed = typedColumn(entry, now);
  if (typed) {
    const { column, kind } = typed;
    // The list that the cell offers refuses another word.
    if (column.content.holds === "word") return undefined;
    const answer = entryFor(column, text, kind);
    return "refused" in answer ? { refused: `${column.header}: ${answer.refused}` } : answer;
  }
  if (HOUR.test(text)) return { content: text };
  const number = entry.format.includes("%") ? typedNumber(text) : undefined;
  return typeof number === "number" ? partEntry(number, text) : undefined;
}

interface TypedColumn {
  readonly column: BlockColumn;
  /** Word in the row's Kind. */
  readonly kind: string;
}

const NAME = { header: "Name", unit: "", quantity: "words", field: "name", means: "" } as const;

function typedColumn(entry: TypedEntry, now: SheetsNow): TypedColumn | undefined {
  const { sheet, row, column } = entry;
  for (const { name, range } of now.names()) {
    const block = blockOf(name);
    if (block === undefined || range.sheet !== sheet) continue;
    const { top, left, bottom, right } = rangePlace(range.address);
    if (row <= top || row > bottom || column < left || column > right) continue;
    const values = now.values(range);
    const own = values[row - top] ?? [];
    if (block === "Asked for") return askedCell(textOf(own[0]), column - left);
    if (column === left) return { column: { ...NAME, content: { holds: "name" } }, kind: "" };
    const headers = (values[0] ?? []).map((cell) => textOf(cell));
    const header = headers[column - left] ?? "";
    const known = BLOCKS[block].find((one) => sameItem(one.header, headerParts(header).name));
    if (!known) return undefined;
    const kind = headers.findIndex((one) => sameItem(one, "Kind"));
    return { column: headedColumn(known, header), kind: textOf(own[kind]) };
  }
  return undefined;
}

const VALUE = 1;

function askedCell(label: string, column: number): TypedColumn | undefined {
  const known = LABELS.find((one) => one === label) as Label | undefined;
  return known === undefined || column !== VALUE
    ? undefined
    : { column: askedColumn(known), kind: "" };
}

function blockOf(name: HostName["name"]): BlockName | undefined {
  const part = name.slice(name.lastIndexOf("_") + 1);
  return (Object.keys(BLOCK_AREAS) as BlockName[]).find((block) =>
    sameItem(BLOCK_AREAS[block], part),
  );
}
