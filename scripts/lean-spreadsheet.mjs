/**
 * Takes out of the spreadsheet, as it is bundled, what makes it slow. Of its calculation:
 * - every field of its objects is defined by a call of a helper;
 * - all that spills on a sheet is copied as text, twice at each edit, after it was changed in place already;
 * - every calculated cell is sought among all values that its column has, to take it away from the one that it had.
 * Of its drawing:
 * - it asks for a frame sixty times a second, also where there is nothing to draw;
 * - it asks for the look of every cell in sight in each frame and each part of the sheet, also where it draws none.
 * Of both: every text is read as a date, a time and a number anew wherever it is met.
 */
import { readFile } from "node:fs/promises";

const CALCULATION = /@univerjs[\\/]engine-formula[\\/]lib[\\/]es[\\/]index\.js$/;

// None of its classes has a field where one that it extends has an accessor: to set it is to define it.
const FIELD = /\b_defineProperty\(this, "([A-Za-z_$][\w$]*)", /g;

/**
 * What stands there, as often as it does, and what is to stand there. Spaces between lines are not compared.
 *
 * @type {readonly (readonly [from: string, times: number, to: string])[]}
 */
const CHANGES_OF_CALCULATION = [
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

const READING = /@univerjs[\\/]core[\\/]lib[\\/]es[\\/]index\.js$/;

const MOST_TEXTS = 100_000;

/** @type {typeof CHANGES_OF_CALCULATION} */
const CHANGES_OF_READING = [
  [
    "const getNumfmtParseValueFilter = (value) => {",
    1,
    `const parsedTexts = new Map();
     const getNumfmtParseValueFilter = (value) => {
       let parsed = parsedTexts.get(value);
       if (parsed === undefined) {
         parsed = parsedText(value);
         if (parsedTexts.size >= ${MOST_TEXTS}) parsedTexts.clear();
         parsedTexts.set(value, parsed);
       }
       return parsed && { ...parsed };
     };
     const parsedText = (value) => {`,
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
  // The rest of a frame's parts are copied as they were drawn last, and those of the letters and numbers hold no cell.
  [
    "spreadsheetSkeleton.setStylesCache(viewportInfo);",
    1,
    `const { viewportKey: part, cacheCanvas: drawn } = viewportInfo ?? {};
     const isMoved = viewportInfo?.diffX || viewportInfo?.diffY || viewportInfo?.shouldCacheUpdate;
     const isDue =
       !drawn ||
       isMoved ||
       viewportInfo.diffBounds.length > 0 ||
       viewportInfo.isDirty ||
       viewportInfo.isForceDirty ||
       this.isDirty() ||
       this.isForceDirty();
     if (isDue && !sheetHeaderViewportKeys.includes(part))
       spreadsheetSkeleton.setStylesCache(viewportInfo);
     else spreadsheetSkeleton.updateVisibleRange(viewportInfo);`,
  ],
];

/** @type {import("esbuild").Plugin} */
export const leanSpreadsheet = {
  name: "lean-spreadsheet",
  setup({ onLoad }) {
    onLoad({ filter: CALCULATION }, async ({ path }) => {
      const text = (await readFile(path, "utf8")).replace(FIELD, "(this.$1 = ");
      return { contents: changedText(text, CHANGES_OF_CALCULATION, path), loader: "js" };
    });
    for (const [filter, changes] of [
      [READING, CHANGES_OF_READING],
      [DRAWING, CHANGES_OF_DRAWING],
    ])
      onLoad({ filter }, async ({ path }) => ({
        contents: changedText(await readFile(path, "utf8"), changes, path),
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
