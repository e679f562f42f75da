/** Cells whose Downfeed formulas do not calculate after a workbook was opened: why, and what they should read. */
import { catalogue, evaluate } from "../../functions/downfeed.js";
import { readFormulaText } from "../formula-reading/cell-reading.js";
import { innermostRefusal } from "../formula-reading/formula-value.js";
import {
  type CellRange,
  type FormulaCell,
  type Host,
  HostError,
  type RangeContent,
  type SheetEdit,
} from "../hosts/host.js";
import { words } from "../words/words.js";

const said = words.repair;

export interface BrokenCell {
  readonly at: CellRange;
  readonly formula: string;
  readonly why: string;
  /** What to write in its place; nothing where the formula is right and its arguments are not. */
  readonly repaired: string | undefined;
}

/** A formula with a call of ours, and how it reads under the namespace in use. */
interface OwnFormula extends FormulaCell {
  readonly repaired: string;
}

/** Looks through every sheet, at formulas only. */
export async function brokenCells(host: Host): Promise<readonly BrokenCell[]> {
  const own: OwnFormula[] = [];
  for (const sheet of await host.sheets())
    for (const cell of await host.formulaCells(sheet)) {
      const repaired = withOwnPrefix(cell.formula, host.namespace);
      if (repaired !== undefined) own.push({ ...cell, repaired });
    }
  // One unknown function shows that the others were unknown too, also where a formula gives a text in place of the error.
  const areUnknown = own.some(({ value }) => errorOf(value) === "#NAME?");
  const reading = readingOnce(host);
  const broken: BrokenCell[] = [];
  for (const cell of own) {
    const found = await brokenCell(reading, cell, areUnknown);
    if (found) broken.push({ at: cell.at, formula: cell.formula, ...found });
  }
  return broken;
}

async function brokenCell(
  host: Host,
  { at, formula, value, repaired }: OwnFormula,
  areUnknown: boolean,
): Promise<Pick<BrokenCell, "why" | "repaired"> | undefined> {
  if (repaired !== formula) return { why: said.prefix(host.namespace), repaired };
  if (errorOf(value) === "#NAME?") return { why: said.unknown, repaired };
  if (areUnknown) return { why: said.besideUnknown, repaired };
  const isHidden = typeof value === "string" && HIDES_ERRORS.test(formula);
  if (errorOf(value) !== "#VALUE!" && !isHidden) return undefined;
  const reading = await readingOf(host, formula, at.sheet);
  if (isHidden)
    return typeof reading === "object" && reading.gives !== undefined && reading.gives !== value
      ? { why: said.hidden, repaired }
      : undefined;
  const message = typeof reading === "string" ? reading : reading.refusal;
  return message === undefined
    ? { why: said.stale, repaired }
    : { why: said.refused(message), repaired: undefined };
}

function errorOf(value: FormulaCell["value"]): string | undefined {
  return typeof value === "object" ? value.error : undefined;
}

/** As budgets of 0.2 have it. */
const HIDES_ERRORS = /\bIFERROR\s*\(/i;

/** What a formula comes to now, and what its innermost refused call says; or why it is no formula. */
async function readingOf(host: Host, formula: string, sheet: string) {
  try {
    const reading = await readFormulaText(host, formula, sheet, evaluate);
    const outcome = innermostRefusal(reading)?.outcome;
    return {
      refusal: outcome?.ok === false ? outcome.message : undefined,
      gives: reading.value.ok === true ? reading.value.value : undefined,
    };
  } catch (error) {
    if (error instanceof SyntaxError) return error.message;
    throw error;
  }
}

/** Many formulas read the same cells, and nothing changes meanwhile. */
function readingOnce(host: Host): Host {
  let names: ReturnType<Host["names"]> | undefined;
  const read = new Map<string, Promise<readonly RangeContent[]>>();
  const once: Pick<Host, "names" | "read"> = {
    names: () => (names ??= host.names()),
    async read(ranges) {
      const contents = ranges.map((range) => {
        const key = `${range.sheet}!${range.address}`;
        const known = read.get(key) ?? host.read([range]);
        read.set(key, known);
        return known;
      });
      return (await Promise.all(contents)).flat();
    },
  };
  return Object.assign(Object.create(host) as Host, once);
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

export interface RepairOutcome {
  readonly written: number;
  /** Sheets that could not be written, with their cells and the reason. */
  readonly left: readonly {
    readonly sheet: string;
    readonly cells: readonly string[];
    readonly why: string;
  }[];
}

/** Writes every repaired formula in its own cell, a sheet at a time; one that may not be written is passed over. */
export async function repairCells(
  host: Host,
  broken: readonly BrokenCell[],
): Promise<RepairOutcome> {
  const sheets = new Map<string, SheetEdit[]>();
  for (const { at, repaired } of broken) {
    if (repaired === undefined) continue;
    const edits = sheets.get(at.sheet) ?? [];
    sheets.set(at.sheet, [...edits, { kind: "write", range: at, cells: [[repaired]] }]);
  }
  let written = 0;
  const left: RepairOutcome["left"][number][] = [];
  for (const [sheet, edits] of sheets) {
    try {
      await host.edit(edits);
      written += edits.length;
    } catch (error) {
      if (!(error instanceof HostError)) throw error;
      const cells = edits.flatMap((edit) => (edit.kind === "write" ? [edit.range.address] : []));
      left.push({ sheet, cells, why: error.message });
    }
  }
  return { written, left };
}
