/** What a function is for, how it is written, what it gives, and its example, from its catalogue entry. */
import type { ComponentChildren } from "preact";
import {
  type Argument,
  type CellTable,
  type Entry,
  citationLine,
  isCellError,
  isCellTable,
  isRepeating,
} from "../../../functions/downfeed.js";
import { EXAMPLE_ANSWERS } from "../../../functions/documents/examples.js";
import { PURPOSES } from "../../../functions/documents/purposes.js";
import { RESULTS } from "../../../functions/documents/results.js";
import { RELATIONS } from "../../../functions/documents/relations.js";
import { helpPath } from "../../../functions/documents/help-path.js";
import { callText } from "../../formula-reading/argument-text.js";
import { words } from "../../words/words.js";
import { shownValue } from "../head/cell-answer-text.js";
import { Code } from "../parts/code.js";
import { Table } from "../parts/table.js";
import { useTools } from "../parts/tools.js";

const said = words.functions;

export function FunctionDescription({ entry }: { readonly entry: Entry }) {
  const { namespace } = useTools().host;
  const { result, citations } = entry;
  const relation = RELATIONS[entry.id];
  const unit = result.unit === "" || result.unit === "1" ? "" : `, ${result.unit}`;
  return (
    <div>
      <p>{PURPOSES[entry.id]}</p>
      <dl class="feed-description">
        <Told term={said.signature}>
          <Code text={signature(entry)} />
        </Told>
        {relation !== undefined && (
          <Told term={said.relation}>
            <span class="feed-relation">{relation}</span>
          </Told>
        )}
        <Told term={said.gives}>{`${RESULTS[entry.id] ?? ""}${unit}`}</Told>
        <Told term={said.example}>
          <Example entry={entry} />
        </Told>
        {citations.length > 0 && (
          <Told term={said.citations}>
            <ul class="feed-citations">
              {citations.map((id) => (
                <li key={id}>{citationLine(id)}</li>
              ))}
            </ul>
          </Told>
        )}
      </dl>
      <p>
        <a href={helpPath(entry.id, namespace)} target="_blank" rel="noopener">
          {said.more(entry.id)}
        </a>
      </p>
    </div>
  );
}

function Told({ term, children }: { readonly term: string; readonly children: ComponentChildren }) {
  return (
    <div>
      <dt>{term}</dt>
      <dd>{children}</dd>
    </div>
  );
}

export function signature({ id, parameters }: Entry): string {
  const names = Object.values(parameters).map((parameter) => {
    const name = isRepeating(parameter) ? `${parameter.name}, …` : parameter.name;
    return parameter.optional ? `[${name}]` : name;
  });
  return `${id}(${names.join(", ")})`;
}

function Example({ entry }: { readonly entry: Entry }) {
  const { namespace } = useTools().host;
  const { args } = entry.example;
  const { gives, note } = EXAMPLE_ANSWERS[entry.id]!;
  const names = Object.values(entry.parameters).map(({ name }) => name);
  const value = shownValue(gives, entry.result.unit);
  return (
    <>
      <p title={value.full}>
        <Code text={callText(namespace, entry.id, args.map(literal))} />
        {` ${said.exampleGives(value.text)}`}
      </p>
      {note !== undefined && <p class="feed-hint">{note}</p>}
      {args.map((argument, index) =>
        isWide(argument) ? (
          <ExampleTable key={index} table={argument} name={names[index] ?? ""} />
        ) : null,
      )}
      {isWide(gives) && <ExampleTable table={gives} name={RESULTS[entry.id] ?? ""} />}
    </>
  );
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

function ExampleTable({ table, name }: { readonly table: CellTable; readonly name: string }) {
  const caption = said.exampleCaption(name);
  const [head = [], ...rows] = table;
  const isHeaded = head.every((cell) => typeof cell === "string");
  return (
    // Reached by keyboard, since it scrolls sideways on its own.
    <div class="feed-scroll" tabIndex={0} role="region" aria-label={caption}>
      <Table
        caption={caption}
        headings={isHeaded ? head.map(String) : undefined}
        rows={(isHeaded ? rows : table).map((row) => row.map((cell) => shownValue(cell)))}
      />
    </div>
  );
}
