/** The help pages: one for each function, and a list of all, made from the catalogue. Only the build writes them. */
import { citationLine } from "../../src/quantities/citations.js";
import type { Step } from "../../src/quantities/steps.js";
import type { Argument, Cell, CellTable } from "../cells.js";
import { isCellError, isCellTable } from "../cells.js";
import { isZeroReal, type Parameter, type Working } from "../entry.js";
import { signature } from "./function-table.js";
import { EXAMPLE_ANSWERS } from "./examples.js";
import type { DescribedEntry } from "./described.js";
import { RELATIONS } from "./relations.js";
import { RESULTS } from "./results.js";
import { VALIDITY } from "./validity.js";
import { heading, list, markupList, paragraph, table, text } from "./markup.js";
import { evaluate } from "../runner.js";
import { inSymbols } from "../working/text/step-text.js";

export function helpPage(entry: DescribedEntry, namespace: string): string {
  const name = `${namespace}.${entry.id}`;
  return page(
    name,
    [
      `<p><a href="index.html">All functions</a></p>`,
      `<h1>${text(name)}</h1>`,
      `<p class="purpose">${text(entry.purpose)}</p>`,
      section("Written as", code(`=${signature(entry, namespace)}`)),
      section("Formula", code(RELATIONS[entry.id] ?? "")),
      section("Arguments", argumentTable(entry)),
      section("Gives", givesText(entry)),
      section("Example", exampleText(entry, namespace)),
      section("Working of the example", workingText(entry)),
      section("Where it holds", list(VALIDITY[entry.id] ?? [])),
      section("What it refuses", list(refusals(entry))),
      section("Citations", citationList(entry)),
      `<footer><p>${text(CAUTION)}</p></footer>`,
    ].join("\n"),
  );
}

export function helpIndex(catalogue: readonly DescribedEntry[], namespace: string): string {
  const families = [...new Set(catalogue.map(({ family }) => family))];
  const lists = families.map((family) => {
    const entries = catalogue.filter((entry) => entry.family === family);
    const items = entries.map(
      ({ id, purpose }) =>
        `<a href="${id}.html">${text(`${namespace}.${id}`)}</a>: ${text(purpose)}`,
    );
    return section(family, markupList(items));
  });
  return page("Cell functions", [`<h1>Cell functions of Downfeed</h1>`, ...lists].join("\n"));
}

const OTHER_SEPARATORS =
  "Where the decimal sign of your spreadsheet is a comma, it parts arguments by semicolons and takes 2,5 for 2.5. Text in quotes stays as it is. The pane shows a call as your spreadsheet writes it.";

const CAUTION =
  "A screening aid: the local code, the authority and the product standard prevail. Work on live parts is for licensed people; discharge, verify by measurement.";

function page(title: string, body: string): string {
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'self'; base-uri 'none'; form-action 'none'">
<title>${text(title)}, Downfeed</title>
<link rel="stylesheet" href="help.css">
</head>
<body>
<main>
${body}
</main>
</body>
</html>
`;
}

function section(title: string, content: string): string {
  return content === "" ? "" : `<section>\n${heading(2, title)}\n${content}\n</section>`;
}

function argumentTable({ parameters }: DescribedEntry): string {
  const all = Object.values(parameters);
  if (all.length === 0) return "<p>None.</p>";
  return table(
    "Arguments, in their order",
    [
      "Name",
      "Unit",
      "Meaning",
      "Left out or blank",
      "0",
      "0 where the spreadsheet may hand a blank cell over as 0",
    ],
    all.map((parameter) => [
      parameter.name,
      parameter.unit || "–",
      meaningOf(parameter),
      parameter.optional ? "not given" : "refused",
      ...zeroTexts(parameter),
    ]),
  );
}

/** What a 0 is taken for where blank cells are told from it, and where they are not: as `readArguments` reads it. */
function zeroTexts(parameter: Parameter): readonly [string, string] {
  if (isZeroReal(parameter))
    return ["a value", parameter.optional ? "a value" : "a value; a blank cell is 0"];
  switch (parameter.kind) {
    case "numbers":
      return parameter.paired
        ? ["a value", "a value; behind the last number a blank"]
        : ["a value; blank cells are passed over", "a value"];
    case "number":
    case "number or choice":
    case "number or text":
      return ["a value, refused where it cannot be", unclearZero(parameter)];
    default:
      return ["refused", unclearZero(parameter)];
  }
}

function unclearZero(parameter: Parameter): string {
  const instead = "insteadOfZero" in parameter ? parameter.insteadOfZero : undefined;
  if (instead !== undefined) return `refused: ${instead}`;
  return parameter.optional ? "not given" : "refused";
}

function meaningOf(parameter: Parameter): string {
  const { meaning } = parameter;
  if (!("choices" in parameter)) return meaning;
  const words = parameter.choices.map((choice) => `"${choice}"`).join(", ");
  return `${meaning}. Words: ${words}`;
}

function givesText({ id, result: { shape, unit } }: DescribedEntry): string {
  const meaning = RESULTS[id] ?? "";
  const SHAPES = {
    number: "A number",
    text: "A text",
    row: "One row that spills",
    table: "A table that spills",
  } as const;
  const measured = unit === "" ? "" : ` (${unit})`;
  return paragraph(`${SHAPES[shape]}: ${meaning}${measured}.`);
}

function exampleText({ id, example }: DescribedEntry, namespace: string): string {
  const args = example.args.map(argumentText).join(", ");
  const tables = example.args
    .filter(isCellTable)
    .filter(({ length }) => length > 1)
    .map((cells) => cellsTable("The range of the example", cells));
  const answer = EXAMPLE_ANSWERS[id]!;
  const gives = isCellTable(answer.gives)
    ? cellsTable("It gives", answer.gives)
    : `<p>It gives ${code(cellText(answer.gives))}.</p>`;
  const note = answer.note ? paragraph(answer.note) : "";
  const separators = args === "" ? "" : paragraph(OTHER_SEPARATORS);
  return [code(`=${namespace}.${id}(${args})`), ...tables, gives, note, separators].join("\n");
}

function argumentText(argument: Argument): string {
  if (!isCellTable(argument)) {
    if (argument === undefined || argument === null) return "";
    return typeof argument === "string" ? `"${argument}"` : cellText(argument);
  }
  // A row can be written in the formula itself, a table stands in cells.
  return argument.length === 1
    ? `{${argument[0]!.map((cell) => argumentText(cell)).join(",")}}`
    : "the range below";
}

function cellText(cell: Cell): string {
  if (cell === null) return "";
  if (isCellError(cell)) return cell.error;
  return typeof cell === "number" ? shown(cell) : String(cell);
}

/** At most seven digits, so that 1/8 and a hand figure read as they were meant. */
function shown(value: number): string {
  return String(Number(value.toPrecision(7)));
}

function cellsTable(caption: string, [head = [], ...rows]: CellTable): string {
  const headed = head.every((cell) => typeof cell === "string");
  return headed && rows.length > 0
    ? table(
        caption,
        head.map((cell) => cellText(cell)),
        rows.map((row) => row.map((cell) => cellText(cell))),
      )
    : table(
        caption,
        [],
        [head, ...rows].map((row) => row.map((cell) => cellText(cell))),
      );
}

/** The steps of the example as the working view shows them, in symbols. */
function workingText({ id, example }: DescribedEntry): string {
  const outcome = evaluate(id, example.args);
  if (!outcome.ok) return "";
  return outcome.working().map(workingTable).join("\n");
}

function workingTable({ title, givens, steps, values }: Working): string {
  const quantities = { ...givens, ...steps };
  const symbolOf = (field: string) => quantities[field]?.symbol ?? field;
  const valueOf = (field: string) => values[field];
  const given = Object.entries(givens).map(([field, quantity]) => [
    quantity.label,
    quantity.symbol,
    "given",
    valueText(valueOf(field), quantity),
    "",
  ]);
  const found = Object.entries(steps).map(([field, step]) => [
    step.label,
    step.symbol,
    stepText(step, symbolOf),
    valueText(valueOf(field), step),
    step.cite === "definition" ? "definition" : citationLine(step.cite),
  ]);
  return table(title, ["Quantity", "Symbol", "Formula", "Value", "Citation"], [...given, ...found]);
}

function stepText(step: Step, symbolOf: (field: string) => string): string {
  switch (step.kind) {
    case "formula":
      return inSymbols(step.formula, symbolOf);
    case "lookup":
      return `from ${step.table}`;
    case "solved":
      return `so that ${inSymbols(step.residual, symbolOf)} = 0`;
  }
}

function valueText(value: unknown, { unit, shown: other }: Pick<Step, "unit" | "shown">): string {
  if (typeof value !== "number") return value === undefined ? "" : String(value);
  const [perUnit, word] = other ? [other.perUnit, other.unit] : [1, unit];
  return `${shown(value * perUnit)}${word === "1" ? "" : ` ${word}`}`;
}

/** What it says when it is called wrongly: each argument in turn left blank and made impossible, the rest as in the example. */
function refusals({ id, parameters, example }: DescribedEntry): readonly string[] {
  const messages = Object.values(parameters).flatMap((parameter, index) =>
    wrongValues(parameter).flatMap((wrong) => {
      const args: Argument[] = [...example.args];
      while (args.length <= index) args.push(undefined);
      args[index] = wrong;
      const outcome = evaluate(id, args);
      return outcome.ok ? [] : [`${outcome.code}: ${outcome.message}`];
    }),
  );
  return [...new Set(messages)];
}

function wrongValues(parameter: Parameter): readonly Argument[] {
  const blank = parameter.optional ? [] : [null];
  switch (parameter.kind) {
    case "number":
    case "numbers":
      return [...blank, -1];
    case "choice":
    case "number or choice":
    case "choice or numbers":
    case "cells":
      return [...blank, "another word"];
    default:
      return blank;
  }
}

function citationList({ citations }: DescribedEntry): string {
  return list(citations.map((id) => citationLine(id)));
}

function code(content: string): string {
  return `<p><code>${text(content)}</code></p>`;
}
