/** Cells whose Downfeed formulas do not calculate after a workbook was opened: why, and what they should read. */
import { catalogue, evaluate } from "../../functions/downfeed.js";
import { rangePlace, cellAddress } from "../../src/plans/addresses.js";
import { readFormulaText } from "../formula-reading/cell-reading.js";
import { innermostRefusal } from "../formula-reading/formula-value.js";
import type { CellRange, Host, HostValue } from "../hosts/host.js";
import { words } from "../words/words.js";

const said = words.repair;

export interface BrokenCell {
  readonly at: CellRange;
  readonly formula: string;
  readonly why: string;
  /** What to write in its place; nothing where the formula is right and its arguments are not. */
  readonly repaired: string | undefined;
}

/** Reads every sheet as far as it is used. */
export async function brokenCells(host: Host): Promise<readonly BrokenCell[]> {
  const sheets = await host.sheets();
  const used = await Promise.all(sheets.map((sheet) => host.used(sheet)));
  const contents = await host.read(used);
  const broken: BrokenCell[] = [];
  for (const { range, values, formulas } of contents) {
    const { top, left } = rangePlace(range.address);
    for (const [row, cells] of formulas.entries())
      for (const [column, formula] of cells.entries()) {
        const at = {
          sheet: range.sheet,
          address: cellAddress({ row: top + row, column: left + column }),
        };
        const found = await brokenCell(host, at, formula, values[row]?.[column]);
        if (found) broken.push(found);
      }
  }
  return broken;
}

async function brokenCell(
  host: Host,
  at: CellRange,
  formula: string,
  value: HostValue | undefined,
): Promise<BrokenCell | undefined> {
  const repaired = withOwnPrefix(formula, host.namespace);
  if (repaired === undefined) return undefined;
  if (repaired !== formula) return { at, formula, why: said.prefix(host.namespace), repaired };
  if (typeof value !== "object") return undefined;
  if (value.error === "#NAME?") return { at, formula, why: said.unknown, repaired };
  if (value.error !== "#VALUE!") return undefined;
  const message = await refusalOf(host, formula, at.sheet);
  return message === undefined
    ? { at, formula, why: said.stale, repaired }
    : { at, formula, why: said.refused(message), repaired: undefined };
}

/** What its innermost refused call says; nothing where all of it can be worked out. */
async function refusalOf(host: Host, formula: string, sheet: string): Promise<string | undefined> {
  try {
    const reading = await readFormulaText(host, formula, sheet, evaluate);
    const outcome = innermostRefusal(reading)?.outcome;
    return outcome?.ok === false ? outcome.message : undefined;
  } catch (error) {
    if (error instanceof SyntaxError) return error.message;
    throw error;
  }
}

const IDS = new Set(catalogue.map(({ id }) => id));

/** A text in quotes, a sheet's name in quotes, or a call's name with what stands before it. */
const PIECES =
  /"(?:[^"]|"")*"|'(?:[^']|'')*'|(?<![A-Za-z0-9_.])((?:_xl[a-z]+[._])*)(FEED|FEEDDEV)[._]([A-Z]+(?:_[A-Z]+)*)(?=\s*\()/gi;

/**
 * The formula with each of its Downfeed calls under the namespace in use, however another computer wrote them:
 * `_xldudf_FEED_CONDUCTOR_DROP(`, `FEEDDEV.CONDUCTOR_DROP(`. Nothing for a formula without such a call.
 */
export function withOwnPrefix(formula: string, namespace: string): string | undefined {
  let calls = 0;
  const written = formula.replace(
    PIECES,
    (
      piece: string,
      _stored: string | undefined,
      prefix: string | undefined,
      name: string | undefined,
    ) => {
      const id = name?.toUpperCase() ?? "";
      if (prefix === undefined || !IDS.has(id)) return piece;
      calls += 1;
      return `${namespace}.${id}`;
    },
  );
  return calls > 0 ? written : undefined;
}

/** Writes every repaired formula in its own cell. @returns how many. */
export async function repairCells(host: Host, cells: readonly BrokenCell[]): Promise<number> {
  let written = 0;
  for (const { at, repaired } of cells) {
    if (repaired === undefined) continue;
    await host.write(at, [[repaired]], { overwrite: true });
    written += 1;
  }
  return written;
}
