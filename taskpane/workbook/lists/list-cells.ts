/** One cell of a list as the cell of a schedule: in the unit of the sheet's header, in the words of its column. */
import { figureFromSi, figureInSi } from "../../../src/quantities/header-units.js";
import { type BlockColumn, ownUnitInSi } from "../../../src/schedules/columns.js";
import { sizeFrom } from "../../../functions/reading/size-text.js";
import { listWords as said } from "../../words/list-words.js";
import { type DecimalSign, listFigure } from "./list-figures.js";
import { listUnitInSi, plainUnit } from "./list-words.js";

export type CellAnswer =
  | { readonly is: "empty" }
  | {
      readonly is: "taken";
      readonly content: number | string;
      /** In SI, or in the unit of the load's kind. */
      readonly value?: number;
      /** Cores that the text of a size names. */
      readonly cores?: number;
      /** What a reader should know of it. */
      readonly remark?: string;
    }
  /** Something has to be chosen first. */
  | { readonly is: "open"; readonly ask: "unit" | "decimal sign" }
  /** Why it cannot be the cell's content. */
  | { readonly is: "refused"; readonly why: string };

export interface ListCell {
  readonly text: string;
  /** Unit of the list's column; "" where it is not chosen yet or there is none. */
  readonly unit: string;
  readonly sign: DecimalSign | undefined;
}

/** @param column As the sheet heads it. */
export function listCell(column: BlockColumn, cell: ListCell): CellAnswer {
  const text = cell.text.trim();
  if (text === "") return { is: "empty" };
  const { content } = column;
  switch (content.holds) {
    case "figure":
      return figureCell(column, cell);
    case "size":
      return /^[-–—]+$/.test(text) ? { is: "empty" } : sizeCell(text, cell);
    case "word": {
      const word = content.words.find((one) => meansWord(text, one));
      if (word !== undefined) return { is: "taken", content: word };
      return { is: "refused", why: said.noWord(text, content.words) };
    }
    default:
      return { is: "taken", content: text };
  }
}

function figureCell(column: BlockColumn, { text, unit, sign }: ListCell): CellAnswer {
  const read = listFigure(text, sign);
  if (read.is === "empty") return read;
  if (read.is === "either") return { is: "open", ask: "decimal sign" };
  if (read.is === "text") return { is: "refused", why: said.noFigure(text) };
  const { quantity } = column;
  const own = read.unit === "" ? unit : (plainUnit(read.unit) ?? read.unit);
  const toSi = quantity === "number" || quantity === "money" ? 1 : listUnitInSi(quantity, own);
  if (toSi === undefined || (own === "" && quantity !== "number" && quantity !== "money"))
    return read.unit === ""
      ? { is: "open", ask: "unit" }
      : { is: "refused", why: said.noUnit(read.unit) };
  const value = figureInSi(read.number, toSi);
  const content = tidy(figureFromSi(value, ownUnitInSi(column)));
  if (column.content.holds === "figure" && column.content.bound === "whole") {
    if (!Number.isSafeInteger(content) || content < 1)
      return { is: "refused", why: said.noCount(text) };
  }
  return { is: "taken", content, value };
}

/** The number without the last digits of a conversion: 30.48, not 30.480000000000004. */
function tidy(value: number): number {
  return Number(value.toPrecision(15));
}

const MANY =
  /^(\d+)\s*(?:[x×*]|g|c\s*[x×/]?)\s*(\d+(?:[.,]\d+)?)\s*(?:mm(?:2|²|\^2)?|sq\.? ?mm)?$/i;
const BARE = /^(\d+(?:[.,]\d+)?)\s*(mm(?:2|²|\^2)|sq\.? ?mm)?$/i;
const GAUGE = /^(?:awg\s*|#\s*)?([1-4]\/0|0{2,4}|\d{1,2})\s*(?:[/x×]\s*(\d{1,2})c?)?\s*(?:awg)?$/i;
const KCMIL = /^(\d{3,4})\s*(?:kcmil|mcm)$/i;

function sizeCell(text: string, { unit }: ListCell): CellAnswer {
  const kcmil = KCMIL.exec(text)?.[1];
  if (kcmil !== undefined) return namedSize(`${kcmil} kcmil`);
  const isGauge = /awg|^#/i.test(text) || (unit === "AWG" && !/mm/i.test(text));
  if (isGauge) {
    const [, gauge, cores] = GAUGE.exec(text) ?? [];
    if (gauge === undefined) return { is: "refused", why: said.noSize(text) };
    return namedSize(`${gauge} AWG`, cores);
  }
  const [, count, each] = MANY.exec(text) ?? [];
  if (count !== undefined && each !== undefined) {
    const hasEarth = /^\d+\s*g/i.test(text);
    const cores = Number(count) - (hasEarth ? 1 : 0);
    const named = namedSize(`${each.replace(",", ".")} mm²`, String(cores));
    return named.is === "taken" && hasEarth
      ? { ...named, remark: said.earthCore(text, cores) }
      : named;
  }
  const [, bare, own] = BARE.exec(text) ?? [];
  if (bare === undefined) return { is: "refused", why: said.noSize(text) };
  if (own === undefined && unit === "") return { is: "open", ask: "unit" };
  return namedSize(`${bare.replace(",", ".")} mm²`);
}

function namedSize(name: string, cores?: string): CellAnswer {
  sizeFrom(name);
  return {
    is: "taken",
    content: name,
    ...(cores !== undefined && { cores: Number(cores) }),
  };
}

const SHORT: Readonly<Record<string, RegExp>> = {
  copper: /\bcu\b|copper/i,
  aluminium: /\bal\b|alumin/i,
};

function meansWord(text: string, word: string): boolean {
  const escaped = word.replace(/[.*+?^${}()|[\]\\]/g, "\\$&");
  return (SHORT[word] ?? new RegExp(`(?<![\\p{L}])${escaped}(?![\\p{L}])`, "iu")).test(text);
}
