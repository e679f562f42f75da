/** A row of a schedule as a form: its columns with their units and lists, tried against the feed table as it is typed. */
import { useLayoutEffect, useMemo, useRef, useState } from "preact/hooks";
import {
  type BlockColumn,
  type BlockName,
  BLOCKS,
  headerText,
} from "../../../src/schedules/columns.js";
import { OFFERED_SIZES } from "../../budgets/offered-sizes.js";
import { feedWords as said } from "../../words/feed-words.js";
import { AnsweredForm, type FocusHome } from "../parts/answered-form.js";
import { freshId } from "../parts/element.js";
import { entryFor, typedText } from "../../workbook/entries/entry-text.js";
import type { RowCells } from "../../workbook/feed-edits.js";

export interface RowFormProps {
  readonly block: BlockName;
  readonly title: string;
  /** What stands in the row now, by header without unit. */
  readonly cells: RowCells;
  /** A column as the sheet heads it, in its unit. */
  readonly headed: (column: BlockColumn) => BlockColumn;
  /** Names that a column may take, by its field. */
  readonly names: Readonly<Record<string, readonly string[]>>;
  /** Names that no other row may have. */
  readonly taken: readonly string[];
  /** What the feed table says of the row; "" for nothing. */
  readonly tried: (cells: RowCells) => string;
  readonly save: (cells: RowCells) => void;
  readonly cancel: () => void;
  readonly home: FocusHome;
}

/** Columns that stand open; the others are behind one more press. */
const FIRST: Readonly<Record<BlockName, readonly string[]>> = {
  Supply: ["lowestVoltage", "voltage", "highestVoltage", "resistance", "ratedCurrent", "locations"],
  Stage: ["fedFrom", "type", "inParallel", "voltage", "tolerance", "isolation", "locations"],
  Cable: ["fedFrom", "length", "size", "insulation", "outerDiameter", "locations"],
  "In line": ["fedFrom", "kind", "resistance", "ratedCurrent", "ratedVoltage", "locations"],
  Load: [
    "fedFrom",
    "kind",
    "quantity",
    "light",
    "nominal",
    "peak",
    "lowestVoltage",
    "highestVoltage",
  ],
  Location: ["coldestC", "hottestC", "altitude", "place", "access"],
  "Stage type": [
    "kind",
    "stepsDownBy",
    "voltage",
    "lowestVoltage",
    "highestVoltage",
    "ratedCurrent",
    "resistance",
    "fixedLoss",
    "linearLoss",
    "quadraticLoss",
    "efficiency",
  ],
  "Asked for": [],
  Spread: ["column", "tolerance", "distribution", "group"],
};

export function RowForm(props: RowFormProps) {
  const { block, title, cells, headed, names, taken, tried, save, cancel, home } = props;
  const all = useMemo(() => BLOCKS[block].map(headed), [block]);
  const columns = useMemo(() => orderedColumns(block, all), [block, all]);
  const [texts, setTexts] = useState<Readonly<Record<string, string>>>(() =>
    Object.fromEntries([
      [block, String(cells[block] ?? "")],
      ...all.map((column) => [column.header, typedText(column, cells[column.header] ?? "")]),
    ]),
  );
  const [touched, touch] = useState(false);
  const first = useRef<HTMLInputElement>(null);
  const stem = useMemo(() => freshId("row"), []);
  useLayoutEffect(() => first.current?.focus(), []);

  const entries = all.map((column) => ({
    column,
    answer: entryFor(column, texts[column.header] ?? "", texts["Kind"]),
  }));
  const name = (texts[block] ?? "").trim();
  const nameFault =
    name === ""
      ? said.nameNeeded
      : taken.some((one) => one.trim().toLowerCase() === name.toLowerCase())
        ? said.nameTaken(name)
        : "";
  const refused = entries.some(({ answer }) => "refused" in answer);
  const row: RowCells = {
    [block]: name,
    ...Object.fromEntries(
      entries.flatMap(({ column, answer }) =>
        "content" in answer ? [[column.header, answer.content]] : [],
      ),
    ),
  };
  const key = JSON.stringify(row);
  const judged = useMemo(() => (nameFault || refused ? "" : tried(row)), [key, nameFault, refused]);

  const submit = () => {
    touch(true);
    if (!nameFault && !refused) save(row);
  };
  const field = (column: BlockColumn) => {
    const answer = entries.find((one) => one.column === column)?.answer;
    return (
      <Field
        key={column.header}
        id={`${stem}-${column.field}`}
        column={column}
        text={texts[column.header] ?? ""}
        names={names[column.field]}
        refused={answer && "refused" in answer ? answer.refused : ""}
        change={(text) => setTexts({ ...texts, [column.header]: text })}
      />
    );
  };
  return (
    <AnsweredForm
      label={title}
      yes={said.save}
      no={said.cancel}
      submit={submit}
      leave={cancel}
      home={home}
    >
      <h3 class="feed-group-heading">{title}</h3>
      <div class="feed-argument">
        <label class="feed-label" for={`${stem}-name`}>
          {block}
        </label>
        <input
          class="feed-input"
          id={`${stem}-name`}
          ref={first}
          value={texts[block] ?? ""}
          aria-invalid={touched && nameFault !== ""}
          aria-describedby={`${stem}-name-fault`}
          onInput={({ currentTarget }) => setTexts({ ...texts, [block]: currentTarget.value })}
        />
        <p class="feed-fault" id={`${stem}-name-fault`}>
          {touched || name !== "" ? nameFault : ""}
        </p>
      </div>
      {columns.first.map(field)}
      {columns.more.length > 0 && (
        <details class="feed-block">
          <summary>{said.more(columns.more.length)}</summary>
          {columns.more.map(field)}
        </details>
      )}
      <p class="feed-status" role="status">
        {judged === "" ? "" : `${said.rowSays}: ${judged}`}
      </p>
    </AnsweredForm>
  );
}

interface FieldProps {
  readonly id: string;
  readonly column: BlockColumn;
  readonly text: string;
  readonly names: readonly string[] | undefined;
  readonly refused: string;
  readonly change: (text: string) => void;
}

function Field({ id, column, text, names, refused, change }: FieldProps) {
  const { content, means } = column;
  const common = {
    class: "feed-input",
    id,
    value: text,
    "aria-describedby": `${id}-means ${id}-fault`,
    "aria-invalid": refused !== "",
  };
  const choices =
    content.holds === "word"
      ? content.words
      : column.field === "fedFrom"
        ? (names ?? [])
        : undefined;
  const offered = content.holds === "size" ? OFFERED_SIZES : (names ?? []);
  return (
    <div class="feed-argument">
      <label class="feed-label" for={id}>
        {headerText(column)}
      </label>
      {choices ? (
        <select {...common} onChange={({ currentTarget }) => change(currentTarget.value)}>
          <option value="">{said.empty}</option>
          {(choices.includes(text) || text === "" ? choices : [...choices, text]).map((choice) => (
            <option key={choice} value={choice}>
              {choice}
            </option>
          ))}
        </select>
      ) : (
        <>
          <input
            {...common}
            list={offered.length > 0 ? `${id}-list` : undefined}
            onInput={({ currentTarget }) => change(currentTarget.value)}
          />
          {offered.length > 0 && (
            <datalist id={`${id}-list`}>
              {offered.map((one) => (
                <option key={one} value={one} />
              ))}
            </datalist>
          )}
        </>
      )}
      <p class="feed-hint" id={`${id}-means`}>
        {means}
      </p>
      <p class="feed-fault" id={`${id}-fault`}>
        {refused}
      </p>
    </div>
  );
}

function orderedColumns(block: BlockName, all: readonly BlockColumn[]) {
  const open = FIRST[block].map((field) => all.find((one) => one.field === field)!);
  return { first: open, more: all.filter((one) => !open.includes(one)) };
}
