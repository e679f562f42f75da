/** A budget's feed in the pane: its items as a tree and as a single-line diagram, entered and changed without the sheet. */
import { type RefObject, render } from "preact";
import { useEffect, useMemo, useRef, useState } from "preact/hooks";
import type { FoundBudget } from "../../budgets/reading/found-budget.js";
import { type FeedItem, feedItems } from "../../budgets/reading/feed-figures.js";
import { isFeeder, withAllItFeeds } from "../../budgets/reading/feed-outline.js";
import { feedSums, solvedFeed } from "../../pictures/solved-feed.js";
import type { Host } from "../../hosts/host.js";
import { singleLine } from "../../pictures/single-line.js";
import { titleOf } from "../../workbook/found-budgets.js";
import { newFeedPlan, type NewFeed } from "../../workbook/new-feed.js";
import type { WorkbookStore } from "../../workbook/workbook-store.js";
import { feedWords as said } from "../../words/feed-words.js";
import { listWords } from "../../words/list-words.js";
import { shownNumber } from "../../words/shown-numbers.js";
import { AskedForm } from "./asked-form.js";
import { type FeedCommands, feedCommands } from "./feed-commands.js";
import { chosenIn, FeedOutline } from "./feed-outline.js";
import { ItemPanel, type Panel } from "./item-panel.js";
import { NewFeedForm } from "./new-feed.js";
import type { FocusHome } from "../parts/answered-form.js";
import { BudgetChoice } from "../parts/budget-choice.js";
import { PasteList } from "./paste-list.js";
import { Drawing } from "../parts/drawing-view.js";
import { useSearch } from "../parts/use-store.js";
import { SharedRows } from "./shared-rows.js";

export interface FeedViewOptions {
  readonly host: Host;
  readonly store: WorkbookStore;
  readonly failed: (error: unknown) => void;
}

export interface FeedView {
  readonly element: HTMLElement;
  /** Opens the form that begins a feed. */
  beginFeed(): void;
}

export function feedView(options: FeedViewOptions): FeedView {
  const place = document.createElement("div");
  let begin = 0;
  const draw = () => render(<Feed {...options} begin={begin} />, place);
  draw();
  return {
    element: place,
    beginFeed() {
      begin += 1;
      draw();
    },
  };
}

function Feed({ host, store, failed, begin }: FeedViewOptions & { readonly begin: number }) {
  const search = useSearch(store);
  const budgets = search?.budgets ?? [];
  const [stem, chooseStem] = useState("");
  const budget = budgets.find((one) => one.stem === stem) ?? budgets.at(-1);
  const [isNew, openNew] = useState(false);
  const [outcome, tell] = useState("");
  const opener = useRef<HTMLButtonElement>(null);
  const outline = useRef<HTMLUListElement>(null);
  const home = () => chosenIn(outline.current) ?? opener.current;
  useEffect(() => {
    if (begin > 0) openNew(true);
  }, [begin]);

  const create = async (feed: NewFeed) => {
    const { stem: made, sheets } = await host.insert(newFeedPlan(feed));
    await store.read();
    chooseStem(made);
    openNew(false);
    tell(said.newFeed.created(Object.values(sheets)));
  };
  if (isNew) return <NewFeedForm create={create} cancel={() => openNew(false)} home={home} />;
  return (
    <div>
      <div class="feed-view-head">
        <h2 class="feed-heading">{said.title}</h2>
        <button type="button" class="feed-button" ref={opener} onClick={() => openNew(true)}>
          {said.newFeed.open}
        </button>
      </div>
      <BudgetChoice label={said.budget} budgets={budgets} chosen={budget} choose={chooseStem} />
      <p class="feed-status" role="status">
        {outcome}
      </p>
      {budget ? (
        <OneFeed
          key={budget.stem}
          budget={budget}
          commands={feedCommands({ host, store, budget, failed, tell })}
          outline={outline}
          home={home}
          goTo={(item) => {
            host.goTo(item.at).catch(failed);
          }}
        />
      ) : (
        search && <p>{said.noBudget}</p>
      )}
    </div>
  );
}

interface OneFeedProps {
  readonly budget: FoundBudget;
  readonly commands: FeedCommands;
  readonly outline: RefObject<HTMLUListElement | null>;
  /** Where the keyboard goes when a form is gone: the chosen item. */
  readonly home: FocusHome;
  readonly goTo: (item: FeedItem) => void;
}

function OneFeed({ budget, commands, outline, home, goTo }: OneFeedProps) {
  const items = useMemo(() => feedItems(budget), [budget]);
  const [chosenName, chooseName] = useState(items[0]?.name ?? "");
  const [panel, open] = useState<Panel>({ kind: "commands" });
  const [isPasting, paste] = useState(false);
  const last = useRef<FeedItem | undefined>(undefined);
  // An undone name is another one at the same place.
  const chosen =
    items.find(({ name }) => name === chosenName) ??
    items.find(({ block, row }) => block === last.current?.block && row === last.current.row) ??
    items[0];
  last.current = chosen;
  const close = () => open({ kind: "commands" });
  const choose = (item: FeedItem) => {
    if (item.name !== chosenName) close();
    chooseName(item.name);
  };
  const waiting = items.filter(({ isFed }) => !isFed).length;
  const picture = useMemo(() => singleLine(items), [items]);
  if (isPasting)
    return <PasteList budget={budget} commands={commands} close={() => paste(false)} home={home} />;
  return (
    <>
      <button type="button" class="feed-button" onClick={() => paste(true)}>
        {listWords.open}
      </button>
      <Sums budget={budget} />
      {waiting > 0 && <p class="feed-quiet">{said.notFedCount(waiting)}</p>}
      <FeedOutline
        label={said.outline(titleOf(budget))}
        list={outline}
        items={items}
        chosen={chosen}
        choose={choose}
        goTo={goTo}
        rename={(item) => {
          choose(item);
          open({ kind: "rename" });
        }}
        remove={(item) => {
          choose(item);
          open({ kind: "remove" });
        }}
      />
      <p class="feed-hint">{said.keys}</p>
      <ItemPanel
        budget={budget}
        items={items}
        item={chosen}
        panel={panel}
        open={open}
        close={close}
        home={home}
        goTo={goTo}
        commands={commands}
        chooseName={chooseName}
        feeds={chosen ? withAllItFeeds(chosen, items).length - 1 : 0}
        canFeed={chosen !== undefined && isFeeder(chosen)}
      />
      <SharedRows budget={budget} commands={commands} />
      <AskedForm budget={budget} commands={commands} />
      {picture && (
        <details class="feed-block" open>
          <summary>{picture.title}</summary>
          <Drawing picture={picture} stem={`feed-${budget.stem}`} />
        </details>
      )}
    </>
  );
}

function Sums({ budget }: { readonly budget: FoundBudget }) {
  const solved = solvedFeed(budget);
  if (!solved) return null;
  const { supply, loads, losses } = feedSums(solved);
  const watts = (value: number) => shownNumber(value, "W").text;
  return <p class="feed-sums">{said.sums(watts(supply), watts(loads), watts(losses))}</p>;
}
