/** What a file may be at most. Everything is counted while it is read, whatever the file says of itself. */
import { HostError } from "../host.js";

export const FILE_LIMITS = {
  packedBytes: 20_000_000,
  unpackedBytes: 200_000_000,
  parts: 2_000,
  sheets: 64,
  cells: 500_000,
  /** As many as the workbench calculates in some seconds. */
  formulas: 50_000,
  rows: 100_000,
  columns: 1_000,
  /** In one cell, as spreadsheets hold it. */
  textLength: 32_767,
  formatLength: 255,
  formulaLength: 8_192,
  formulaDepth: 64,
  /** In all cells and formulas together: few texts may be referred to from many cells. */
  characters: 50_000_000,
  /** Characters of formulas that a file writes once for many cells, counted in all of them: each has to be worked out. */
  sharedCharacters: 10_000_000,
  names: 10_000,
  rules: 5_000,
  merges: 20_000,
  images: 200,
  xmlDepth: 64,
  /** Held at once; rows, cells and texts are taken one by one. */
  xmlElements: 1_000_000,
  readMs: 10_000,
} as const;

/** The file is not opened; the message is for the user. */
export class FileRefusedError extends HostError {
  override readonly name = "FileRefusedError";
}

/** @throws {FileRefusedError} */
export function requireAtMost(count: number, most: number, what: string): void {
  if (count > most)
    throw new FileRefusedError(
      `The file has more than ${most.toLocaleString("en")} ${what}, which is more than the workbench opens.`,
    );
}
