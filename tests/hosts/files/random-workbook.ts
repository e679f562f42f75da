/** Workbooks of every kind that a file may hold, by chance. */
import fc from "fast-check";
import { rangeAddress, cellAddress } from "../../../src/plans/addresses.js";
import {
  BORDER_LINES,
  type CellLook,
  type CellSnapshot,
  COMPARISONS,
  type ImageSnapshot,
  type RuleSnapshot,
  type SheetSnapshot,
  type ValidationSnapshot,
  type WorkbookSnapshot,
} from "../../../taskpane/hosts/files/workbook-snapshot.js";

const ROWS = 40;
const COLUMNS = 12;

/** Only what is there: a file does not tell "not given" from "given as nothing". */
function some<T extends object>(model: {
  [Key in keyof T]-?: fc.Arbitrary<NonNullable<T[Key]>>;
}): fc.Arbitrary<T> {
  return fc.record(model, { requiredKeys: [] }) as unknown as fc.Arbitrary<T>;
}

const yes = fc.constant(true as const);
const colour = fc
  .integer({ min: 0, max: 0xffffff })
  .map((code) => `#${code.toString(16).padStart(6, "0")}`);
const text = fc.oneof(
  fc.string({ maxLength: 40, unit: "binary" }).filter(isSomething),
  fc.constantFrom(
    "=1+1",
    "+SUM(A1)",
    "-2",
    "@A1",
    '=HYPERLINK("http://example.org")',
    "|cmd",
    "1/2",
    "6-4",
    "TRUE",
    "1e5",
    "#N/A",
    " blanks at both ends ",
    "two\nlines\tand a tab",
    "_x0041_ is not A",
    "a & b < c > d \"e\" 'f' ]]>",
    "Ω 2,5 mm²",
  ),
);

function isSomething(candidate: string): boolean {
  return candidate !== "";
}

const number = fc.oneof(
  // Spreadsheets know no negative zero.
  fc.double({ noNaN: true, noDefaultInfinity: true }).map((made) => made + 0),
  fc.integer({ min: -1e6, max: 1e6 }),
);
const error = fc
  .constantFrom("#N/A", "#VALUE!", "#NUM!", "#DIV/0!", "#REF!", "#NAME?")
  .map((code) => ({ error: code }));
const value = fc.oneof(text, number, fc.boolean(), error);
const formula = fc.constantFrom(
  'FEED.CONDUCTOR_DROP(A1,2,"2.5 mm²")',
  'IFERROR(FEED.RATIO_OUTPUT(A1,1/8,B2),"FEED.X(")*2',
  "SUM('Some sheet'!$A$1:B7)",
  'IF(A1>=3,"a ""quoted"" b",TRUE)',
  "XLOOKUP(A1,B1:B9,C1:C9)",
  "LET(x,A1*2,x+Feed)",
  'A1&"=HYPERLINK("',
  "SUMPRODUCT((A1:A5>2)*B1:B5)",
);

const look: fc.Arbitrary<CellLook> = some<CellLook>({
  bold: yes,
  italic: yes,
  underline: yes,
  strike: yes,
  font: fc.constantFrom("Arial", "Liberation Sans"),
  size: fc.integer({ min: 6, max: 40 }).filter((size) => size !== 11),
  colour,
  fill: colour,
  horizontal: fc.constantFrom("left", "center", "right", "justify"),
  vertical: fc.constantFrom("top", "middle", "bottom"),
  wrap: yes,
  borders: some({
    top: fc.record({ line: fc.constantFrom(...BORDER_LINES), colour }),
    bottom: fc.record({ line: fc.constantFrom(...BORDER_LINES), colour }),
    left: fc.record({ line: fc.constantFrom(...BORDER_LINES), colour }),
    right: fc.record({ line: fc.constantFrom(...BORDER_LINES), colour }),
  }).filter((borders) => Object.keys(borders).length > 0),
  format: fc.constantFrom('0.00 "V"', "0.0%", "#,##0;[Red]-#,##0", "d-mmm-yy"),
}).filter((made) => Object.keys(made).length > 0);

const content = fc.oneof(
  { weight: 3, arbitrary: fc.record({ value }) },
  fc.record({ value: fc.oneof(value, fc.constant("")), formula }),
  fc.record({ look }),
  fc.record({ value, look }),
  fc.record({ value, formula, look, note: text }),
  fc.record({ note: text }),
);

const place = fc.record({
  row: fc.nat({ max: ROWS - 1 }),
  column: fc.nat({ max: COLUMNS - 1 }),
});

const cells: fc.Arbitrary<CellSnapshot[]> = fc
  .uniqueArray(fc.tuple(place, content), {
    maxLength: 40,
    selector: ([{ row, column }]) => row * COLUMNS + column,
  })
  .map((made) =>
    made
      .sort(([one], [other]) => one.row - other.row || one.column - other.column)
      .map(([at, inside]) => ({ at: cellAddress(at), ...inside })),
  );

const range = fc.tuple(place, place).map(([one, other]) =>
  rangeAddress({
    top: Math.min(one.row, other.row),
    bottom: Math.max(one.row, other.row),
    left: Math.min(one.column, other.column),
    right: Math.max(one.column, other.column),
  }),
);
const ranges = fc.array(range, { minLength: 1, maxLength: 3 });
const bound = fc.integer({ min: -50, max: 50 }).map(String);
const bounds = fc.tuple(bound, bound).map((both) => [...both]);
const comparison = fc.constantFrom(...COMPARISONS);

const inValidation = {
  ranges,
  allowsBlank: fc.boolean(),
  onFault: fc.constantFrom("stop", "warning", "information"),
  message: text.map((words) => [...words].slice(0, 60).join("")).filter(isSomething),
} as const;
const validation = fc.oneof(
  fc.record({
    ...inValidation,
    kind: fc.constant("list"),
    values: fc.array(fc.constantFrom("wet", 'a "b"', "one unit", "dry"), {
      minLength: 1,
      maxLength: 4,
    }),
  }),
  fc.record({
    ...inValidation,
    kind: fc.constantFrom("range", "custom"),
    formula: fc.constantFrom("$A$1:$A$9", "'My sheet'!$B$2:$B$4", "A1>0"),
  }),
  fc.record({
    ...inValidation,
    kind: fc.constantFrom("whole", "decimal", "date", "textLength"),
    comparison,
    bounds,
  }),
) as fc.Arbitrary<ValidationSnapshot>;

const paint = some({ bold: yes, italic: yes, colour, fill: colour });
const point = fc.oneof(
  fc.record({ type: fc.constantFrom("min", "max") }),
  fc.record({
    type: fc.constantFrom("num", "percent", "percentile"),
    value: fc.integer({ min: 0, max: 100 }),
  }),
);
const inRule = { ranges, stops: fc.boolean() };
const rule = fc.oneof(
  fc.record({
    ...inRule,
    kind: fc.constant("formula"),
    formula: fc.constantFrom("$F4>0.03", 'AND(A1<>"",A1<2)'),
    paint,
  }),
  fc.record({
    ...inRule,
    kind: fc.constant("compare"),
    comparison,
    bounds,
    paint,
  }),
  fc.record({
    ...inRule,
    kind: fc.constant("scale"),
    points: fc.array(
      fc.tuple(point, colour).map(([made, its]) => ({ ...made, colour: its })),
      { minLength: 2, maxLength: 3 },
    ),
  }),
  fc.record({
    ...inRule,
    kind: fc.constant("bar"),
    least: point,
    most: point,
    colour,
  }),
) as fc.Arbitrary<RuleSnapshot>;

/** One transparent pixel. */
export const PIXEL =
  "iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNkYPhfDwAChwGA60e6kgAAAABJRU5ErkJggg==";

const image: fc.Arbitrary<ImageSnapshot> = fc.record(
  {
    row: fc.nat({ max: ROWS }),
    column: fc.nat({ max: COLUMNS }),
    offsetX: fc.nat({ max: 30 }),
    offsetY: fc.nat({ max: 15 }),
    width: fc.integer({ min: 1, max: 900 }),
    height: fc.integer({ min: 1, max: 900 }),
    type: fc.constant("png"),
    base64: fc.constant(PIXEL),
    alternative: fc.constantFrom("Loss: 5 W", 'a "field" & <more>', "Ω → µ"),
  },
  {
    requiredKeys: ["row", "column", "offsetX", "offsetY", "width", "height", "type", "base64"],
  },
);

const sizes = (most: number) =>
  fc
    .uniqueArray(fc.tuple(fc.nat({ max: most }), fc.integer({ min: 10, max: 400 })), {
      maxLength: 5,
      selector: ([line]) => line,
    })
    .map((entries) => Object.fromEntries(entries));
const lines = (most: number) =>
  fc
    .uniqueArray(fc.nat({ max: most }), { maxLength: 3 })
    .map((made) => made.sort((one, other) => one - other));

const sheet = (name: string): fc.Arbitrary<SheetSnapshot> =>
  fc
    .record(
      {
        name: fc.constant(name),
        hidden: yes,
        tabColour: colour,
        gridlinesHidden: yes,
        cells,
        columnWidths: sizes(COLUMNS),
        rowHeights: sizes(ROWS),
        hiddenColumns: lines(COLUMNS),
        hiddenRows: lines(ROWS),
        frozen: fc.record({
          rows: fc.nat({ max: 5 }),
          columns: fc.nat({ max: 3 }),
        }),
        merges: fc.constantFrom([], ["A60:C60", "B61:B70"]),
        validations: fc.array(validation, { maxLength: 3 }),
        rules: fc.array(rule, { maxLength: 3 }),
        images: fc.array(image, { maxLength: 2 }),
      },
      {
        requiredKeys: [
          "name",
          "cells",
          "columnWidths",
          "rowHeights",
          "hiddenColumns",
          "hiddenRows",
          "frozen",
          "merges",
          "validations",
          "rules",
          "images",
        ],
      },
    )
    .map(withHiddenWidths);

/** A hidden column has a width in a file, if only to be shown with again. */
function withHiddenWidths(made: SheetSnapshot): SheetSnapshot {
  const given = made.hiddenColumns.map((column) => [column, 80] as const);
  return {
    ...made,
    columnWidths: { ...Object.fromEntries(given), ...made.columnWidths },
  };
}

function shown(made: SheetSnapshot): SheetSnapshot {
  const entries = Object.entries(made).filter(([key]) => key !== "hidden");
  return Object.fromEntries(entries) as unknown as SheetSnapshot;
}

export const workbooks: fc.Arbitrary<WorkbookSnapshot> = fc.record({
  sheets: fc
    .tuple(sheet("Inputs"), sheet("It's & 'that' <2>"), sheet("Ω"))
    // At least one sheet of a workbook is shown.
    .map((sheets) => sheets.map((made, index) => (index === 0 ? shown(made) : made))),
  names: fc.constantFrom(
    [],
    [
      { name: "Ridge_Feed", refersTo: "'Inputs'!$A$1:$T$30" },
      { name: "Density", refersTo: "8960" },
      { name: "Twice", refersTo: "2*FEED.RATIO_OUTPUT('Inputs'!$B$4,1/8,2)" },
      { name: "Local", refersTo: "'Ω'!$B$2", sheet: "Ω" },
      { name: "Words", refersTo: '"a & b"' },
    ],
  ),
});
