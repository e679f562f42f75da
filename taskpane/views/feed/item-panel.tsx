/** What can be done with the chosen item: its commands, and the form or question of the one that was begun. */
import { useLayoutEffect, useMemo, useRef, useState } from "preact/hooks";
import type { FeedItem } from "../../budgets/reading/feed-figures.js";
import type { ItemBlock } from "../../budgets/reading/feed-outline.js";
import type { FoundBudget } from "../../budgets/reading/found-budget.js";
import { rangeRows, sameItem } from "../../budgets/reading/range-table.js";
import { BLOCK_AREAS } from "../../budgets/names.js";
import { freshName, possibleFeeders, type RowCells } from "../../workbook/feed-edits.js";
import { feedWords as said } from "../../words/feed-words.js";
import { AnsweredForm, type FocusHome, useOpened } from "../parts/answered-form.js";
import { freshId } from "../parts/element.js";
import type { FeedCommands } from "./feed-commands.js";
import { RowForm } from "./row-form.js";

export type Panel =
  | { readonly kind: "commands" | "rename" | "move" | "remove" }
  | { readonly kind: "add"; readonly block: ItemBlock }
  | { readonly kind: "edit"; readonly cells: RowCells };

export interface ItemPanelProps {
  readonly budget: FoundBudget;
  readonly items: readonly FeedItem[];
  readonly item: FeedItem | undefined;
  readonly panel: Panel;
  readonly open: (panel: Panel) => void;
  readonly close: () => void;
  readonly home: FocusHome;
  readonly goTo: (item: FeedItem) => void;
  readonly commands: FeedCommands;
  readonly chooseName: (name: string) => void;
  /** How many other items hang on it. */
  readonly feeds: number;
  readonly canFeed: boolean;
}

/** What is added below an item, commonest first. */
const ADDED: readonly ItemBlock[] = ["Load", "Cable", "Stage", "In line"];

export function ItemPanel(props: ItemPanelProps) {
  const { panel } = props;
  switch (panel.kind) {
    case "commands":
      return <Commands {...props} />;
    case "add":
    case "edit":
      return <RowPanel {...props} panel={panel} />;
    case "rename":
      return props.item ? <Rename {...props} item={props.item} /> : null;
    case "move":
      return props.item ? <Move {...props} item={props.item} /> : null;
    case "remove":
      return props.item ? <Remove {...props} item={props.item} /> : null;
  }
}

function Commands({ item, open, goTo, commands, chooseName, canFeed }: ItemPanelProps) {
  const edit = async (one: FeedItem) => {
    open({ kind: "edit", cells: await commands.cells(one.block, one.row) });
  };
  return (
    <div
      class="feed-commands"
      role="group"
      aria-label={item ? said.commands(item.name) : said.addAny}
    >
      {item && canFeed && (
        <div class="feed-add">
          <span class="feed-label">{said.add(item.name)}</span>
          {ADDED.map((block) => (
            <button
              key={block}
              type="button"
              class="feed-button"
              onClick={() => open({ kind: "add", block })}
            >
              {block}
            </button>
          ))}
        </div>
      )}
      <div class="feed-actions">
        {item && (
          <>
            <Press say={said.edit} run={() => void edit(item)} />
            <Press say={said.rename} run={() => open({ kind: "rename" })} />
            {item.block !== "Supply" && (
              <Press say={said.move} run={() => open({ kind: "move" })} />
            )}
            <Press
              say={said.duplicate}
              run={() => {
                void commands.duplicate(item).then((copy) => {
                  if (copy !== undefined) chooseName(copy);
                });
              }}
            />
            <Press say={said.remove} run={() => open({ kind: "remove" })} />
            <Press say={said.goTo} run={() => goTo(item)} />
          </>
        )}
        <Press say={said.addSupply} run={() => open({ kind: "add", block: "Supply" })} />
      </div>
    </div>
  );
}

function Press({ say, run }: { readonly say: string; readonly run: () => void }) {
  return (
    <button type="button" class="feed-button" onClick={run}>
      {say}
    </button>
  );
}

function RowPanel({
  budget,
  items,
  item,
  panel,
  close,
  home,
  commands,
  chooseName,
}: ItemPanelProps & { readonly panel: Extract<Panel, { kind: "add" | "edit" }> }) {
  const isNew = panel.kind === "add";
  const block = panel.kind === "add" ? panel.block : item!.block;
  const row = isNew ? undefined : item!.row;
  const names = useMemo(
    () => ({
      fedFrom: (isNew ? items : possibleFeeders(items, item!))
        .filter((one) => one.block !== "Load")
        .map(({ name }) => name),
      type: namesOf(budget, "Stage type"),
      locations: namesOf(budget, "Location"),
    }),
    [budget, items, item],
  );
  const taken = items.filter((one) => isNew || one !== item).map(({ name }) => name);
  const cells = useMemo((): RowCells => {
    if (panel.kind === "edit") return panel.cells;
    const begun = { [block]: firstFree(block, taken) };
    return block === "Supply" || !item ? begun : { ...begun, "Fed from": item.name };
  }, []);
  return (
    <RowForm
      block={block}
      title={
        isNew
          ? block === "Supply" || !item
            ? said.addSupply
            : said.added(block, item.name)
          : said.editing(item!.name)
      }
      cells={cells}
      headed={(column) => commands.headed(block, column)}
      names={names}
      taken={taken}
      tried={(entered) => commands.tried(block, row, entered)}
      cancel={close}
      home={home}
      save={(entered) => {
        const done =
          row === undefined ? commands.add(block, entered) : commands.change(block, row, entered);
        void done.then((written) => {
          if (!written) return;
          close();
          chooseName(String(entered[block]));
        });
      }}
    />
  );
}

function Rename({
  item,
  items,
  commands,
  close,
  home,
  chooseName,
}: ItemPanelProps & { readonly item: FeedItem }) {
  const id = useMemo(() => freshId("rename"), []);
  const field = useRef<HTMLInputElement>(null);
  const [name, setName] = useState(item.name);
  useLayoutEffect(() => field.current?.select(), []);
  const isTaken = items.some((one) => one !== item && sameItem(one.name, name));
  const fault = name.trim() === "" ? said.nameNeeded : isTaken ? said.nameTaken(name.trim()) : "";
  return (
    <AnsweredForm
      yes={said.rename}
      no={said.cancel}
      submit={() => {
        if (fault !== "") return;
        void commands.rename(item, name.trim()).then((done) => {
          if (!done) return;
          close();
          chooseName(name.trim());
        });
      }}
      leave={close}
      home={home}
    >
      <label class="feed-label" for={id}>
        {said.newName(item.name)}
      </label>
      <input
        class="feed-input"
        id={id}
        ref={field}
        value={name}
        aria-invalid={fault !== ""}
        aria-describedby={`${id}-fault`}
        onInput={({ currentTarget }) => setName(currentTarget.value)}
      />
      <p class="feed-fault" id={`${id}-fault`}>
        {fault}
      </p>
    </AnsweredForm>
  );
}

function Move({
  item,
  items,
  commands,
  close,
  home,
}: ItemPanelProps & { readonly item: FeedItem }) {
  const id = useMemo(() => freshId("feeder"), []);
  const field = useRef<HTMLSelectElement>(null);
  const possible = possibleFeeders(items, item).map(({ name }) => name);
  // What is fed from several is shown so, and is one of the choices.
  const feeders =
    possible.includes(item.fedFrom) || item.fedFrom === "" ? possible : [...possible, item.fedFrom];
  const [feeder, setFeeder] = useState(item.fedFrom);
  useLayoutEffect(() => field.current?.focus(), []);
  return (
    <AnsweredForm
      yes={said.move}
      no={said.cancel}
      submit={() => {
        void commands.feedFrom(item, feeder).then((done) => {
          if (done) close();
        });
      }}
      leave={close}
      home={home}
    >
      <label class="feed-label" for={id}>
        {said.feeder(item.name)}
      </label>
      <select
        class="feed-input"
        id={id}
        ref={field}
        value={feeder}
        onChange={({ currentTarget }) => setFeeder(currentTarget.value)}
      >
        <option value="">{said.nothing}</option>
        {feeders.map((name) => (
          <option key={name} value={name}>
            {name}
          </option>
        ))}
      </select>
    </AnsweredForm>
  );
}

function Remove({
  item,
  commands,
  close,
  home,
  feeds,
  chooseName,
}: ItemPanelProps & { readonly item: FeedItem }) {
  const id = useMemo(() => freshId("remove"), []);
  const question = useRef<HTMLDivElement>(null);
  const keep = useRef<HTMLButtonElement>(null);
  useOpened(question, home);
  useLayoutEffect(() => keep.current?.focus(), []);
  const remove = (fate: "goes too" | "is fed by the one before") => {
    void commands.remove(item, fate).then((done) => {
      if (!done) return;
      close();
      chooseName(item.fedFrom);
    });
  };
  return (
    <div
      class="feed-question"
      ref={question}
      role="alertdialog"
      aria-labelledby={id}
      onKeyDown={({ key }) => {
        if (key === "Escape") close();
      }}
    >
      <p id={id}>{said.removeAsk(item.name, feeds)}</p>
      <div class="feed-actions">
        <button type="button" class="feed-button" ref={keep} onClick={close}>
          {said.cancel}
        </button>
        <Press say={said.removeAll(feeds)} run={() => remove("goes too")} />
        {feeds > 0 && (
          <Press
            say={said.removeAlone(item.fedFrom)}
            run={() => remove("is fed by the one before")}
          />
        )}
      </div>
    </div>
  );
}

/** A name to begin with: the block's own, numbered where it is taken. */
function firstFree(block: string, taken: readonly string[]): string {
  return taken.some((one) => sameItem(one, block)) ? freshName(block, taken) : block;
}

export function namesOf(budget: FoundBudget, block: "Location" | "Stage type"): readonly string[] {
  const range = budget.ranges[BLOCK_AREAS[block]];
  return range ? rangeRows(range).map(({ item }) => item) : [];
}
