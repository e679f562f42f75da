/** The choices of one figure that varies: a row for each, with what it brings along. */
import { useMemo } from "preact/hooks";
import { headerText } from "../../../src/schedules/columns.js";
import { OFFERED_SIZES } from "../../budgets/offered-sizes.js";
import type { Mark, MarkColumn } from "../../tradeoffs/marks.js";
import { markName } from "../../tradeoffs/mark-reading.js";
import { clipboardRows } from "../../workbook/lists/clipboard-table.js";
import { tradeWords as said } from "../../words/trade-words.js";
import { Button } from "../parts/button.js";
import { freshId } from "../parts/element.js";

export interface MarkFormProps {
  readonly mark: Mark;
  /** The row that cannot be; undefined for none. */
  readonly faultyRow: number | undefined;
  readonly change: (texts: Mark["texts"]) => void;
  readonly remove: () => void;
}

export function MarkForm({ mark, faultyRow, change, remove }: MarkFormProps) {
  const id = useMemo(() => freshId("mark"), []);
  const { columns } = mark;
  const name = markName(mark);
  const rows = withEmptyRow(mark);
  const set = (row: number, column: number, typed: readonly (readonly string[])[]) =>
    change(
      Array.from({ length: Math.max(rows.length, row + typed.length) }, (_, at) =>
        columns.map((_, place) => typed[at - row]?.[place - column] ?? rows[at]?.[place] ?? ""),
      ),
    );
  return (
    <fieldset class="feed-mark-form">
      <legend class="feed-label">{name}</legend>
      <p class="feed-hint" id={id}>
        {meaning(mark)} {columns.length > 1 && said.pasted}
      </p>
      <div class="feed-wide">
        <table class="feed-table">
          <thead>
            <tr>
              {columns.map((column) => (
                <th scope="col" key={headingOf(mark, column)}>
                  {headingOf(mark, column)}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {rows.map((texts, row) => (
              <tr key={row}>
                {columns.map((column, place) => (
                  <td key={headingOf(mark, column)}>
                    <ChoiceCell
                      column={column}
                      text={texts[place] ?? ""}
                      label={said.choiceOf(headingOf(mark, column), row + 1)}
                      describedBy={id}
                      isFaulty={row === faultyRow}
                      type={(typed) => set(row, place, typed)}
                    />
                  </td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      <Button press={remove}>{said.remove(name)}</Button>
    </fieldset>
  );
}

interface ChoiceCellProps {
  readonly column: MarkColumn;
  readonly text: string;
  readonly label: string;
  readonly describedBy: string;
  readonly isFaulty: boolean;
  /** One text, or rows of them that were pasted. */
  readonly type: (typed: readonly (readonly string[])[]) => void;
}

function ChoiceCell({ column, text, label, describedBy, isFaulty, type }: ChoiceCellProps) {
  const list = useMemo(() => freshId("sizes"), []);
  const common = {
    class: "feed-input",
    "aria-label": label,
    "aria-describedby": describedBy,
    "aria-invalid": isFaulty,
    value: text,
  };
  if (column.words)
    return (
      <select {...common} onChange={({ currentTarget }) => type([[currentTarget.value]])}>
        {["", ...column.words].map((word) => (
          <option key={word} value={word}>
            {word}
          </option>
        ))}
      </select>
    );
  const isSize = column.column.content.holds === "size";
  return (
    <>
      <input
        {...common}
        autocomplete="off"
        list={isSize ? list : undefined}
        onInput={({ currentTarget }) => type([[currentTarget.value]])}
        onPaste={(event) => {
          const pasted = clipboardRows(event.clipboardData?.getData("text") ?? "");
          if (pasted.length < 2 && (pasted[0]?.length ?? 0) < 2) return;
          event.preventDefault();
          type(pasted);
        }}
      />
      {isSize && (
        <datalist id={list}>
          {OFFERED_SIZES.map((size) => (
            <option key={size} value={size} />
          ))}
        </datalist>
      )}
    </>
  );
}

/** With one to type the next choice in. */
function withEmptyRow({ texts, columns }: Mark): Mark["texts"] {
  const isLastTyped = texts.at(-1)?.some((text) => text.trim() !== "") ?? true;
  return isLastTyped ? [...texts, columns.map(() => "")] : texts;
}

function meaning({ kind, rest }: Mark): string {
  if (kind !== "place") return said.means[kind];
  return rest ? said.means.place(rest.length, rest.cable) : "";
}

function headingOf({ item }: Mark, { row, column }: MarkColumn): string {
  return row === item ? headerText(column) : `${headerText(column)} of ${row}`;
}
