/** What of a pasted list would be written, what would be left out and why, and whether all of it is there. */
import { useMemo } from "preact/hooks";
import { typedItems } from "../../budgets/reading/feed-outline.js";
import type { FoundBudget } from "../../budgets/reading/found-budget.js";
import { sameItem } from "../../budgets/reading/range-table.js";
import type { ListRow } from "../../workbook/lists/list-rows.js";
import type { ListBlock } from "../../workbook/lists/list-words.js";
import type { PastedList } from "../../workbook/lists/pasted-list.js";
import type { TypedCell } from "../../workbook/typed-sheets.js";
import { listWords as said } from "../../words/list-words.js";
import type { FeedCommands } from "./feed-commands.js";

export interface ListPreviewProps {
  readonly budget: FoundBudget;
  readonly block: ListBlock;
  readonly list: PastedList;
  readonly tried: FeedCommands["triedRows"];
}

export function ListPreview({ budget, block, list, tried }: ListPreviewProps) {
  const { read, changes, head } = list;
  const { sum, open, leftOut, carried } = read;
  const feederOf = ({ cells }: ListRow) => String(cells["Fed from"] ?? "");
  const unfed = changes.added.filter((row) => feederOf(row) === "").length;
  // What is not fed yet is told once, not in every row: there they are tried behind an item that is there.
  const notes = useMemo(() => {
    const feeder = typedItems(budget).find((item) => item.block !== "Load")?.name ?? "";
    const isUnknown = (name: string) =>
      name === "" || list.unknownFeeders.some((one) => sameItem(one, name));
    return tried(
      block,
      changes.added.map((row) =>
        isUnknown(feederOf(row)) ? { ...row.cells, "Fed from": feeder } : row.cells,
      ),
    );
  }, [budget, list]);
  const parts = notes.map((note) => note.split("; ").filter((part) => part !== ""));
  const rowsThatSay = (part: string) => parts.filter((own) => own.includes(part)).length;
  const shared = [...new Set(parts.flat())].filter((part) => rowsThatSay(part) > ALONE);
  const isNamed = head.columns.some(({ role }) => role === block);
  const asks = [
    ...(open.units.length > 0 ? [said.openUnits(open.units)] : []),
    ...(open.sign ? [said.openSign] : []),
    ...(isNamed ? [] : [said.noName(block)]),
  ];
  const isWhole = !sum || isSame(sum.inList, sum.taken);
  const isStated = sum?.stated === undefined || isSame(sum.inList, sum.stated, ROUNDED);
  return (
    <section aria-label={said.preview}>
      <h3 class="feed-group-heading">{said.preview}</h3>
      {asks.map((ask) => (
        <p key={ask} class="feed-fault" role="alert">
          {ask}
        </p>
      ))}
      <p>{said.lines(read.rows.length + leftOut.length, read.rows.length, leftOut.length)}</p>
      {sum && (
        <p class={`feed-list-sum ${isWhole && isStated ? "" : "feed-fault"}`} role="status">
          {said.sum(sum.inList, sum.taken, sum.unit)}
          {sum.stated !== undefined && ` ${said.stated(sum.stated, sum.unit)}`}
          {!isStated && ` ${said.notStated(sum.inList, sum.unit)}`}
          {!isWhole && ` ${said.differs(sum.inList, sum.taken, sum.unit)}`}
        </p>
      )}
      <p>{said.counts(changes.added.length, changes.changed.length, changes.same)}</p>
      {carried.length > 0 && <p>{said.carried(carried.map(({ header }) => header))}</p>}
      {carried.map(({ header, says }) =>
        says === "" ? null : <p key={header}>{said.countsNothing(header, says)}</p>,
      )}
      {list.unknownFeeders.length > 0 && <p>{said.unfed(list.unknownFeeders)}</p>}
      {unfed > 0 && <p>{said.notFed(unfed)}</p>}
      {changes.gone.length > 0 && <p>{said.gone(changes.gone)}</p>}
      {leftOut.length > 0 && (
        <details class="feed-block" open>
          <summary>{said.leftOut(leftOut.length)}</summary>
          <ul>
            {leftOut.map(({ line, text, why }) => (
              <li key={line}>
                <strong>{`${said.line(line)}, ${why}`}</strong> {text}
              </li>
            ))}
          </ul>
        </details>
      )}
      {changes.changed.length > 0 && (
        <details class="feed-block" open>
          <summary>{said.changed(changes.changed.length)}</summary>
          <ul>
            {changes.changed.map(({ row, changes: changed, stays }) => (
              <li key={row.line}>
                <strong>{row.name}</strong>{" "}
                {[
                  ...changed.map((one) => said.change(one.header, shown(one.old), shown(one.new))),
                  ...stays.map((one) => said.stays(one.header, shown(one.old), shown(one.new))),
                  ...row.remarks,
                ].join("; ")}
              </li>
            ))}
          </ul>
        </details>
      )}
      {changes.added.length > 0 && (
        <details class="feed-block" open>
          <summary>{said.rows(changes.added.length)}</summary>
          {shared.map((part) => (
            <p key={part} class="feed-hint">
              {said.severalSay(rowsThatSay(part), part)}
            </p>
          ))}
          <ul class="feed-list-rows">
            {changes.added.map((row, index) => (
              <li key={row.line}>
                <strong>{row.name}</strong> {figures(block, row)}
                {[
                  ...row.remarks,
                  ...(parts[index] ?? []).filter((part) => !shared.includes(part)),
                ].map((remark) => (
                  <p key={remark} class="feed-hint">
                    {remark}
                  </p>
                ))}
              </li>
            ))}
          </ul>
        </details>
      )}
    </section>
  );
}

/** What more rows than these say is told once. */
const ALONE = 3;

/** Rounding of the totals that lists print, as a part of the total. */
const ROUNDED = 0.001;

function isSame(one: number, other: number, within = 1e-6): boolean {
  return Math.abs(one - other) <= within * Math.abs(one);
}

function figures(block: ListBlock, { cells }: ListRow): string {
  return Object.entries(cells)
    .filter(([header]) => header !== block)
    .map(([header, content]) => `${header} ${shown(content)}`)
    .join(" · ");
}

function shown(content: TypedCell): string {
  if (content === "") return said.nothing;
  return typeof content === "number"
    ? new Intl.NumberFormat(undefined, { maximumSignificantDigits: 12 }).format(content)
    : String(content);
}
