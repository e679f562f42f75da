/** What a function is for, how it is written, what it gives, and its example, from its catalogue entry. */
import {
  type Argument,
  type Cell,
  type CellTable,
  type Entry,
  citationLine,
  isCellError,
  isCellTable,
  isRepeating,
} from "../../../functions/downfeed.js";
import { callText } from "../../formula-reading/argument-text.js";
import { shownValue } from "../head/cell-answer-text.js";
import { code, element } from "../parts/element.js";
import { words } from "../../words/words.js";

const said = words.functions;

export function functionDescription(entry: Entry, namespace: string): HTMLElement {
  const { purpose, relation, result, citations } = entry;
  const unit = result.unit === "" || result.unit === "1" ? "" : `, ${result.unit}`;
  const list = element("dl", { class: "feed-description" });
  add(list, said.signature, code(signature(entry)));
  if (relation !== "")
    add(list, said.relation, element("span", { class: "feed-relation" }, relation));
  add(list, said.gives, `${result.meaning}${unit}`);
  add(list, said.example, ...example(entry, namespace));
  if (citations.length > 0)
    add(
      list,
      said.citations,
      element(
        "ul",
        { class: "feed-citations" },
        ...citations.map((id) => element("li", {}, citationLine(id))),
      ),
    );
  const more = element(
    "a",
    { href: `help/${entry.id}.html`, target: "_blank", rel: "noopener" },
    said.more(entry.id),
  );
  return element("div", {}, element("p", {}, purpose), list, element("p", {}, more));
}

function add(list: HTMLElement, term: string, ...described: (Node | string)[]): void {
  list.append(element("div", {}, element("dt", {}, term), element("dd", {}, ...described)));
}

export function signature({ id, parameters }: Entry): string {
  const names = Object.values(parameters).map((parameter) => {
    const name = isRepeating(parameter) ? `${parameter.name}, …` : parameter.name;
    return parameter.optional ? `[${name}]` : name;
  });
  return `${id}(${names.join(", ")})`;
}

function example(entry: Entry, namespace: string): Node[] {
  const { args, gives, note } = entry.example;
  const names = Object.values(entry.parameters).map(({ name }) => name);
  const call = callText(namespace, entry.id, args.map(literal));
  const value = shownValue(gives, entry.result.unit);
  const line = element("p", { title: value.full }, code(call), ` ${said.exampleGives(value.text)}`);
  const tables = args.flatMap((argument, index) =>
    isWide(argument) ? [exampleTable(argument, names[index] ?? "")] : [],
  );
  const result = isWide(gives) ? [exampleTable(gives, entry.result.meaning)] : [];
  const remark = note === undefined ? [] : [element("p", { class: "feed-hint" }, note)];
  return [line, ...remark, ...tables, ...result];
}

/** Tables with more cells than this are shown as tables, not as constants in the formula. */
const MOST_CONSTANTS = 8;

function isWide(argument: Argument): argument is CellTable {
  return isCellTable(argument) && argument.flat().length > MOST_CONSTANTS;
}

function literal(argument: Argument): string {
  if (argument === undefined || argument === null) return "";
  if (isCellTable(argument)) {
    if (argument.flat().length > MOST_CONSTANTS) return said.exampleTable;
    const rows = argument.map((row) => row.map(literal).join(","));
    return `{${rows.join(";")}}`;
  }
  if (typeof argument === "string") return `"${argument.replaceAll('"', '""')}"`;
  if (isCellError(argument)) return argument.error;
  return String(argument).toUpperCase();
}

function exampleTable(table: CellTable, name: string): HTMLElement {
  const caption = said.exampleCaption(name);
  const [head = [], ...rows] = table;
  const isHeaded = head.every((cell) => typeof cell === "string");
  return element(
    "div",
    // Reached by keyboard, since it scrolls sideways on its own.
    {
      class: "feed-scroll",
      tabindex: "0",
      role: "region",
      "aria-label": caption,
    },
    element(
      "table",
      { class: "feed-table" },
      element("caption", {}, caption),
      isHeaded
        ? element(
            "thead",
            {},
            tableRow(head, () => "col"),
          )
        : undefined,
      element(
        "tbody",
        {},
        ...(isHeaded ? rows : table).map((row) =>
          tableRow(row, (index) => (isHeaded && index === 0 ? "row" : undefined)),
        ),
      ),
    ),
  );
}

function tableRow(
  cells: readonly Cell[],
  scopeOf: (index: number) => string | undefined,
): HTMLElement {
  return element(
    "tr",
    {},
    ...cells.map((cell, index) => {
      const { text, full } = shownValue(cell);
      const scope = scopeOf(index);
      return scope === undefined
        ? element("td", { title: full }, text)
        : element("th", { scope }, text);
    }),
  );
}
