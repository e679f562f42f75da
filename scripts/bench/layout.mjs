/** A budget of 2 000 formulas laid out in native formulas, and that written as .xlsx: how long each takes, how large the file is. */
import { loadTypeScript } from "../load-typescript.mjs";
import { line, median } from "./measure.mjs";
import { FORMULAS, emptySheet, runsBudget } from "./runs-budget.mjs";

const COLUMNS = 9;

/** @param {(id: string, args: unknown[]) => any} answer */
export async function benchLayout(answer) {
  const { formulaTrees } = await loadTypeScript("taskpane/formula-reading/cell-reading.ts");
  const { plainCopy } = await loadTypeScript("functions/working/copy/plain-copy.ts");
  const { fillPlaceholders, plainNames } = await loadTypeScript("src/plans/placeholders.ts");
  const { writeXlsx } = await loadTypeScript("taskpane/hosts/files/write/xlsx-writer.ts");
  const [sheet] = runsBudget(answer).sheets;
  const read = asRead(sheet);
  const contents = [
    {
      range: {
        sheet: sheet.name,
        address: `A1:I${sheet.cells.length / COLUMNS}`,
      },
      ...read,
    },
  ];
  const trees = () => formulaTrees(contents, [], "FEED");
  const copy = (read_ = trees()) =>
    plainCopy({
      title: "Runs",
      sheets: [{ name: sheet.name, ...read }],
      trees: read_,
    }).plan;
  const plan = copy();
  const snapshot = asSnapshot(plan, (formula) =>
    fillPlaceholders(formula, plainNames(plan, "FEED")),
  );
  const native = snapshot.sheets.flatMap(({ cells }) =>
    cells.filter(({ formula }) => formula !== undefined),
  );
  if (native.length < FORMULAS || native.some(({ formula }) => /FEED\./.test(formula)))
    throw new Error("the budget is not laid out whole");
  const parsed = trees();
  const reading = median(trees);
  const laying = median(() => copy(parsed));
  const writing = median(() => writeXlsx(snapshot));
  const widths = [28, 16, 15, 17, 12, 8];
  line(
    ["laid out", "ms to read them", "ms to lay out", "native formulas", "ms to write", "kB"],
    widths,
  );
  line(
    [
      `${FORMULAS} formulas`,
      reading.toFixed(1),
      laying.toFixed(1),
      String(native.length),
      writing.toFixed(1),
      (writeXlsx(snapshot).bytes.length / 1_000).toFixed(1),
    ],
    widths,
  );
  console.log("");
}

/** As a host reads a sheet: tables of values, formulas and formats. */
function asRead({ cells }) {
  const table = (pick) =>
    Array.from({ length: cells.length / COLUMNS }, (_, row) =>
      cells.slice(row * COLUMNS, (row + 1) * COLUMNS).map(pick),
    );
  return {
    values: table(({ value }) => value),
    formulas: table(({ formula }) => (formula === undefined ? "" : `=${formula}`)),
    formats: table(({ look }) => look.format ?? "General"),
  };
}

/** What is written has no stored results: the program that opens it calculates. */
function asSnapshot({ sheets }, filled) {
  return {
    names: [],
    sheets: sheets.map(({ name, cells }) => ({
      ...emptySheet(name),
      cells: cells.map(({ at, value, formula, note }) => ({
        at,
        ...(value !== undefined && { value }),
        ...(formula !== undefined && { formula: filled(formula), value: 0 }),
        ...(note !== undefined && { note }),
      })),
    })),
  };
}
