/**
 * The cell functions in the workbench: one class over `evaluate`, made for every entry of the catalogue.
 *
 * Registered as classes because plain functions lose blanks there and have their text read as dates and numbers.
 */
import type { Injector, Nullable } from "@univerjs/core";
import type {
  BaseFunction,
  BaseValueObject,
  FunctionVariantType,
  IFunctionInfo,
} from "@univerjs/engine-formula";
import type { CellErrorCode } from "../../../functions/cells.js";
import { PURPOSES } from "../../../functions/documents/purposes.js";
import { RELATIONS } from "../../../functions/documents/relations.js";
import {
  type Argument,
  type Cell,
  type CellTable,
  catalogue,
  type Entry,
  evaluate,
  isCellError,
  isCellTable,
  isRepeating,
  type Parameter,
} from "../../../functions/downfeed.js";

type FormulaEngine = typeof import("@univerjs/engine-formula");
type SheetsFormula = typeof import("@univerjs/sheets-formula");

/** What is taken from the spreadsheet's packages; handed in, so that this file loads without them. */
export type FormulaParts = Pick<
  FormulaEngine,
  | "ArrayValueObject"
  | "BaseFunction"
  | "BooleanValueObject"
  | "ErrorType"
  | "ErrorValueObject"
  | "FunctionType"
  | "IFunctionService"
  | "NullValueObject"
  | "NumberValueObject"
  | "StringValueObject"
> &
  Pick<SheetsFormula, "IDescriptionService">;

/** To be called once the engine's services exist, which is when the first workbook is ready. */
export function registerFunctions(
  parts: FormulaParts,
  injector: Injector,
  namespace: string,
): void {
  const functions = injector.get(parts.IFunctionService);
  functions.registerExecutors(...catalogue.map((entry) => cellFunction(parts, entry, namespace)));
  injector
    .get(parts.IDescriptionService)
    .registerDescriptions(catalogue.map((entry) => description(parts, entry, namespace)));
  for (const executor of functions.getExecutors().values()) guard(parts, executor);
}

function cellFunction(parts: FormulaParts, { id }: Entry, namespace: string): BaseFunction {
  class CellFunction extends parts.BaseFunction {
    /** "10 A" in a call is a text: the spreadsheet would hand over ten in the morning, as a number. */
    override isArgumentsIgnoreNumberPattern(): boolean {
      return true;
    }

    override calculate(...values: BaseValueObject[]): BaseValueObject {
      const outcome = evaluate(id, values.map(argumentFrom));
      return outcome.ok ? valueObject(parts, outcome.value) : errorObject(parts, outcome.code);
    }
  }
  return new CellFunction(`${namespace}.${id}`);
}

/** One exception that leaves any function stops the calculation for the rest of the session, so none may. */
function guard(parts: FormulaParts, executor: BaseFunction): void {
  const calculate = executor.calculate.bind(executor);
  executor.calculate = (...values) => {
    try {
      return calculate(...values);
    } catch (error) {
      console.error(`${String(executor.name)} failed`, error);
      return errorObject(parts, "#VALUE!");
    }
  };
}

/** The spreadsheet hands the same object to all calls that read one range: it is read once. */
const rangesRead = new WeakMap<object, CellTable>();

function argumentFrom(value: FunctionVariantType): Argument {
  if (!isArrayObject(value)) return cellFrom(value as BaseValueObject);
  const read = rangesRead.get(value) ?? cellsFrom(value);
  rangesRead.set(value, read);
  return read;
}

function cellsFrom(value: InstanceType<FormulaEngine["ArrayValueObject"]>): CellTable {
  const [rows, columns] = [value.getRowCount(), value.getColumnCount()];
  return Array.from({ length: rows }, (_, row) =>
    Array.from({ length: columns }, (_, column) => cellFrom(value.get(row, column))),
  );
}

function isArrayObject(
  value: FunctionVariantType,
): value is InstanceType<FormulaEngine["ArrayValueObject"]> {
  return value.isArray();
}

function cellFrom(value: Nullable<BaseValueObject>): Cell {
  if (!value || value.isNull()) return null;
  if (value.isError()) return { error: String(value.getValue()) as CellErrorCode };
  return value.getValue();
}

function valueObject(parts: FormulaParts, value: Cell | CellTable): BaseValueObject {
  if (!isCellTable(value)) return cellObject(parts, value);
  return parts.ArrayValueObject.create({
    calculateValueList: value.map((row) => row.map((cell) => cellObject(parts, cell))),
    rowCount: value.length,
    columnCount: value[0]?.length ?? 0,
    unitId: "",
    sheetId: "",
    row: -1,
    column: -1,
  });
}

function cellObject(parts: FormulaParts, cell: Cell): BaseValueObject {
  if (cell === null) return parts.NullValueObject.create();
  if (isCellError(cell)) return errorObject(parts, cell.error);
  switch (typeof cell) {
    case "number":
      return parts.NumberValueObject.create(cell);
    case "boolean":
      return parts.BooleanValueObject.create(cell);
    default:
      return parts.StringValueObject.create(cell);
  }
}

function errorObject(parts: FormulaParts, code: CellErrorCode) {
  const known = Object.values<string>(parts.ErrorType).includes(code);
  return parts.ErrorValueObject.create(
    (known ? code : parts.ErrorType.VALUE) as FormulaEngine["ErrorType"]["VALUE"],
  );
}

/** What the sheet shows while a call is typed. */
function description(
  { FunctionType }: FormulaParts,
  entry: Entry,
  namespace: string,
): IFunctionInfo {
  return {
    functionName: `${namespace}.${entry.id}`,
    functionType: FunctionType.User,
    abstract: PURPOSES[entry.id]!,
    description: [PURPOSES[entry.id], RELATIONS[entry.id] ?? ""].join(" ").trim(),
    functionParameter: Object.values(entry.parameters).map((parameter, index) => ({
      name: parameter.name,
      detail: parameterDetail(parameter),
      example: exampleText(entry.example.args[index]),
      require: parameter.optional ? 0 : 1,
      repeat: isRepeating(parameter) ? 1 : 0,
    })),
  };
}

function parameterDetail(parameter: Parameter): string {
  const unit = ["", "1"].includes(parameter.unit) ? "" : ` (${parameter.unit})`;
  const choices =
    "choices" in parameter
      ? `: ${parameter.choices.map((choice) => `"${choice}"`).join(", ")}`
      : "";
  return `${parameter.meaning}${unit}${choices}`;
}

function exampleText(argument: Argument): string {
  if (argument === undefined || argument === null) return "";
  if (isCellTable(argument)) return "A1:B2";
  return typeof argument === "string" ? `"${argument}"` : String(argument);
}
