/**
 * Takes out of the spreadsheet, as it is bundled, what makes it slow. Of its calculation:
 * - every field of its objects is defined by a call of a helper;
 * - every text that is no number is read as a date, a time and a number anew wherever a formula meets it;
 * - all that spills on a sheet is copied as text, twice at each edit, after it was changed in place already;
 * - every calculated cell is sought among all values that its column has, to take it away from the one that it had.
 * Of its drawing: it asks for a frame sixty times a second, also where there is nothing to draw.
 */
import { readFile } from "node:fs/promises";

const CALCULATION = /@univerjs[\\/]engine-formula[\\/]lib[\\/]es[\\/]index\.js$/;

// None of its classes has a field where one that it extends has an accessor: to set it is to define it.
const FIELD = /\b_defineProperty\(this, "([A-Za-z_$][\w$]*)", /g;

const NO_NUMBER = "return { isNumberPattern: false };";
const MOST_TEXTS = 100_000;

/**
 * What stands there, as often as it does, and what is to stand there. Spaces between lines are not compared.
 *
 * @type {readonly (readonly [from: string, times: number, to: string])[]}
 */
const CHANGES_OF_CALCULATION = [
  [
    NO_NUMBER,
    1,
    `if (texts.size >= ${MOST_TEXTS}) texts.clear();
     texts.add(_input);
     ${NO_NUMBER}`,
  ],
  [
    "const parseData = getNumfmtParseValueFilter(_input);",
    1,
    `if (texts.has(_input)) ${NO_NUMBER}
     const parseData = getNumfmtParseValueFilter(_input);`,
  ],
  // Its cells belong to it alone: a calculation makes new ones, and nobody changes one.
  [
    "[sheetId] = arrayFormulaCellMatrixData.getData();",
    2,
    "[sheetId] = arrayFormulaCellMatrixData.getMatrix();",
  ],
  [
    `if (isForceUpdate) {
       for (const [_, _cellList] of columnMap) if (_cellList.has(row)) {
         _cellList.delete(row);
         break;
       }
     }
     const _value = normalizeValue(value);`,
    1,
    `const _value = normalizeValue(value);
     const valueOfRow = columnMap.valueOfRow ??= new Map();
     if (isForceUpdate && valueOfRow.has(row)) {
       const before = valueOfRow.get(row);
       const rows = columnMap.get(before);
       rows?.delete(row);
       if (rows?.size === 0) columnMap.delete(before);
     }
     valueOfRow.set(row, _value);`,
  ],
];

const DRAWING = /@univerjs[\\/]engine-render[\\/]lib[\\/]es[\\/]index\.js$/;

/**
 * What is out of date became so through its layer, and a frame draws all of it. So the loop rests after each frame, and a
 * layer starts it again; where that is while a frame is drawn, another one follows.
 *
 * @type {typeof CHANGES_OF_CALCULATION}
 */
const CHANGES_OF_DRAWING = [
  [
    `"_renderFunction", (timestamp) => {`,
    1,
    `"_renderFunction", (timestamp) => {
     this._renderingQueueLaunched = false;`,
  ],
  [
    `if (this._renderFrameTasks.length > 0) this._requestNewFrameHandler = requestNewFrame(this._renderFunction);
     else this._renderingQueueLaunched = false;`,
    1,
    "",
  ],
  [
    `makeDirty(state = true) {
       this._dirty = state;
       /**`,
    1,
    `makeDirty(state = true) {
       this._dirty = state;
       if (state) this.scene.getEngine()?.startRenderLoop();
       /**`,
  ],
];

/** @type {import("esbuild").Plugin} */
export const leanSpreadsheet = {
  name: "lean-spreadsheet",
  setup({ onLoad }) {
    onLoad({ filter: CALCULATION }, async ({ path }) => {
      const text = (await readFile(path, "utf8")).replace(FIELD, "(this.$1 = ");
      const contents = changedText(text, CHANGES_OF_CALCULATION, path);
      return { contents: `const texts = new Set();\n${contents}`, loader: "js" };
    });
    onLoad({ filter: DRAWING }, async ({ path }) => ({
      contents: changedText(await readFile(path, "utf8"), CHANGES_OF_DRAWING, path),
      loader: "js",
    }));
  },
};

/** @throws {Error} where the spreadsheet is written in another way. */
function changedText(text, changes, path) {
  return changes.reduce((changed, [from, times, to]) => {
    const found = new RegExp(
      from
        .trim()
        .split(/\s*\n\s*/)
        .map(escaped)
        .join("\\s*"),
      "g",
    );
    const count = changed.match(found)?.length ?? 0;
    if (count !== times) throw new Error(`${path}: ${count} times, not ${times}: ${from}`);
    return changed.replace(found, () => to);
  }, text);
}

/** @param {string} text */
function escaped(text) {
  return text.replace(/[.*+?^${}()|[\]\\]/g, "\\$&");
}
