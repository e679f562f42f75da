/**
 * The coefficients of a solved feed table's rows as native formulas of the table's cells: what each row's equations read,
 * at the loads and the supply voltage that the call names. Rows are linked as the table said when it was read.
 */
import { SEPARATOR } from "../../../src/network/feed-topology.js";
import { feedRowGivens } from "../../../src/network/feed-steps.js";
import type { FeedItem } from "../../../src/network/feed-item.js";
import { EQUATION, type Equation, ROW_KINDS } from "../../../src/network/row-kinds.js";
import type { Cell, Working } from "../../downfeed.js";
import { readKind } from "../../reading/feed-table.js";
import type { FeedField } from "../../reading/feed-columns.js";
import { feedColumnOf } from "../../reading/feed-headers.js";
import type { ArgumentCell, CallAnswer, UsedArgument } from "./call-answer.js";
import type { SheetRange } from "./call-tree.js";
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
  readonly loads: Choice | undefined;
  readonly supply: Choice | undefined;
}

/** An argument that chooses a case: a cell that a formula has to ask, or what is written in the call itself. */
type Choice = { readonly asked: Native; readonly value: Cell } | { readonly written: Cell };

/** Links of each working's givens, by field; empty for a working that is no row of the feed table. */
export function feedLinks(answer: CallAnswer): FeedLinks {
  const { workings } = answer;
  const table = answer.used.find(({ key }) => key === "feedTable");
  if (!table || !workings.some(isFeedRow)) return [];
  const cells = feedCells(table, answer);
  const titles = workings.map(({ title }) => plain(title));
  const rowOf = workings.map((working, index) =>
    isFeedRow(working)
      ? cells.rows.find((row) => textAt(cells, row, "item") === titles[index])
      : undefined,
  );
  const solved = [...rowOf.keys()].filter((place) => rowOf[place] !== undefined);
  const [first = 0] = solved;
  const places = new FeedPlaces(rowOf.map((row) => row && linkOf(cells, row, titles)));
  return workings.map((_, index) => {
    const row = rowOf[index];
    if (!row) return {};
    const held = places.heldBy(index);
    const told = figuresTold(cells, row);
    return linked(told, {
      ...coefficients(cells, row, index),
      inputVoltage: [{ line: places.inputVoltage(index) }],
      currentFed: places.drawn(index),
      heldVoltage: held === undefined ? ["0"] : [{ line: lineKey(held, "outputVoltage") }],
      currentArriving: places.arriving(index),
      // Summed up once, in the first row.
      feedLoss:
        index === first
          ? sumOf(solved.map((place) => lineKey(place, "loss")))
          : [{ line: lineKey(first, "feedLoss") }],
    });
  });
}

/** Who feeds a row, by the places of their workings. */
interface FeedLink {
  readonly kind: "tie" | "node" | "other";
  readonly feeders: readonly number[];
}

function linkOf(
  cells: FeedCells,
  row: readonly ArgumentCell[],
  titles: readonly string[],
): FeedLink {
  const { fedBy } = ROW_KINDS[readKind(textAt(cells, row, "kind"))];
  const from = textAt(cells, row, "fedFrom");
  const names = fedBy === "one" ? [from] : from.split(SEPARATOR).map(plain);
  const feeders = names.map((name) => titles.indexOf(name)).filter((place) => place >= 0);
  const kind = fedBy === "two ends" ? "tie" : feeders.length > 1 ? "node" : "other";
  return { kind, feeders };
}

/** A term of a sum of currents, and whether it is taken away. */
interface Term {
  readonly line: string;
  readonly minus: boolean;
}

class FeedPlaces {
  constructor(private readonly links: readonly (FeedLink | undefined)[]) {}

  inputVoltage(index: number): string {
    const { kind, feeders } = this.links[index]!;
    const [feeding] = feeders;
    if (feeding === undefined) return lineKey(index, "voltage");
    return kind === "node" ? lineKey(index, "outputVoltage") : lineKey(feeding, "outputVoltage");
  }

  /** Whose output voltage is that of its own output: a bus that it feeds with others, a tie's second item. */
  heldBy(index: number): number | undefined {
    const { kind, feeders } = this.links[index]!;
    if (kind === "tie") return feeders[1];
    const bus = this.links.findIndex((one) => one?.kind === "node" && one.feeders.includes(index));
    return bus < 0 ? undefined : bus;
  }

  drawn(index: number): Native {
    return signedSum(this.terms(index));
  }

  /** What its feeders give less what else they feed. */
  arriving(index: number): Native {
    const { kind, feeders } = this.links[index]!;
    if (kind !== "node") return ["0"];
    return signedSum(
      feeders.flatMap((feeding) => [
        { line: lineKey(feeding, "outputCurrent"), minus: false },
        ...this.terms(feeding).map(({ line, minus }) => ({ line, minus: !minus })),
      ]),
    );
  }

  /** Currents that rows draw from an output, without those of a bus that it feeds with others. */
  private terms(index: number): readonly Term[] {
    return this.links.flatMap((link, place): Term[] => {
      if (!link?.feeders.includes(index) || link.kind === "node") return [];
      const field = link.kind === "tie" ? "outputCurrent" : "inputCurrent";
      return [{ line: lineKey(place, field), minus: link.feeders[0] !== index }];
    });
  }
}

function signedSum(terms: readonly Term[]): Native {
  if (terms.length === 0) return ["0"];
  return terms.flatMap(({ line, minus }, at) => [minus ? "-" : at > 0 ? "+" : "", { line }]);
}

/** By its names: a page may hold the engine, and with it these givens, a second time. */
function isFeedRow({ givens }: Working): boolean {
  return Object.keys(feedRowGivens).every((field) => field in givens);
}

/** A figure of the table's row for the item: where it stands, and what it is in SI. */
export function tableFigure(answer: CallAnswer, item: string, field: keyof FeedItem) {
  const table = answer.used.find(({ key }) => key === "feedTable");
  if (!table) return undefined;
  const cells = feedCells(table, answer);
  const row = cells.rows.find((one) => textAt(cells, one, "item") === plain(item));
  const cell = row && cellOf(cells, row, field);
  if (!cell) return undefined;
  const toSi = cells.columns.get(field as FeedField)?.toSi ?? 1;
  const { origin } = cell;
  const native = figure(cells, row, field);
  const value = typeof cell.value === "number" ? cell.value * toSi : 0;
  // Nothing there is one.
  const isCount = field === "inParallel";
  return {
    native: isCount ? ["MAX(1,", ...native, ")"] : native,
    reads: origin.kind === "cell" ? [origin.range] : [],
    // A tolerance that is a word is none.
    value: isCount ? Math.max(1, value) : value,
  };
}

/** Where the argument names the item; the whole table where it has no such row. */
export function itemPlace(answer: CallAnswer, argument: string, item: string) {
  const table = answer.used.find(({ key }) => key === argument);
  if (!table) return undefined;
  const cells = feedCells(table, answer);
  const row = cells.rows.find((one) => textAt(cells, one, "item") === plain(item));
  const origin = row && cellOf(cells, row, "item")?.origin;
  return origin?.kind === "cell" ? origin.range : table.ranges[0];
}

function linked(
  told: Readonly<Record<string, FigureTold>>,
  natives: Readonly<Record<string, Native>>,
) {
  return Object.fromEntries(
    Object.entries(natives).map(([field, native]): [string, GivenLink] => [
      field,
      { kind: "native", native, ...told[field] },
    ]),
  );
}

type FigureTold = Required<Pick<GivenLink & { readonly kind: "native" }, "reads" | "told">>;

/** For each coefficient, the cells that count in it at the loads and the supply of the call, and what is made of them. */
function figuresTold(
  cells: FeedCells,
  row: readonly ArgumentCell[],
): Readonly<Record<string, FigureTold>> {
  const { equation } = ROW_KINDS[readKind(textAt(cells, row, "kind"))];
  const value = (field: keyof FeedItem) => {
    const cell = cellOf(cells, row, field)?.value;
    const toSi = cells.columns.get(field as FeedField)?.toSi ?? 1;
    return typeof cell === "number" ? cell * toSi : 0;
  };
  const reads = (...fields: (keyof FeedItem)[]): SheetRange[] =>
    fields.flatMap((field) => {
      const origin = value(field) === 0 ? undefined : cellOf(cells, row, field)?.origin;
      return origin?.kind === "cell" ? [origin.range] : [];
    });
  const count = value("inParallel");
  const several = count > 1;
  const each = (field: keyof FeedItem, told: FigureTold["told"]): FigureTold => ({
    reads: reads(field, ...(several ? (["inParallel"] as const) : [])),
    told: several && value(field) !== 0 ? told : [],
  });
  const shared = (field: keyof FeedItem) => each(field, [value(field), ` / ${count}`]);
  const times = (field: keyof FeedItem) => each(field, [`${count} × `, value(field)]);
  const alone = (...fields: (keyof FeedItem)[]): FigureTold => ({
    reads: reads(...fields),
    told: [],
  });
  const isRatio = equation === EQUATION.ratio;
  const load = loadField(cells, row);
  return {
    voltage: equation === EQUATION.supply ? alone(...supplyFields(cells, value)) : alone("voltage"),
    resistance: shared("resistance"),
    ratio: alone("ratio"),
    fixedLoss: times("fixedLoss"),
    linearLoss: alone("linearLoss"),
    quadraticLoss: isRatio
      ? {
          reads: reads("quadraticLoss", "resistance", "inParallel"),
          told:
            value("quadraticLoss") === 0
              ? []
              : [
                  ...["(", value("quadraticLoss"), " − ", value("resistance")],
                  several ? `) / ${count}` : ")",
                ],
        }
      : shared("quadraticLoss"),
    stageEfficiency: alone("efficiency"),
    ratedCurrent: alone("ratedCurrent"),
    inParallel: alone("inParallel"),
    feedLoss: alone(),
    demand: demandTold(),
  };

  function demandTold(): FigureTold {
    const chosen = chosenBy(cells.loads);
    const isFactor = typeof chosen === "number";
    const size = value(load);
    if (equation === EQUATION.conductance)
      return {
        reads: each(load, []).reads,
        told: several && size !== 0 && !isFactor ? [`${count} / ${size}`] : [],
      };
    const factor = isFactor && chosen !== 1 ? [` × ${chosen}`] : [];
    const parts = [...(several ? [`${count} × `] : []), size, ...factor];
    return { reads: each(load, []).reads, told: parts.length > 1 && size !== 0 ? parts : [] };
  }
}

function chosenBy(choice: Choice | undefined): Cell {
  if (!choice) return null;
  return "written" in choice ? choice.written : choice.value;
}

function loadField(cells: FeedCells, row: readonly ArgumentCell[]): keyof FeedItem {
  const chosen = chosenBy(cells.loads);
  if (isWord(chosen, "light")) return "lightLoad";
  const peak = cellOf(cells, row, "peakLoad")?.value;
  const hasPeak = typeof peak === "number" || isWord(peak ?? null, "none");
  return isWord(chosen, "peak") && hasPeak ? "peakLoad" : "load";
}

/** The end of a window that a tolerance widens comes of the nominal voltage and the tolerance. */
function supplyFields(
  cells: FeedCells,
  value: (field: keyof FeedItem) => number,
): (keyof FeedItem)[] {
  const chosen = chosenBy(cells.supply);
  if (typeof chosen === "number" && chosen !== 0) return [];
  const ends = { lowest: "lowestVoltage", highest: "highestVoltage" } as const;
  for (const [word, field] of Object.entries(ends)) {
    if (!isWord(chosen, word)) continue;
    return value("tolerance") === 0 ? [field] : [field, "voltage", "tolerance"];
  }
  return ["voltage"];
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
  const option = (name: string): Choice | undefined => {
    const cell = used.find(({ key }) => key === name)?.cells[0];
    if (!cell) return undefined;
    const place = placeOf(cell.origin);
    return place ? { asked: [place], value: cell.value } : { written: cell.value };
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
  const parallel = number("inParallel");
  const count: Native = parallel.length > 1 ? ["MAX(1,", ...parallel, ")"] : countWritten(parallel);
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
        ? ["(", ...whereNone(c, r, c), "-", ...r, ")/", ...count]
        : [...c, "/", ...count],
    stageEfficiency: whereNone(e, ["1"], e),
    ratedCurrent: number("ratedCurrent"),
    inParallel: count,
    demand: demand(equation, count, loadOf(cells, row, equation)),
  };
}

function countWritten([only]: Native): Native {
  return [String(Math.max(1, Number(only)))];
}

function figure(cells: FeedCells, row: readonly ArgumentCell[], field: keyof FeedItem): Native {
  const cell = cellOf(cells, row, field);
  const place = cell && placeOf(cell.origin);
  const toSi = cells.columns.get(field)?.toSi ?? 1;
  const times = toSi === 1 ? "" : `*${toSi}`;
  if (place) return ["N(", place, `)${times}`];
  const written = typeof cell?.value === "number" ? cell.value : 0;
  return [written === 0 ? "0" : `${written}${times}`];
}

function supplyVoltage(
  { supply }: FeedCells,
  nominal: Native,
  lowest: Native,
  highest: Native,
): Native {
  if (!supply) return nominal;
  if ("written" in supply) {
    const { written } = supply;
    if (typeof written === "number") return written === 0 ? nominal : [String(written)];
    return isWord(written, "lowest") ? lowest : isWord(written, "highest") ? highest : nominal;
  }
  const { asked } = supply;
  return [
    ...["IF(ISNUMBER(", ...asked, "),IF(", ...asked, "=0,", ...nominal, ","],
    ...[...asked, "),IF(", ...asked, '="lowest",', ...lowest, ",IF("],
    ...[...asked, '="highest",', ...highest, ",", ...nominal, ")))"],
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
  const both: Native = [`${wider}(`, ...given, ",", ...reached, ")"];
  return whereNone(tolerance, given, whereNone(given, reached, both));
}

function loadOf(cells: FeedCells, row: readonly ArgumentCell[], equation: Equation): Native {
  const { loads } = cells;
  const number = (field: keyof FeedItem) => figure(cells, row, field);
  const nominal = number("load");
  if (!loads) return nominal;
  const times = equation === EQUATION.conductance ? "/" : "*";
  const [light, peak] = [number("lightLoad"), peakLoad(cells, row, nominal)];
  if ("written" in loads) {
    const { written } = loads;
    if (typeof written === "number")
      return written === 0 ? ["0"] : [...nominal, `${times}${written}`];
    return isWord(written, "light") ? light : isWord(written, "peak") ? peak : nominal;
  }
  const { asked } = loads;
  return [
    ...["IF(ISNUMBER(", ...asked, "),IF(", ...asked, "=0,0,"],
    ...[...nominal, times, ...asked, "),IF(", ...asked, '="light",', ...light, ",IF("],
    ...[...asked, '="peak",', ...peak, ",", ...nominal, ")))"],
  ];
}

/** As a function reads a word, whatever its case. */
function isWord(written: Cell, word: string): boolean {
  return typeof written === "string" && plain(written) === word;
}

/** `IF(figure=0,none,some)`; a figure that no cell holds is decided here. */
function whereNone(figureOf: Native, none: Native, some: Native): Native {
  const [only, ...more] = figureOf;
  if (more.length === 0 && typeof only === "string") return only === "0" ? none : some;
  return ["IF(", ...figureOf, "=0,", ...none, ",", ...some, ")"];
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
    ? whereNone(load, ["0"], [...count, "/(", ...load, ")"])
    : [...count, "*", ...load];
}
