/** A plan with all that calculates and nothing of its looks, small enough to be kept. */
import { cellPlace, columnLetters } from "../../src/plans/addresses.js";
import type { PlanCell, SheetPlan, StyleName, WorkbookPlan } from "../../src/plans/sheet-plan.js";

type Content = string | number | boolean;

/** By address; a formula begins with `=`. */
type Contents = Readonly<Record<string, Content>>;

/** Contents by the sheet's key. */
export type TypedCells = Readonly<Record<string, Contents>>;

export interface FrozenPlan {
  readonly id: string;
  readonly title: string;
  readonly stem: string;
  readonly names: WorkbookPlan["names"];
  readonly sheets: readonly FrozenSheet[];
}

interface FrozenSheet {
  readonly key: string;
  readonly name: string;
  /** The last row and column that the plan dresses. */
  readonly last: string;
  readonly cells: Contents;
  /** Addresses of the cells by which numbers are called. */
  readonly styles: Readonly<Record<(typeof CALLING)[number], string>>;
}

/** Styles by which numbers are called; see `numbers-by-label.ts`. */
const CALLING = ["heading", "tableHeading", "label"] as const;

export function frozenPlan(plan: WorkbookPlan): FrozenPlan {
  const { id, title, stem, names, sheets } = plan;
  return { id, title, stem, names, sheets: sheets.map(frozenSheet) };
}

function frozenSheet({ key, name, cells }: SheetPlan): FrozenSheet {
  const places = cells.map(({ at }) => cellPlace(at));
  const right = Math.max(...places.map(({ column }) => column));
  const bottom = Math.max(...places.map(({ row }) => row));
  const styled = (style: StyleName) =>
    cells
      .filter((cell) => cell.style === style)
      .map(({ at }) => at)
      .join(" ");
  return {
    key,
    name,
    last: `${columnLetters(right)}${bottom + 1}`,
    cells: Object.fromEntries(
      cells.flatMap(({ at, formula, value }) => {
        if (formula !== undefined) return [[at, `=${formula}`]];
        return value === undefined || value === "" ? [] : [[at, value]];
      }),
    ),
    styles: {
      heading: styled("heading"),
      tableHeading: styled("tableHeading"),
      label: styled("label"),
    },
  };
}

/** What has to be typed into one plan to make it the other. */
export function typedCells(before: FrozenPlan, after: FrozenPlan): TypedCells {
  return Object.fromEntries(
    after.sheets.map(({ key, cells }, index) => {
      const old = before.sheets[index]?.cells ?? {};
      const typed = Object.entries(cells).filter(([at, content]) => old[at] !== content);
      return [key, Object.fromEntries(typed)];
    }),
  );
}

export function thawedPlan(frozen: FrozenPlan, typed: TypedCells = {}): WorkbookPlan {
  const sheets = frozen.sheets.map((sheet) =>
    thawedSheet(sheet, { ...sheet.cells, ...typed[sheet.key] }),
  );
  return { ...frozen, sheets };
}

function thawedSheet({ key, name, last, styles }: FrozenSheet, cells: Contents): SheetPlan {
  const styleOf = new Map<string, StyleName>();
  for (const style of CALLING) for (const at of styles[style].split(" ")) styleOf.set(at, style);
  const addresses = new Set([...Object.keys(cells), ...styleOf.keys(), last]);
  addresses.delete("");
  return {
    key,
    name,
    columnWidths: [],
    frozenRows: 0,
    cells: [...addresses].map((at) => thawedCell(at, cells[at], styleOf.get(at) ?? "result")),
    merges: [],
    validations: [],
    conditionalFormats: [],
    pictures: [],
  };
}

function thawedCell(at: string, content: Content | undefined, style: StyleName): PlanCell {
  if (content === undefined) return { at, style };
  return typeof content === "string" && content.startsWith("=")
    ? { at, formula: content.slice(1), style }
    : { at, value: content, style };
}
