/** Values of a workbook that calculates only when it is asked to. */
import type { HostValue } from "../../../taskpane/hosts/host.js";
import {
  type CalculatedCells,
  isFormula,
  type StoredSheet,
} from "../../hosts/memory-calculation.js";

/** What is typed shows at once; a formula shows what it showed before, a new one 0. */
export function calculatedByHand(
  sheets: ReadonlyMap<string, StoredSheet>,
  before: CalculatedCells,
): CalculatedCells {
  return new Map(
    [...sheets].map(([name, cells]) => {
      const values = new Map<string, HostValue>(before.get(name));
      for (const [address, { content }] of cells) {
        if (isFormula(content)) values.set(address, before.get(name)?.get(address) ?? 0);
        else if (content === "") values.delete(address);
        else values.set(address, content);
      }
      return [name, values];
    }),
  );
}
