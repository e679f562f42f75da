/** The budget of 2 000 formulas that is laid out, written and read. */

export const FORMULAS = 2_000;
const FORMULAS_PER_ROW = 5;

/** A table of conductor runs: an item, three givens and five results in each row. */
export function runsBudget(answer) {
  const cells = [];
  for (let row = 1; row <= FORMULAS / FORMULAS_PER_ROW; row++) {
    const [length, area, current] = [10 + row, [4, 6, 10, 16][row % 4], 1 + (row % 20)];
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
      result(`E${row}`, `FEED.CONDUCTOR_DROP(D${row},B${row},C${row},40)`, drop),
      result(`F${row}`, `FEED.CONDUCTOR_LOSS(D${row},B${row},C${row},40)`, loss),
      result(`G${row}`, `E${row}/400`, drop / 400),
      result(`H${row}`, `IF(G${row}>0.03,"check","ok")`, drop > 12 ? "check" : "ok"),
      result(`I${row}`, `SUM(F$1:F${row})`, loss * row),
    );
  }
  return { sheets: [{ ...emptySheet("Budget"), cells }], names: [] };
}

function result(at, formula, value) {
  return { at, value, formula, look: { format: "0.000" } };
}

export function emptySheet(name) {
  return {
    name,
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
}
