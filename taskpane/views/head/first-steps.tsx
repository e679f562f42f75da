/** What the add-in is for and where to begin: shown at the first visit, closed by its reader, opened again from the pane's head. */
import { render } from "preact";
import { titleOf } from "../../workbook/found-budgets.js";
import type { WorkbookStore } from "../../workbook/workbook-store.js";
import { words } from "../../words/words.js";
import { button, freshId } from "../parts/element.js";
import { useSearch } from "../parts/use-store.js";

const said = words.firstSteps;

/** Whether its reader has closed it before. */
export interface StepsMemory {
  readonly closedBefore: () => boolean;
  readonly rememberClosed: () => void;
}

export interface FirstStepsOptions {
  readonly memory: StepsMemory;
  readonly store: WorkbookStore;
  /** Of the sample. */
  readonly title: string;
  readonly newFeed: () => void;
  readonly insertSample: () => void;
  readonly toFunctions: () => void;
}

export interface FirstSteps {
  readonly element: HTMLElement;
  /** Stands in the pane's head. */
  readonly opener: HTMLElement;
}

export function firstSteps(options: FirstStepsOptions): FirstSteps {
  const { memory } = options;
  const id = freshId("steps");
  const place = document.createElement("div");
  place.id = id;
  const opener = button(
    said.title,
    () => {
      show(place.hidden);
      if (place.hidden) memory.rememberClosed();
      else place.querySelector<HTMLElement>("h2")?.focus();
    },
    { class: "feed-link", "aria-controls": id },
  );
  const show = (open: boolean) => {
    place.hidden = !open;
    opener.setAttribute("aria-expanded", String(open));
  };
  const close = () => {
    show(false);
    memory.rememberClosed();
  };
  render(<Steps {...options} close={close} focusOpener={() => opener.focus()} />, place);
  show(!memory.closedBefore());
  return { element: place, opener };
}

interface StepsProps extends FirstStepsOptions {
  readonly close: () => void;
  readonly focusOpener: () => void;
}

function Steps({ store, title, close, focusOpener, ...to }: StepsProps) {
  const budgets = useSearch(store)?.budgets ?? [];
  const open = budgets[0];
  const then = (act: () => void) => () => {
    close();
    act();
  };
  return (
    <section class="feed-first-steps" aria-label={said.title}>
      <h2 class="feed-heading" tabIndex={-1}>
        {said.title}
      </h2>
      <p>{said.value}</p>
      <ul class="feed-first-list">
        <li>{said.own}</li>
        <li>{open ? said.isOpen(titleOf(open)) : said.sample(title)}</li>
        <li>{said.functions}</li>
        <li>{said.nothingLeaves}</li>
      </ul>
      <div class="feed-actions">
        <button type="button" class="feed-button feed-main" onClick={then(to.newFeed)}>
          {said.newFeed}
        </button>
        {!open && (
          <button type="button" class="feed-button" onClick={then(to.insertSample)}>
            {said.insertSample}
          </button>
        )}
        <button type="button" class="feed-button" onClick={then(to.toFunctions)}>
          {said.toFunctions}
        </button>
        <button type="button" class="feed-button" onClick={then(focusOpener)}>
          {said.close}
        </button>
      </div>
    </section>
  );
}
