/** Cells with formulas, without all that stands between them: a sheet may hold more than Excel gives in one answer. */
import { rangeAddress, rangePlace } from "../../../src/plans/addresses.js";
import type { CellRange, FormulaCell } from "../host.js";
import { formulasIn } from "../ranges.js";
import { excelRange, readRanges } from "./cells.js";
import { readingSheets } from "./commands.js";

/** In one answer, of which Excel on the web gives 5 MB: a thousand characters to a formula. */
const MOST_CELLS = 5_000;

export async function formulaCells(sheet: string): Promise<readonly FormulaCell[]> {
  const cells: FormulaCell[] = [];
  for (const ranges of inBlocks(await formulaAreas(sheet))) {
    const contents = await readingSheets([sheet], (context) => readRanges(context, ranges));
    cells.push(...contents.flatMap(formulasIn));
  }
  return cells;
}

async function formulaAreas(sheet: string): Promise<readonly CellRange[]> {
  return readingSheets([sheet], async (context) => {
    const used = context.workbook.worksheets.getItem(sheet).getUsedRangeOrNullObject(true);
    used.load("address");
    await context.sync();
    if (used.isNullObject) return [];
    const found = used.getSpecialCellsOrNullObject("Formulas");
    found.load("areaCount");
    await context.sync();
    if (found.isNullObject) return [];
    found.areas.load("items/address");
    await context.sync();
    return found.areas.items.map(({ address }) => excelRange(address));
  });
}

/** Areas together as long as they hold few enough cells; one with more is parted by its rows. */
function inBlocks(areas: readonly CellRange[]): readonly (readonly CellRange[])[] {
  const blocks: CellRange[][] = [];
  let room = 0;
  for (const area of areas.flatMap(inParts)) {
    const cells = cellCount(area);
    if (cells > room) {
      blocks.push([]);
      room = MOST_CELLS;
    }
    blocks.at(-1)?.push(area);
    room -= cells;
  }
  return blocks;
}

function inParts({ sheet, address }: CellRange): readonly CellRange[] {
  const { top, left, bottom, right } = rangePlace(address);
  const rows = Math.max(1, Math.floor(MOST_CELLS / (right - left + 1)));
  const parts: CellRange[] = [];
  for (let first = top; first <= bottom; first += rows) {
    const last = Math.min(bottom, first + rows - 1);
    parts.push({ sheet, address: rangeAddress({ top: first, bottom: last, left, right }) });
  }
  return parts;
}

function cellCount({ address }: CellRange): number {
  const { top, left, bottom, right } = rangePlace(address);
  return (bottom - top + 1) * (right - left + 1);
}
