/** What a spreadsheet hands to a cell function and takes back, independent of any one spreadsheet. */

export type CellErrorCode =
  | "#VALUE!"
  | "#N/A"
  | "#NUM!"
  | "#DIV/0!"
  | "#REF!"
  | "#NAME?"
  | "#NULL!"
  | "#SPILL!"
  | "#CALC!"
  | "#BUSY!";

/** An error that stands in a cell; `message` is there only when this engine wrote it. */
export interface CellError {
  readonly error: CellErrorCode;
  readonly message?: string;
}

export type Cell = number | string | boolean | null | CellError;

export type CellTable = readonly (readonly Cell[])[];

/** One argument of a call: a cell's value, a range, or nothing. */
export type Argument = Cell | CellTable | undefined;

export function isCellError(value: unknown): value is CellError {
  return typeof value === "object" && value !== null && "error" in value;
}

export function isCellTable(value: Argument): value is CellTable {
  return Array.isArray(value);
}

/** Hosts hand over a blank cell as nothing, as "" or as 0; the first two are told from a value here, 0 by each parameter. */
export function isBlank(value: Argument): boolean {
  return (
    value === undefined || value === null || (typeof value === "string" && value.trim() === "")
  );
}
