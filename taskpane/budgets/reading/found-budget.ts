/** A budget as it stands in a workbook. */

/** What a sheet holds, as a host reads it: an error by its code, an empty cell as "". */
export type ReadValue = string | number | boolean | { readonly error: string };

export interface ReadRange {
  readonly sheet: string;
  /** A1 of the range, `B2:M30`. */
  readonly address: string;
  readonly values: readonly (readonly ReadValue[])[];
  /** With `=`; "" where a cell holds none. */
  readonly formulas?: readonly (readonly string[])[];
}

export interface CellPlace {
  readonly sheet: string;
  readonly address: string;
}

/**
 * A budget found in a workbook by its names: stem `Ridge`, and each range by the part of its name behind the stem
 * (`Feed`, `Solved`, `Checks`, `Cables`, `Accepted`, `About`, …). A missing one is a warning, not a crash.
 */
export interface FoundBudget {
  readonly stem: string;
  readonly ranges: Readonly<Partial<Record<string, ReadRange>>>;
}
