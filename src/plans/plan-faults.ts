/** What is wrong with a plan, in sentences; none for a plan that every host can write. */
import { type RangePlace, rangePlace, cellAddress, cellPlace } from "./addresses.js";
import { fillPlaceholders, plainNames } from "./placeholders.js";
import type { PlanCell, PlanChart, PlanPicture, SheetPlan, WorkbookPlan } from "./sheet-plan.js";

export function planFaults(plan: WorkbookPlan): readonly string[] {
  return [
    ...repeated(plan.sheets.map(({ key }) => key)).map((key) => `two sheets have the key ${key}`),
    ...repeated(plan.sheets.map(({ name }) => name.toLowerCase())).map(
      (name) => `two sheets are called ${name}`,
    ),
    ...repeated(plan.names.map(({ name }) => name.toLowerCase())).map(
      (name) => `two names are called ${name}`,
    ),
    ...(/^[A-Z][A-Za-z]*$/.test(plan.stem)
      ? []
      : [`the stem "${plan.stem}" is not a word of letters`]),
    ...plan.sheets.flatMap((sheet) => sheetFaults(plan, sheet)),
    ...plan.names.flatMap(({ name, sheet, range }) => [
      ...(plan.sheets.some(({ key }) => key === sheet)
        ? []
        : [`the name ${name} points to an unknown sheet ${sheet}`]),
      ...(/^[A-Za-z][A-Za-z0-9]*$/.test(name) ? [] : [`"${name}" cannot be a name`]),
      ...rangeFaults(`the name ${name}`, range),
    ]),
  ];
}

function sheetFaults(plan: WorkbookPlan, sheet: SheetPlan): readonly string[] {
  const where = (at: string) => `${sheet.key}!${at}`;
  return [
    ...(/^[^:\\/?*[\]']{1,31}$/.test(sheet.name)
      ? []
      : [`"${sheet.name}" cannot be a sheet's name`]),
    ...repeated(sheet.cells.map(({ at }) => at)).map((at) => `${where(at)} is written twice`),
    ...sheet.cells.flatMap((cell) => cellFaults(plan, where(cell.at), cell)),
    ...spillFaults(sheet),
    ...sheet.merges.flatMap((range) => rangeFaults(`${sheet.key} merge`, range)),
    ...sheet.validations.flatMap((validation) => [
      ...rangeFaults(`${sheet.key} validation`, validation.range),
      ...(validation.kind === "offer"
        ? formulaFaults(plan, `${sheet.key} validation on ${validation.range}`, validation.source)
        : []),
    ]),
    ...sheet.conditionalFormats.flatMap((rule) => [
      ...rangeFaults(`${sheet.key} rule`, rule.range),
      ...(rule.kind === "formula"
        ? [
            ...formulaFaults(plan, `${sheet.key} rule on ${rule.range}`, rule.formula),
            ...(/FEED/i.test(rule.formula)
              ? [`${sheet.key} rule on ${rule.range} holds a cell function`]
              : []),
          ]
        : []),
    ]),
    ...[...sheet.pictures, ...(sheet.charts ?? [])].flatMap((picture) =>
      pictureFaults(sheet.key, picture),
    ),
    ...(sheet.charts ?? []).flatMap((chart) => chartFaults(sheet, chart)),
  ];
}

function pictureFaults(
  key: string,
  { at, size, svg, alternative }: PlanPicture,
): readonly string[] {
  return [
    ...rangeFaults(`${key} picture`, at),
    ...sizeFaults(`${key} picture at ${at}`, size),
    ...(svg.startsWith("<svg ") ? [] : [`${key} picture at ${at} is no svg`]),
    ...(alternative.trim() === "" ? [`${key} picture at ${at} has no alternative text`] : []),
  ];
}

function sizeFaults(where: string, size: readonly number[]): string[] {
  return size.every((length) => length > 0 && Number.isFinite(length))
    ? []
    : [`${where} is ${size.join(" by ")} pixels`];
}

/** A chart takes its numbers from cells of its own sheet: a heading and numbers for each series. */
function chartFaults(
  { key, cells }: SheetPlan,
  { range, series, title, chartSize }: PlanChart,
): readonly string[] {
  const where = `${key} chart "${title}"`;
  const unplaced = rangeFaults(where, range);
  if (unplaced.length > 0) return unplaced;
  const { top, left, bottom, right } = rangePlace(range);
  const filled = new Set(
    cells.filter(({ value, formula }) => (value ?? formula) !== undefined).map(({ at }) => at),
  );
  const at = (row: number, column: number) => cellAddress({ row, column });
  const columns = Array.from({ length: right - left + 1 }, (_, index) => left + index);
  return [
    ...sizeFaults(where, chartSize),
    ...(columns.length - 1 === series.length
      ? []
      : [`${where} has ${columns.length - 1} columns for ${series.length} series`]),
    ...(bottom > top ? [] : [`${where} has no rows`]),
    ...columns
      .filter((column) => !filled.has(at(top, column)))
      .map((column) => `${where} has no heading in ${at(top, column)}`),
  ];
}

function cellFaults(
  plan: WorkbookPlan,
  where: string,
  { at, value, formula, spill }: PlanCell,
): readonly string[] {
  return [
    ...rangeFaults(where, at),
    ...(value !== undefined && formula !== undefined
      ? [`${where} has both a value and a formula`]
      : []),
    ...(typeof value === "number" && !Number.isFinite(value) ? [`${where} holds ${value}`] : []),
    ...(spill && formula === undefined ? [`${where} spills without a formula`] : []),
    ...(formula === undefined ? [] : formulaFaults(plan, where, formula)),
  ];
}

/** Not understood alike by every spreadsheet, or by files; see the meaning of each in its message. */
const NOT_ALIKE: readonly (readonly [RegExp, string])[] = [
  [/^=/, "starts with ="],
  [/#(?![NDVRC])/, "refers to a spill with #"],
  [/@/, "holds @"],
  [/\[/, "holds a structured reference"],
  [/\$?\b[A-Z]{1,3}:\$?[A-Z]{1,3}\b/, "refers to whole columns"],
  [/(^|[^A-Z\d])\$?\d+:\$?\d+/, "refers to whole rows"],
  [/\bLET\s*\(/i, "uses LET"],
  [/\bLAMBDA\s*\(/i, "uses LAMBDA"],
];

/** One spreadsheet takes the text of a comparison for a pattern, the others do not. */
const COMPARED_PATTERN = /[=<>]\s*"(?:[^"]|"")*[*?~](?:[^"]|"")*"/;

/** What of a formula not every spreadsheet understands alike. */
export function notAlike(formula: string): readonly string[] {
  // Texts, and names of sheets, may hold anything.
  const bare = formula.replace(/"(?:[^"]|"")*"|'(?:[^']|'')*'/g, '""');
  return [
    ...NOT_ALIKE.filter(([pattern]) => pattern.test(bare)).map(([, meaning]) => meaning),
    ...(COMPARED_PATTERN.test(formula) ? ["compares with *, ? or ~, use EXACT"] : []),
  ];
}

function formulaFaults(plan: WorkbookPlan, where: string, formula: string): readonly string[] {
  const found = notAlike(formula).map((meaning) => `${where} ${meaning}: ${formula}`);
  try {
    fillPlaceholders(formula, plainNames(plan, "FEED"));
    return found;
  } catch (error) {
    return [...found, `${where}: ${(error as RangeError).message}`];
  }
}

/** Cells that a spill reaches must be free. */
function spillFaults({ key, cells }: SheetPlan): readonly string[] {
  return cells
    .filter(({ spill }) => spill !== undefined)
    .flatMap(({ at, spill: [rows, columns] = [1, 1] }) => {
      const { row, column } = cellPlace(at);
      const reach: RangePlace = {
        top: row,
        left: column,
        bottom: row + rows - 1,
        right: column + columns - 1,
      };
      return cells
        .filter(
          (other) =>
            other.at !== at &&
            (other.value !== undefined || other.formula !== undefined) &&
            isInside(other.at, reach),
        )
        .map((other) => `${key}!${at} spills over ${other.at}`);
    });
}

function isInside(at: string, { top, left, bottom, right }: RangePlace) {
  const { row, column } = cellPlace(at);
  return row >= top && row <= bottom && column >= left && column <= right;
}

function rangeFaults(where: string, range: string): readonly string[] {
  try {
    rangePlace(range);
    return [];
  } catch (error) {
    return [`${where}: ${(error as RangeError).message}`];
  }
}

function repeated(words: readonly string[]): readonly string[] {
  return [...new Set(words.filter((word, index) => words.indexOf(word) < index))];
}
