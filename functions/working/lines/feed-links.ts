/**
 * The coefficients of a solved feed table's rows as native formulas of the table's cells: what each row's equations read,
 * at the loads and the supply voltage that the call names. Rows are linked as the table said when it was read.
 */
import { feedRowGivens } from "../../../src/network/feed-steps.js";
import type { FeedItem } from "../../../src/network/feed-item.js";
import { EQUATION, type Equation, ROW_KINDS } from "../../../src/network/row-kinds.js";
import type { Working } from "../../downfeed.js";
import { readKind } from "../../reading/feed-table.js";
import type { FeedField } from "../../reading/feed-columns.js";
import { feedColumnOf } from "../../reading/feed-headers.js";
import type { ArgumentCell, CallAnswer, UsedArgument } from "./call-answer.js";
import { type GivenLink, type Native, lineKey, placeOf } from "./working-lines.js";

export type FeedLinks = readonly Readonly<Record<string, GivenLink>>[];

interface FigureColumn {
  readonly place: number;
  /** What one of the header's unit is in SI. */
  readonly toSi: number;
}

interface FeedCells {
  readonly columns: ReadonlyMap<FeedField, FigureColumn>;
  readonly rows: readonly (readonly ArgumentCell[])[];
  readonly loads: Native | undefined;
  readonly supply: Native | undefined;
}

/** Of each working, by field; nothing for a call that solves no feed table. */
export function feedLinks(answer: CallAnswer): FeedLinks {
  const { workings } = answer;
  const table = answer.used.find(({ key }) => key === "feedTable");
  if (!table || !workings.every(isFeedRow)) return [];
  const cells = feedCells(table, answer);
  const titles = workings.map(({ title }) => plain(title));
  const rowOf = titles.map((title) =>
    cells.rows.find((row) => textAt(cells, row, "item") === title),
  );
  return workings.map((_, index) => {
    const row = rowOf[index];
    if (!row) return {};
    const fedFrom = titles.indexOf(textAt(cells, row, "fedFrom"));
    const fed = rowOf.flatMap((other, place) =>
      other && textAt(cells, other, "fedFrom") === titles[index] ? [place] : [],
    );
    return linked({
      ...coefficients(cells, row, index),
      inputVoltage: [
        {
          line: fedFrom < 0 ? lineKey(index, "voltage") : lineKey(fedFrom, "outputVoltage"),
        },
      ],
      currentFed: sumOf(fed.map((place) => lineKey(place, "inputCurrent"))),
    });
  });
}

/** By its names: a page may hold the engine, and with it these givens, a second time. */
function isFeedRow({ givens }: Working): boolean {
  return Object.keys(feedRowGivens).every((field) => field in givens);
}

/** A figure of the table's row for the item, as a native number. */
export function feedFigure(answer: CallAnswer, item: string, field: keyof FeedItem): Native {
  const table = answer.used.find(({ key }) => key === "feedTable");
  if (!table) return ["0"];
  const cells = feedCells(table, answer);
  const row = cells.rows.find((one) => textAt(cells, one, "item") === plain(item));
  return row ? figure(cells, row, field) : ["0"];
}

function linked(natives: Readonly<Record<string, Native>>) {
  return Object.fromEntries(
    Object.entries(natives).map(([field, native]): [string, GivenLink] => [
      field,
      { kind: "native", native },
    ]),
  );
}

function sumOf(lines: readonly string[]): Native {
  if (lines.length === 0) return ["0"];
  return lines.flatMap((line, index) => [...(index > 0 ? ["+"] : []), { line }]);
}

function feedCells(table: UsedArgument, { used }: CallAnswer): FeedCells {
  const { width } = table;
  const lines = Array.from({ length: Math.floor(table.cells.length / width) }, (_, row) =>
    table.cells.slice(row * width, (row + 1) * width),
  );
  const [headers = [], ...rows] = lines;
  const option = (name: string): Native | undefined => {
    const cell = used.find(({ key }) => key === name)?.cells[0];
    if (!cell) return undefined;
    const place = placeOf(cell.origin);
    if (place) return [place];
    return typeof cell.value === "string" ? [`"${cell.value}"`] : [String(cell.value ?? "")];
  };
  return {
    columns: new Map(
      headers.flatMap(({ value }, place) => {
        const column = typeof value === "string" ? feedColumnOf(value) : "unknown";
        return column === "unknown" ? [] : [[column.field, { place, toSi: column.toSi }]];
      }),
    ),
    rows,
    loads: option("loads"),
    supply: option("supply"),
  };
}

function plain(text: string): string {
  return text.trim().toLowerCase();
}

function cellOf(
  { columns }: FeedCells,
  row: readonly ArgumentCell[],
  field: keyof FeedItem,
): ArgumentCell | undefined {
  const column = columns.get(field);
  return column === undefined ? undefined : row[column.place];
}

function textAt(cells: FeedCells, row: readonly ArgumentCell[], field: keyof FeedItem): string {
  return plain(String(cellOf(cells, row, field)?.value ?? ""));
}

/** By field name of the row's equations. */
function coefficients(
  cells: FeedCells,
  row: readonly ArgumentCell[],
  index: number,
): Readonly<Record<string, Native>> {
  const { equation } = ROW_KINDS[readKind(textAt(cells, row, "kind"))];
  const number = (field: keyof FeedItem) => figure(cells, row, field);
  const count: Native = ["MAX(1,", ...number("inParallel"), ")"];
  const r = number("resistance");
  const c = number("quadraticLoss");
  const v = number("voltage");
  const e = number("efficiency");
  return {
    voltage:
      equation === EQUATION.line
        ? ["IF(", { line: lineKey(index, "outputCurrent") }, "=0,0,", ...v, ")"]
        : equation === EQUATION.supply
          ? supplyVoltage(
              cells,
              v,
              windowEnd(number("lowestVoltage"), "MIN", v, ["-", ...number("tolerance")]),
              windowEnd(number("highestVoltage"), "MAX", v, ["+", ...number("tolerance")]),
            )
          : v,
    resistance: [...r, "/", ...count],
    ratio: equation === EQUATION.ratio ? number("ratio") : ["1"],
    fixedLoss: [...count, "*", ...number("fixedLoss")],
    linearLoss: number("linearLoss"),
    quadraticLoss:
      equation === EQUATION.ratio
        ? ["(IF(", ...c, "=0,", ...r, ",", ...c, ")-", ...r, ")/", ...count]
        : [...c, "/", ...count],
    stageEfficiency: ["IF(", ...e, "=0,1,", ...e, ")"],
    demand: demand(equation, count, loadOf(cells, row, equation)),
  };
}

function figure(cells: FeedCells, row: readonly ArgumentCell[], field: keyof FeedItem): Native {
  const cell = cellOf(cells, row, field);
  const place = cell && placeOf(cell.origin);
  const toSi = cells.columns.get(field)?.toSi ?? 1;
  const times = toSi === 1 ? "" : `*${toSi}`;
  if (place) return ["N(", place, `)${times}`];
  return [typeof cell?.value === "number" ? `${cell.value}${times}` : "0"];
}

function supplyVoltage(
  { supply }: FeedCells,
  nominal: Native,
  lowest: Native,
  highest: Native,
): Native {
  if (!supply) return nominal;
  return [
    ...["IF(ISNUMBER(", ...supply, "),IF(", ...supply, "=0,", ...nominal, ","],
    ...[...supply, "),IF(", ...supply, '="lowest",', ...lowest, ",IF("],
    ...[...supply, '="highest",', ...highest, ",", ...nominal, ")))"],
  ];
}

/** An end of a supply's window: as given, or what its tolerance reaches if that is wider. */
function windowEnd(
  given: Native,
  wider: "MIN" | "MAX",
  nominal: Native,
  signedTolerance: Native,
): Native {
  const reached: Native = [...nominal, "*(1", ...signedTolerance, ")"];
  const [, ...tolerance] = signedTolerance;
  return [
    ...["IF(", ...tolerance, "=0,", ...given, ",IF(", ...given, "=0,"],
    ...[...reached, ",", `${wider}(`, ...given, ",", ...reached, ")))"],
  ];
}

function loadOf(cells: FeedCells, row: readonly ArgumentCell[], equation: Equation): Native {
  const { loads } = cells;
  const number = (field: keyof FeedItem) => figure(cells, row, field);
  const nominal = number("load");
  if (!loads) return nominal;
  const times = equation === EQUATION.conductance ? "/" : "*";
  return [
    ...["IF(ISNUMBER(", ...loads, "),IF(", ...loads, "=0,0,"],
    ...[...nominal, times, ...loads, "),IF(", ...loads, '="light",'],
    ...[...number("lightLoad"), ",IF(", ...loads, '="peak",'],
    ...[...peakLoad(cells, row, nominal), ",", ...nominal, ")))"],
  ];
}

/** Not given, it is the nominal load; 0, or the word for it, is no load. */
function peakLoad(cells: FeedCells, row: readonly ArgumentCell[], nominal: Native): Native {
  const cell = cellOf(cells, row, "peakLoad");
  const peak = figure(cells, row, "peakLoad");
  const place = cell && placeOf(cell.origin);
  if (!place) return typeof cell?.value === "number" ? peak : nominal;
  return [
    ...["IF(OR(ISNUMBER(", place, "),", place, '="none"),', ...peak, ","],
    ...[...nominal, ")"],
  ];
}

/** Loads of resistance count as conductance. */
function demand(equation: Equation, count: Native, load: Native): Native {
  return equation === EQUATION.conductance
    ? ["IF(", ...load, "=0,0,", ...count, "/(", ...load, "))"]
    : [...count, "*", ...load];
}
