/** What the line above the views says about a reading of the selected cell. */
import {
  type Cell,
  type CellTable,
  type Entry,
  type Outcome,
  catalogue,
  isCellError,
  isCellTable,
} from "../../../functions/downfeed.js";
import type { CellReading } from "../../formula-reading/cell-reading.js";
import {
  type FormulaReading,
  type ReadCall,
  innermostRefusal,
} from "../../formula-reading/formula-value.js";
import type { HostValue } from "../../hosts/host.js";
import { shownNumber } from "../../words/shown-numbers.js";
import { words } from "../../words/words.js";

export interface AnswerLine {
  readonly tone: "plain" | "quiet" | "refused" | "doubtful";
  /** The function, `FEED.CONDUCTOR_DROP`, where the line is about one. */
  readonly call?: string;
  readonly text: string;
  /** Every digit of a number. */
  readonly full?: string;
}

const said = words.answer;
const MOST_CALLS = 3;

/** A formula as the user's spreadsheet writes it. */
type Shown = (formula: string) => string;

const AS_IT_IS: Shown = (formula) => formula;

export function answerLines(
  reading: CellReading,
  namespace: string,
  formulaShown: Shown = AS_IT_IS,
): AnswerLine[] {
  switch (reading.kind) {
    case "no call":
      return [
        {
          tone: "quiet",
          text: reading.cell.formula === "" ? said.nothing(namespace) : said.native,
        },
      ];
    case "not a formula":
      return [{ tone: "doubtful", text: said.unparsed }];
    case "spilled":
      return spilledLines(reading, namespace);
    default:
      return readLines(reading.source.reading, reading.cell.value, namespace, formulaShown);
  }
}

function readLines(
  reading: FormulaReading,
  shown: HostValue,
  namespace: string,
  formulaShown: Shown,
): AnswerLine[] {
  const refused = innermostRefusal(reading);
  if (refused) return refusalLines(refused, namespace, formulaShown);
  const unread = reading.calls.find(({ outcome }) => outcome.ok === "unread");
  if (unread) return [unreadLine(unread, namespace, formulaShown), ...shownLine(reading, shown)];
  const outer = reading.calls.filter(({ depth }) => depth === 0);
  return [
    ...outer.slice(0, MOST_CALLS).map((call) => callLine(call, namespace)),
    ...noteLines(reading.calls),
    ...shownLine(reading, shown),
  ];
}

/** The one line for what a formula would give, as a form shows it before it is written. */
export function formulaAnswer(
  reading: FormulaReading,
  namespace: string,
  formulaShown: Shown = AS_IT_IS,
): AnswerLine {
  const lines = readLines(reading, "", namespace, formulaShown);
  return lines[0] ?? { tone: "quiet", text: "" };
}

function callName(id: string, namespace: string): string {
  return `${namespace}.${id}`;
}

function refusalLines(call: ReadCall, namespace: string, formulaShown: Shown): AnswerLine[] {
  const { outcome } = call;
  if (outcome.ok !== false) return [];
  const name = callName(call.id, namespace);
  const text = `${outcome.code} ${outcome.message}`;
  const line: AnswerLine = { tone: "refused", call: name, text };
  const inner: AnswerLine[] =
    call.depth > 0 ? [{ tone: "quiet", text: said.inCall(formulaShown(call.text)) }] : [];
  return [line, ...inner, ...originLines(call)];
}

/** An error that came in through a reference: where to look next. */
function originLines({ args, argumentTexts }: ReadCall): AnswerLine[] {
  const at = args.findIndex((argument) =>
    (isCellTable(argument) ? argument.flat() : [argument]).some(
      (cell) => isCellError(cell) && cell.message === undefined,
    ),
  );
  const from = argumentTexts[at];
  if (from === undefined || !/^[^()]+$/.test(from)) return [];
  return [{ tone: "quiet", text: said.comesFrom(from) }];
}

function unreadLine(call: ReadCall, namespace: string, formulaShown: Shown): AnswerLine {
  const { outcome } = call;
  const text = outcome.ok === "unread" ? said.unread(formulaShown(outcome.part), outcome.why) : "";
  return { tone: "doubtful", call: callName(call.id, namespace), text };
}

function callLine({ id, outcome }: ReadCall, namespace: string): AnswerLine {
  const call = callName(id, namespace);
  if (outcome.ok !== true) return { tone: "plain", call, text: "" };
  const entry = entryOf(id);
  return {
    tone: "plain",
    call,
    ...shownValue(outcome.value, entry?.unitOf(outcome.record)),
  };
}

export function entryOf(id: string): Entry | undefined {
  return catalogue.find((entry) => entry.id === id);
}

export function shownValue(value: Cell | CellTable, unit = ""): { text: string; full?: string } {
  if (isCellTable(value)) {
    const [rows, columns] = [value.length, value[0]?.length ?? 0];
    if (rows !== 1 || columns !== 1) return { text: said.table(rows, columns) };
    return shownValue(value[0]?.[0] ?? "", unit);
  }
  if (typeof value === "number") return shownNumber(value, unit);
  return { text: isCellError(value) ? value.error : String(value ?? "") };
}

function noteLines(calls: readonly ReadCall[]): AnswerLine[] {
  const texts = calls.flatMap(({ outcome }) => notesOf(outcome));
  return [...new Set(texts)].map((text) => ({
    tone: "quiet",
    text: said.note(text),
  }));
}

function notesOf(outcome: ReadCall["outcome"]): string[] {
  return outcome.ok === true
    ? (outcome as Outcome & { ok: true }).caveats.map(({ text }) => text)
    : [];
}

/** Says so where the cell shows something else than the engine gives: it is not up to date, or the host refuses it. */
function shownLine(reading: FormulaReading, shown: HostValue): AnswerLine[] {
  if (shown === "") return [];
  if (reading.value.ok !== true) return [];
  const { value } = reading.value;
  const cell = isCellTable(value) ? (value[0]?.[0] ?? null) : value;
  if (typeof shown === "object") {
    const same = isCellError(cell) && cell.error === shown.error;
    if (same) return [];
    const isCalculating = shown.error === "#BUSY!";
    return [{ tone: isCalculating ? "quiet" : "doubtful", text: said.shows(shown.error) }];
  }
  return sameCell(cell, shown)
    ? []
    : [{ tone: "doubtful", text: said.differs(shownValue(shown).text) }];
}

function sameCell(cell: Cell, shown: string | number | boolean): boolean {
  if (typeof cell === "number" && typeof shown === "number")
    return Math.abs(cell - shown) <= 1e-9 * Math.max(Math.abs(cell), Math.abs(shown));
  // Some hosts hold a truth value as 1 or 0.
  if (typeof cell === "boolean") return Number(cell) === Number(shown);
  return cell === null ? shown === 0 : cell === shown;
}

function spilledLines(reading: CellReading & { kind: "spilled" }, namespace: string): AnswerLine[] {
  const { id, anchor, heading, item, value, note } = reading;
  const call = callName(id, namespace);
  const { text, full } = shownValue(value);
  const place = [item, heading].filter((part) => part !== "").join(", ");
  const line = place === "" ? text : `${place}: ${text}`;
  return [
    {
      tone: isCellError(value) ? "refused" : "plain",
      text: line,
      ...(full === undefined ? {} : { full }),
    },
    ...(note === "" || note === text ? [] : [{ tone: "quiet" as const, text: said.note(note) }]),
    { tone: "quiet", text: said.spilledFrom(call, anchor.address) },
  ];
}
