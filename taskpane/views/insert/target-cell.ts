/** Whether a cell can take a formula: it is none of the formula's own arguments, and a spilled result has room. */
import { isCellTable } from "../../../functions/downfeed.js";
import { areaPlace, cellAddress } from "../../../src/plans/addresses.js";
import { UnreadError } from "../../formula-reading/cell-arithmetic.js";
import { areaOf } from "../../formula-reading/cell-reading.js";
import { formulaTree, referencesIn } from "../../formula-reading/formula-tree.js";
import type { FormulaReading } from "../../formula-reading/formula-value.js";
import type { Area, AreaContent, Host } from "../../hosts/host.js";
import { areaText, spillArea } from "../../formula-reading/argument-text.js";
import { words } from "../../words/words.js";

const said = words.call;

/** Why the cell cannot take it, in a sentence; nothing when it can. */
export async function hindranceAt(
  host: Host,
  at: Area,
  formula: string,
  reading: FormulaReading,
): Promise<string | undefined> {
  // A formula that names its own cell would go round in a circle.
  if (await namesItself(host, at, formula)) return said.ownCell(areaText(at));
  const area = spilledArea(at, reading);
  if (area === undefined) return undefined;
  const [content] = await host.read([area]);
  const occupied = content && occupiedBeside(content);
  return occupied === undefined ? undefined : said.blocked(area.address, occupied);
}

async function namesItself(host: Host, at: Area, formula: string): Promise<boolean> {
  const names = await host.names();
  return referencesIn(formulaTree(formula)).some(({ value }) => {
    const area = areaOf(value, at.sheet, names);
    return !(area instanceof UnreadError) && covers(area, at);
  });
}

function covers(area: Area, cell: Area): boolean {
  if (area.sheet !== cell.sheet) return false;
  const [outer, inner] = [areaPlace(area.address), areaPlace(cell.address)];
  return (
    outer.top <= inner.top &&
    outer.bottom >= inner.bottom &&
    outer.left <= inner.left &&
    outer.right >= inner.right
  );
}

function spilledArea(at: Area, { value }: FormulaReading): Area | undefined {
  if (value.ok !== true || !isCellTable(value.value)) return undefined;
  const [rows, columns] = [value.value.length, value.value[0]?.length ?? 0];
  return rows * columns > 1 ? spillArea(at, rows, columns) : undefined;
}

/** The first cell is left out: whether to overwrite that one is asked. */
function occupiedBeside({ area, values, formulas }: AreaContent): string | undefined {
  const { top, left } = areaPlace(area.address);
  for (const [row, cells] of values.entries()) {
    const column = cells.findIndex(
      (value, index) =>
        (row > 0 || index > 0) && (value !== "" || (formulas[row]?.[index] ?? "") !== ""),
    );
    if (column >= 0) return cellAddress({ row: top + row, column: left + column });
  }
  return undefined;
}
