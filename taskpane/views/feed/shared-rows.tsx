/** Places and stage types, which many items name: listed, added and changed beside the feed. */
import { useRef, useState } from "preact/hooks";
import { rangeRows, textOf } from "../../budgets/reading/range-table.js";
import { BLOCK_AREAS } from "../../budgets/names.js";
import type { FoundBudget } from "../../budgets/reading/found-budget.js";
import type { RowCells } from "../../workbook/feed-edits.js";
import { feedWords as said } from "../../words/feed-words.js";
import type { FeedCommands } from "./feed-commands.js";
import { namesOf } from "./item-panel.js";
import { RowForm } from "./row-form.js";

const SHARED = ["Stage type", "Location"] as const;

interface Opened {
  readonly block: (typeof SHARED)[number];
  readonly row: number | undefined;
  readonly cells: RowCells;
}

export interface SharedRowsProps {
  readonly budget: FoundBudget;
  readonly commands: FeedCommands;
}

export function SharedRows({ budget, commands }: SharedRowsProps) {
  const [opened, open] = useState<Opened>();
  const adders = {
    "Stage type": useRef<HTMLButtonElement>(null),
    Location: useRef<HTMLButtonElement>(null),
  };
  const close = () => open(undefined);
  return (
    <details class="feed-block">
      <summary>{said.shared}</summary>
      {SHARED.map((block) => {
        const rows = typedRows(budget, block);
        return (
          <section key={block}>
            <h3 class="feed-group-heading">{block}</h3>
            {rows.length === 0 && <p class="feed-quiet">{said.noShared(block)}</p>}
            <ul>
              {rows.map(({ name, row }) => (
                <li key={name}>
                  <button
                    type="button"
                    class="feed-link"
                    aria-label={said.changeShared(name)}
                    onClick={() => {
                      void commands.cells(block, row).then((cells) => open({ block, row, cells }));
                    }}
                  >
                    {name}
                  </button>
                </li>
              ))}
            </ul>
            {opened?.block === block ? (
              <RowForm
                key={String(opened.row)}
                block={block}
                title={
                  opened.row === undefined
                    ? said.addShared(block)
                    : said.changeShared(String(opened.cells[block]))
                }
                cells={opened.cells}
                headed={(column) => commands.headed(block, column)}
                names={{}}
                taken={namesOf(budget, block).filter((name) => name !== opened.cells[block])}
                tried={(cells) => commands.tried(block, opened.row, cells)}
                cancel={close}
                home={() => adders[block].current}
                save={(cells) => {
                  const done =
                    opened.row === undefined
                      ? commands.add(block, cells)
                      : commands.change(block, opened.row, cells);
                  void done.then((written) => {
                    if (written) close();
                  });
                }}
              />
            ) : (
              <button
                type="button"
                class="feed-button"
                ref={adders[block]}
                onClick={() => open({ block, row: undefined, cells: {} })}
              >
                {said.addShared(block)}
              </button>
            )}
          </section>
        );
      })}
    </details>
  );
}

function typedRows(budget: FoundBudget, block: (typeof SHARED)[number]) {
  const range = budget.ranges[BLOCK_AREAS[block]];
  return (range ? rangeRows(range) : []).map(({ item }) => ({
    name: item,
    row: range!.values.findIndex(([first], index) => index > 0 && textOf(first) === item),
  }));
}
