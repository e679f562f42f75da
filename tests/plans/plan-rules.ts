/** Rules of sheet plans that need the catalogue, or that hold for budgets only. */
import { requireChoice } from "../../functions/arguments.js";
import { catalogue } from "../../functions/catalogue.js";
import { type Entry, type Parameter, requiredCount } from "../../functions/entry.js";
import { rangePlace, cellPlace } from "../../src/plans/addresses.js";
import { fillPlaceholders, plainNames } from "../../src/plans/placeholders.js";
import type { PlanCell, SheetPlan, WorkbookPlan } from "../../src/plans/sheet-plan.js";
import {
  childrenOf,
  type FormulaNode,
  formulaTree,
} from "../../taskpane/formula-reading/formula-tree.js";

/** In every spreadsheet this project knows of, for decades. */
const NATIVE = new Set(
  "ABS AND COUNT COUNTIF COUNTIFS IF IFERROR INDEX ISERROR ISNUMBER ISTEXT LEFT LEN MATCH MAX MIN N NOT OR ROUND SEARCH SUM SUMIF".split(
    " ",
  ),
);

interface Call {
  readonly name: string;
  readonly args: readonly FormulaNode[];
}

interface PlacedFormula {
  readonly where: string;
  readonly formula: string;
}

function formulasOf(plan: WorkbookPlan): PlacedFormula[] {
  const used = plainNames(plan, "FEED");
  return plan.sheets.flatMap(({ key, cells }) =>
    cells.flatMap(({ at, formula }) =>
      formula === undefined
        ? []
        : [
            {
              where: `${key}!${at}`,
              formula: `=${fillPlaceholders(formula, used)}`,
            },
          ],
    ),
  );
}

function callsIn(node: FormulaNode): Call[] {
  const below = childrenOf(node).flatMap(callsIn);
  if (node.type !== "CallExpression" || node.callee.type !== "Identifier") return below;
  const args = node.arguments as readonly FormulaNode[];
  return [{ name: node.callee.name.toUpperCase(), args }, ...below];
}

/** Calls of functions that are not there, with too few or too many arguments, or with a word that is not a choice. */
export function callFaults(plan: WorkbookPlan): string[] {
  return formulasOf(plan).flatMap(({ where, formula }) =>
    callsIn(formulaTree(formula))
      .filter(({ name }) => name.startsWith("FEED."))
      .flatMap((call) => faultsOfCall(plan, call).map((fault) => `${where}: ${fault}`)),
  );
}

function faultsOfCall(plan: WorkbookPlan, { name, args }: Call): string[] {
  const entry = catalogue.find(({ id }) => `FEED.${id}` === name);
  if (!entry) return [`there is no ${name}`];
  const [least, most] = [requiredCount(entry.parameters), mostCount(entry)];
  const count =
    args.length < least || args.length > most
      ? [`${name} takes ${least} to ${most} arguments, not ${args.length}`]
      : [];
  const parameters = Object.values(entry.parameters);
  return [
    ...count,
    ...args.flatMap((arg, index) => wordFaults(plan, name, parameters[index], arg)),
  ];
}

function mostCount({ parameters }: Entry): number {
  const all = Object.values(parameters);
  const last = all.at(-1);
  return last !== undefined && "repeating" in last && last.repeating ? Infinity : all.length;
}

/** Of a text in the call, or of the input that it refers to with every value that may be chosen there. */
function wordFaults(
  plan: WorkbookPlan,
  name: string,
  parameter: Parameter | undefined,
  arg: FormulaNode,
): string[] {
  if (!parameter || !("choices" in parameter)) return [];
  const { choices } = parameter;
  return wordsOf(plan, arg).flatMap((word) => {
    try {
      requireChoice(parameter.name, choices, word);
      return [];
    } catch {
      return [`"${word}" is no ${parameter.name} of ${name}`];
    }
  });
}

function wordsOf(plan: WorkbookPlan, arg: FormulaNode): string[] {
  if (arg.type === "Literal") return typeof arg.value === "string" ? [arg.value] : [];
  if (arg.type !== "ReferenceIdentifier") return [];
  const [, name, address] = /^'?([^'!]+)'?!(.+)$/.exec(arg.value) ?? [];
  const sheet = plan.sheets.find((one) => one.name === name);
  if (!sheet || address === undefined || address.includes(":")) return [];
  const at = address.replaceAll("$", "");
  const value = sheet.cells.find((cell) => cell.at === at)?.value;
  const allowed = sheet.validations.find(({ range }) => covers(range, at));
  return [
    ...(typeof value === "string" ? [value] : []),
    ...(allowed?.kind === "list" ? allowed.values : []),
  ];
}

function covers(range: string, at: string): boolean {
  const { top, left, bottom, right } = rangePlace(range);
  const { row, column } = cellPlace(at);
  return row >= top && row <= bottom && column >= left && column <= right;
}

/** Functions that are neither cell functions nor plain native ones. */
export function nativeFaults(plan: WorkbookPlan): string[] {
  return formulasOf(plan).flatMap(({ where, formula }) =>
    callsIn(formulaTree(formula))
      .filter(({ name }) => !name.startsWith("FEED.") && !NATIVE.has(name))
      .map(({ name }) => `${where} uses ${name}`),
  );
}

const SPARE_ROWS = 20;

/** Spills without so many free rows below. */
export function spareFaults({ sheets }: WorkbookPlan): string[] {
  return sheets.flatMap(({ key, cells }) =>
    cells.flatMap((cell) => {
      if (cell.spill === undefined) return [];
      const { row, column } = cellPlace(cell.at);
      const [rows, columns] = cell.spill;
      return cells
        .filter((other) => isFilled(other) && other !== cell)
        .filter(({ at }) => {
          const place = cellPlace(at);
          return (
            place.row >= row &&
            place.row < row + rows + SPARE_ROWS &&
            place.column >= column &&
            place.column < column + columns
          );
        })
        .map(({ at }) => `${key}!${at} stands in the way of ${cell.at}`);
    }),
  );
}

function isFilled({ value, formula }: PlanCell): boolean {
  return value !== undefined || formula !== undefined;
}

/**
 * Limits of Excel: 8192 characters in a formula, 255 in a text within a formula and in a validation's message and list
 * (Microsoft, Excel specifications and limits; from memory).
 */
export function lengthFaults(plan: WorkbookPlan): string[] {
  return [
    ...formulasOf(plan).flatMap(({ where, formula }) => [
      ...(formula.length > 8192 ? [`${where} is too long a formula`] : []),
      ...(formula.match(/"(?:[^"]|"")*"/g) ?? [])
        .filter((text) => text.length - 2 > 255)
        .map((text) => `${where} holds too long a text: ${text}`),
    ]),
    ...plan.sheets.flatMap(({ key, validations }) =>
      validations.flatMap((validation) => [
        ...(validation.message.length > 255
          ? [`${key}!${validation.range} has too long a message`]
          : []),
        ...(validation.kind === "list" && validation.values.join(",").length > 255
          ? [`${key}!${validation.range} has too long a list`]
          : []),
      ]),
    ),
  ];
}

/** Numbers typed into cells that are not inputs. */
export function typedNumbers({ sheets }: WorkbookPlan): string[] {
  return sheets.flatMap(({ key, cells }: SheetPlan) =>
    cells
      .filter(({ value, style }) => typeof value === "number" && style !== "input")
      .map(({ at }) => `${key}!${at}`),
  );
}
