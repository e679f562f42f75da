/** A load list or cable schedule of somebody else, pasted: its columns are told and changed, its rows seen, then written. */
import { useEffect, useLayoutEffect, useMemo, useRef, useState } from "preact/hooks";
import { BLOCKS } from "../../../src/schedules/columns.js";
import type { FoundBudget } from "../../budgets/reading/found-budget.js";
import type { OwnColumns } from "../../workbook/lists/list-changes.js";
import { likelyBlock, type ListColumn } from "../../workbook/lists/list-columns.js";
import { clipboardRows } from "../../workbook/lists/clipboard-table.js";
import type { DecimalSign } from "../../workbook/lists/list-figures.js";
import { roleText } from "../../workbook/lists/list-rows.js";
import {
  LEFT_OUT,
  LIST_BLOCKS,
  type ListBlock,
  OF_ALL,
  OWN,
  type Role,
  unitsOfRole,
} from "../../workbook/lists/list-words.js";
import { type ListChoices, type PastedList, pastedList } from "../../workbook/lists/pasted-list.js";
import { TypedSheets } from "../../workbook/typed-sheets.js";
import { listWords as said } from "../../words/list-words.js";
import { feedWords } from "../../words/feed-words.js";
import { Choice } from "../parts/budget-choice.js";
import { AnsweredForm, type FocusHome } from "../parts/answered-form.js";
import { freshId } from "../parts/element.js";
import type { FeedCommands } from "./feed-commands.js";
import { ListPreview } from "./list-preview.js";

export interface PasteListProps {
  readonly budget: FoundBudget;
  readonly commands: FeedCommands;
  readonly close: () => void;
  readonly home: FocusHome;
}

const NO_CHOICES: ListChoices = { text: "", block: "Load", roles: {}, units: {} };
const NO_OWN: OwnColumns = { headers: [], rows: [] };

export function PasteList({ budget, commands, close, home }: PasteListProps) {
  const stem = useMemo(() => freshId("list"), []);
  const first = useRef<HTMLTextAreaElement>(null);
  const [choices, choose] = useState(NO_CHOICES);
  const [basis, setBasis] = useState("");
  const [own, setOwn] = useState(NO_OWN);
  const { text, block } = choices;
  useLayoutEffect(() => first.current?.focus(), []);
  useEffect(() => {
    let isLate = false;
    void commands.ownColumns(block).then((found) => {
      if (!isLate) setOwn(found);
    });
    return () => {
      isLate = true;
    };
  }, [budget, block]);
  const list = useMemo(
    () =>
      text.trim() === "" ? undefined : pastedList(choices, budget, TypedSheets.of(budget), own),
    [choices, budget, own],
  );
  const submit = () => {
    if (!list?.isReady) return;
    void commands.paste(choices, basis.trim()).then((done) => {
      if (done) close();
    });
  };
  return (
    <AnsweredForm
      label={said.title}
      yes={list ? said.write(list.changes.added.length, list.changes.changed.length) : ""}
      no={feedWords.cancel}
      isReady={list?.isReady ?? false}
      submit={submit}
      leave={close}
      home={home}
    >
      <h2 class="feed-heading">{said.title}</h2>
      <p class="feed-quiet">{said.about}</p>
      <div class="feed-argument">
        <label class="feed-label" for={`${stem}-text`}>
          {said.text}
        </label>
        <textarea
          class="feed-input feed-list-text"
          id={`${stem}-text`}
          ref={first}
          rows={5}
          spellcheck={false}
          value={text}
          aria-describedby={`${stem}-hint`}
          onInput={({ currentTarget: { value } }) =>
            choose({ ...NO_CHOICES, text: value, block: likelyBlock(clipboardRows(value)) })
          }
        />
        <p class="feed-hint" id={`${stem}-hint`}>
          {said.textHint}
        </p>
      </div>
      {list && (
        <>
          <Choice
            label={said.block}
            chosen={block}
            options={LIST_BLOCKS.map((one) => ({ value: one, label: one }))}
            choose={(value) => choose({ ...NO_CHOICES, text, block: value as ListBlock })}
          />
          <div class="feed-argument">
            <label class="feed-label" for={`${stem}-basis`}>
              {said.basis}
            </label>
            <input
              class="feed-input"
              id={`${stem}-basis`}
              value={basis}
              aria-describedby={`${stem}-basis-hint`}
              onInput={({ currentTarget }) => setBasis(currentTarget.value)}
            />
            <p class="feed-hint" id={`${stem}-basis-hint`}>
              {said.basisHint}
            </p>
          </div>
          <Columns list={list} choices={choices} choose={choose} />
          <ListPreview budget={budget} block={block} list={list} tried={commands.triedRows} />
        </>
      )}
    </AnsweredForm>
  );
}

interface ColumnsProps {
  readonly list: PastedList;
  readonly choices: ListChoices;
  readonly choose: (choices: ListChoices) => void;
}

const MOST_HEADER_ROWS = 20;

function Columns({ list, choices, choose }: ColumnsProps) {
  const { block, roles, units } = choices;
  const take = (column: ListColumn, role: Role) => {
    // A figure comes from one column: the one that had it before is carried.
    const others = list.head.columns.filter((one) => one !== column && one.role === role);
    const freed = role === OWN || role === LEFT_OUT ? [] : others.map(({ at }) => [at, OWN]);
    choose({ ...choices, roles: { ...roles, ...Object.fromEntries(freed), [column.at]: role } });
  };
  return (
    <fieldset class="feed-list-columns">
      <legend class="feed-label">{said.columns}</legend>
      {list.isAsKept && <p class="feed-quiet">{said.asKept}</p>}
      <Choice
        label={said.headerRow}
        chosen={String(list.head.row)}
        options={list.table.slice(0, MOST_HEADER_ROWS).map((cells, row) => ({
          value: String(row),
          label: `${row + 1}: ${cells
            .filter((cell) => cell !== "")
            .join(" · ")
            .slice(0, 60)}`,
        }))}
        choose={(value) => choose({ ...choices, headerRow: Number(value), roles: {}, units: {} })}
      />
      <Choice
        label={said.sign}
        chosen={list.sign ?? ""}
        options={(["", ".", ","] as const).map((sign) => ({
          value: sign,
          label: said.signs[sign],
        }))}
        choose={(value) =>
          choose({ ...choices, sign: value === "" ? undefined : (value as DecimalSign) })
        }
      />
      <table class="feed-table">
        <thead>
          <tr>
            <th scope="col">{said.column}</th>
            <th scope="col">{said.role}</th>
            <th scope="col">{said.unit}</th>
          </tr>
        </thead>
        <tbody>
          {list.head.columns.map((column) => {
            const allowed = unitsOfRole(block, column.role);
            return (
              <tr key={column.at}>
                <th scope="row">
                  {column.header}
                  <span class="feed-hint"> {column.example}</span>
                </th>
                <td>
                  <select
                    class="feed-input"
                    aria-label={said.roleOf(column.header)}
                    value={column.role}
                    onChange={({ currentTarget }) => take(column, currentTarget.value)}
                  >
                    {rolesOf(block).map(([role, shown]) => (
                      <option key={role} value={role}>
                        {shown}
                      </option>
                    ))}
                  </select>
                </td>
                <td>
                  {allowed.length > 0 && (
                    <select
                      class="feed-input"
                      aria-label={said.unitOf(column.header)}
                      value={column.unit}
                      onChange={({ currentTarget }) =>
                        choose({
                          ...choices,
                          units: { ...units, [column.at]: currentTarget.value },
                        })
                      }
                    >
                      {["", ...allowed].map((unit) => (
                        <option key={unit} value={unit}>
                          {unit === "" ? said.chooseUnit : unit === "1" ? said.plainPart : unit}
                        </option>
                      ))}
                    </select>
                  )}
                </td>
              </tr>
            );
          })}
        </tbody>
      </table>
    </fieldset>
  );
}

function rolesOf(block: ListBlock): readonly (readonly [Role, string])[] {
  const headers = BLOCKS[block].map(({ header }) => header);
  const roles = block === "Load" ? [...headers, `Nominal${OF_ALL}`] : headers;
  return [
    [OWN, said.own],
    [block, said.name(block)],
    ...roles.map((role) => [role, roleText(block, role)] as const),
    [LEFT_OUT, said.leaveOut],
  ];
}
