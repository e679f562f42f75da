/** The working of a cell as rows to read: label, formula in symbols and in numbers, value, unit, citation, notes. */
import type { Quantity, Step } from "../../../src/quantities/steps.js";
import { type Cell, type CellTable, citationLine } from "../../downfeed.js";
import { type CallAnswer, type Origin, answersOf } from "../lines/call-answer.js";
import type { FormulaTree, SheetRange } from "../lines/call-tree.js";
import { type CallKind, callWorking } from "../lines/call-working.js";
import { resultLines } from "../lines/result-lines.js";
import { shownCall } from "../lines/shown-call.js";
import { inNumbers, inSymbols } from "./step-text.js";
import { stepValue } from "./step-value.js";
import type { GivenLine, Line, LineGroup, Native, StepLine } from "../lines/working-lines.js";

export interface WorkingRow {
  readonly kind: "given" | "formula" | "lookup" | "solved";
  readonly label: string;
  readonly symbol: string;
  /** A formula; of a solved number, the expression that is 0 at the answer; "" for a given and for a table's value. */
  readonly inSymbols: string;
  readonly inNumbers: string;
  /** In `unit`, the one that people read. */
  readonly value: number | string;
  readonly unit: string;
  /** What is left over of a solved number's equation. */
  readonly residual?: number;
  readonly citation: string;
  /** Where a given comes from, a table's name and key; "default" for what was not given. */
  readonly origin: string;
  /** The cells that count in a given. */
  readonly cells: readonly SheetRange[];
  readonly caveats: readonly string[];
}

export interface WorkingBlock {
  /** "" for arguments that enter no formula but choose tables. */
  readonly title: string;
  readonly rows: readonly WorkingRow[];
}

export interface CallSteps {
  readonly id: string;
  /** As it stands in the cell's formula. */
  readonly text: string;
  /** 0 for a call that stands in no other. */
  readonly depth: number;
  readonly kind: CallKind;
  readonly outcome:
    | {
        readonly ok: true;
        readonly value: Cell | CellTable;
        readonly unit: string;
      }
    | { readonly ok: false; readonly code: string; readonly message: string };
  readonly blocks: readonly WorkingBlock[];
  /** Caveats on the result as a whole; those about one number stand in its row. */
  readonly caveats: readonly string[];
}

export interface WorkingOptions {
  /** How a number is written in a formula; six significant digits where it is left out. */
  readonly number?: (value: number) => string;
  /** Row of the spilled result, from 0, whose working is shown where a function gives one for each row. */
  readonly row?: number;
}

/** Inner calls first; of those that count as the cells stand. */
export function workingOf(
  tree: FormulaTree,
  { number = sixDigits, row }: WorkingOptions = {},
): readonly CallSteps[] {
  return [...answersOf(tree, row).values()]
    .filter(({ call }) => !call.untaken)
    .map((answer) => callSteps(answer, number));
}

/** The cell that a cell of the shown result repeats as it was typed; row and column from 0. */
export function repeatedCell(
  tree: FormulaTree,
  row: number,
  column: number,
): SheetRange | undefined {
  const answers = answersOf(tree);
  const shown = shownCall(tree, answers);
  const answer = shown && answers.get(shown);
  const source = answer && resultLines(answer)[row]?.[column];
  return source && "cell" in source ? source.cell : undefined;
}

/** Whether a block of steps is about an item: of several each has its own title behind the item's name. */
export function isAboutItem(title: string, item: string): boolean {
  return title === item || title.startsWith(`${item}: `);
}

function sixDigits(value: number): string {
  return String(Number(value.toPrecision(6)));
}

type ShowNumber = (value: number) => string;

function callSteps(answer: CallAnswer, number: ShowNumber): CallSteps {
  const { call, depth, entry, outcome } = answer;
  const { groups, kind } = callWorking(answer);
  const rows = groups.map((group) => blockOf(group, groups, answer, number));
  const told = new Set(rows.flatMap((block) => block.rows.flatMap((row) => row.caveats)));
  return {
    id: call.id,
    text: call.text,
    depth,
    kind,
    outcome: outcome.ok
      ? { ok: true, value: outcome.value, unit: entry?.unitOf(outcome.record) ?? "" }
      : { ok: false, code: outcome.code, message: outcome.message },
    blocks: rows,
    caveats: notesOf(answer)
      .map(({ text }) => text)
      .filter((text) => !told.has(text)),
  };
}

function notesOf({ outcome }: CallAnswer) {
  return outcome.ok ? outcome.caveats : [];
}

function blockOf(
  { title, lines }: LineGroup,
  groups: readonly LineGroup[],
  answer: CallAnswer,
  number: ShowNumber,
): WorkingBlock {
  const all = new Map(groups.flatMap((group) => group.lines.map((line) => [line.key, line])));
  return {
    title,
    rows: lines.map((line) =>
      line.kind === "given" ? givenRow(line, number) : stepRow(line, all, answer, number),
    ),
  };
}

function shown({ shown: read, unit }: Quantity, value: number | string) {
  return read && typeof value === "number"
    ? { value: value * read.perUnit, unit: read.unit }
    : { value, unit };
}

function givenRow(line: GivenLine, number: ShowNumber): WorkingRow {
  const { quantity, value, link } = line;
  const told = link.kind === "native" ? (link.told ?? []) : [];
  const perUnit = quantity.shown?.perUnit ?? 1;
  return {
    kind: "given",
    label: quantity.label,
    symbol: quantity.symbol,
    inSymbols: "",
    inNumbers: told
      .map((part) => (typeof part === "number" ? number(part * perUnit) : part))
      .join(""),
    ...shown(quantity, value),
    citation: "",
    origin: originText(line),
    cells: cellsOf(line),
    caveats: [],
  };
}

function cellsOf({ link }: GivenLine): readonly SheetRange[] {
  if (link.kind === "native") {
    const named = link.native.flatMap((piece) =>
      typeof piece === "object" && "cell" in piece ? [piece.cell] : [],
    );
    return link.reads ?? named;
  }
  if (link.kind === "frozen") return link.reads ?? [];
  const origin = link.kind === "linked" || link.kind === "default" ? link.origin : undefined;
  return origin?.kind === "cell" ? [origin.range] : [];
}

/** Where a given comes from, in words. */
export function originText({ link }: GivenLine): string {
  switch (link.kind) {
    case "linked":
      return originOf(link.origin);
    case "default":
      return "default";
    case "line":
      return "as above";
    case "native":
      return nativeOrigin(link.native);
    case "frozen":
      return `${link.told}: frozen at these inputs`;
    case "read":
      return `for ${link.word}`;
    case "taken":
      return "taken by the function";
  }
}

function nativeOrigin(native: Native): string {
  const pieces = native.filter((piece) => typeof piece === "object");
  if (pieces.length === 0 || !pieces.every((piece) => "line" in piece)) return "of the table";
  return pieces.length === 1 ? "of another row" : "of other rows";
}

function originOf(origin: Origin): string {
  if (origin.kind === "cell") return `${origin.range.sheet}!${origin.range.address}`;
  const { part } = origin;
  if (part.kind === "call") return `result of ${part.id}`;
  if (part.kind === "literal") return "written in the formula";
  return origin.kind === "within" ? `part of ${part.text}` : part.text;
}

function stepRow(
  line: StepLine,
  all: ReadonlyMap<string, Line>,
  answer: CallAnswer,
  number: ShowNumber,
): WorkingRow {
  const { step, value, quantity } = line;
  const read = (field: string) => all.get(line.lineOf(field) ?? "");
  const symbolOf = (field: string) => read(field)?.quantity.symbol ?? field;
  const valueOf = (field: string) => Number(read(field)?.value);
  const formula = formulaOf(step);
  const field = line.key.slice(line.key.indexOf(".") + 1);
  return {
    kind: step.kind,
    label: quantity.label,
    symbol: quantity.symbol,
    inSymbols: formula === undefined ? "" : inSymbols(formula, symbolOf),
    inNumbers: formula === undefined ? "" : inNumbers(formula, valueOf, number),
    ...shown(quantity, value),
    ...(step.kind === "solved" && {
      residual: stepValue(step.residual, valueOf),
    }),
    citation: step.cite === "definition" ? "" : citationLine(step.cite),
    origin: step.kind === "lookup" ? lookupText(step, read(step.key)) : "",
    cells: [],
    caveats: notesOf(answer)
      .filter((note) => note.field === field)
      .map(({ text }) => text),
  };
}

function formulaOf(step: Step): string | undefined {
  if (step.kind === "formula") return step.formula;
  return step.kind === "solved" ? step.residual : undefined;
}

/** `IEC 60228 class 2, for 4 mm²` */
export function lookupText(
  { table }: Step & { readonly kind: "lookup" },
  key: Line | undefined,
): string {
  return key === undefined ? table : `${table}, for ${key.value}`;
}
