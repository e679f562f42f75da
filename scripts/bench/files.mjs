/** Files: writing and reading a budget of 2 000 formulas as .xlsx, and how large it is. */
import { loadTypeScript } from "../load-typescript.mjs";
import { line, median } from "./measure.mjs";

const FORMULAS = 2_000;
const FORMULAS_PER_ROW = 5;

/** @param {(id: string, args: unknown[]) => any} answer */
export async function benchFiles(answer) {
  const { writeXlsx } = await loadTypeScript(
    "taskpane/hosts/files/xlsx-writer.ts",
  );
  const { readXlsx } = await loadTypeScript(
    "taskpane/hosts/files/xlsx-reader.ts",
  );
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

/** A table of conductor runs: an item, three givens and five results in each row. */
function runsBudget(answer) {
  const cells = [];
  for (let row = 1; row <= FORMULAS / FORMULAS_PER_ROW; row++) {
    const [length, area, current] = [
      10 + row,
      [4, 6, 10, 16][row % 4],
      1 + (row % 20),
    ];
    const look = { fill: "#fff8e1", format: "0.0" };
    cells.push(
      { at: `A${row}`, value: `Run ${row}`, look: { bold: true } },
      { at: `B${row}`, value: length, look },
      { at: `C${row}`, value: area, look },
      { at: `D${row}`, value: current, look },
    );
    const drop = answer("CONDUCTOR_DROP", [current, length, area, 40]);
    const loss = answer("CONDUCTOR_LOSS", [current, length, area, 40]);
    cells.push(
      result(
        `E${row}`,
        `FEED.CONDUCTOR_DROP(D${row},B${row},C${row},40)`,
        drop,
      ),
      result(
        `F${row}`,
        `FEED.CONDUCTOR_LOSS(D${row},B${row},C${row},40)`,
        loss,
      ),
      result(`G${row}`, `E${row}/400`, drop / 400),
      result(
        `H${row}`,
        `IF(G${row}>0.03,"check","ok")`,
        drop > 12 ? "check" : "ok",
      ),
      result(`I${row}`, `SUM(F$1:F${row})`, loss * row),
    );
  }
  return { sheets: [{ ...EMPTY_SHEET, cells }], names: [] };
}

function result(at, formula, value) {
  return { at, value, formula, look: { format: "0.000" } };
}

const EMPTY_SHEET = {
  name: "Budget",
  columnWidths: { 0: 120 },
  rowHeights: {},
  hiddenColumns: [],
  hiddenRows: [],
  frozen: { rows: 1, columns: 0 },
  merges: [],
  validations: [],
  rules: [],
  images: [],
};
