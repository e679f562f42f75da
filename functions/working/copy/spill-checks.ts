/** A column beside the spill of a solved feed table that says of each row whether its equations hold. */
import { fixedAddress } from "../../../src/plans/addresses.js";
import type { PlanCell } from "../../../src/plans/sheet-plan.js";
import { cellWithin } from "../lines/call-answer.js";
import type { CallBlock } from "../native/call-block.js";
import type { SheetRange } from "../lines/call-tree.js";
import type { FeedSpill } from "./feed-spill.js";

/** The cells right of a spill, row by row. */
export function cellsBeside({ anchor, rows, columns }: FeedSpill): SheetRange[] {
  return Array.from({ length: rows }, (_, row) => cellWithin(anchor, row, columns));
}

/**
 * What each row of the spill says of itself. A row whose own equations hold is still not solved when another row or an
 * input is not what it was.
 * @param nameOf A cell of the workings as a formula beside the spill names it.
 */
export function columnBeside(
  spill: FeedSpill,
  { checks }: CallBlock,
  wholeAt: string,
  nameOf: (address: string) => string,
): PlanCell[] {
  const whole = nameOf(fixedAddress(wholeAt));
  return cellsBeside(spill).flatMap(({ address }, row): PlanCell[] => {
    if (row === 0) return [{ at: address, value: "Still holds", style: "tableHeading" }];
    const own = checks
      .filter(({ line }) => spill.isAbout(line, row))
      .map((check) => `${nameOf(fixedAddress(check.at))}="no"`);
    if (own.length === 0) return [];
    const rest = `IF(${whole}="no","no: see Workings","yes")`;
    const formula = `IF(OR(${own.join(",")}),"no",${rest})`;
    return [{ at: address, formula, style: "resultText" }];
  });
}
