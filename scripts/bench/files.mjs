/** Files: writing and reading a budget of 2 000 formulas as .xlsx, and how large it is. */
import { loadTypeScript } from "../load-typescript.mjs";
import { line, median } from "./measure.mjs";
import { FORMULAS, runsBudget } from "./runs-budget.mjs";

/** @param {(id: string, args: unknown[]) => any} answer */
export async function benchFiles(answer) {
  const { writeXlsx } = await loadTypeScript("taskpane/hosts/files/write/xlsx-writer.ts");
  const { readXlsx } = await loadTypeScript("taskpane/hosts/files/read/xlsx-reader.ts");
  const snapshot = runsBudget(answer);
  const { bytes } = writeXlsx(snapshot);
  const again = readXlsx(bytes).snapshot;
  if (again.sheets[0].cells.length !== snapshot.sheets[0].cells.length)
    throw new Error("the file does not hold every cell");
  const writing = median(() => writeXlsx(snapshot));
  const reading = median(() => readXlsx(bytes));
  const widths = [28, 12, 12, 12];
  line([".xlsx file", "ms to write", "ms to read", "kB"], widths);
  line(
    [
      `${FORMULAS} formulas`,
      writing.toFixed(1),
      reading.toFixed(1),
      (bytes.length / 1_000).toFixed(1),
    ],
    widths,
  );
  console.log("");
}
