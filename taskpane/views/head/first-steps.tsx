/** What the add-in is for and where to begin: shown at the first visit, closed by its reader, opened again from the pane's head. */
import { createRef, type RefObject, render } from "preact";
import { titleOf } from "../../workbook/found-budgets.js";
import type { WorkbookStore } from "../../workbook/workbook-store.js";
import { words } from "../../words/words.js";
import { freshId } from "../parts/element.js";
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
  /** Prefix of the cell functions, as they are typed here. */
  readonly namespace: string;
  /** Title of the sample. */
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
  const [place, head] = [document.createElement("div"), document.createElement("span")];
  const [opener, heading] = [createRef<HTMLButtonElement>(), createRef<HTMLHeadingElement>()];
  place.id = freshId("steps");
  place.hidden = memory.closedBefore();
  const show = (isOpen: boolean) => {
    place.hidden = !isOpen;
    if (!isOpen) memory.rememberClosed();
    draw();
  };
  const toggle = () => {
    show(place.hidden);
    if (!place.hidden) heading.current?.focus();
  };
  const draw = () =>
    render(
      <button
        type="button"
        class="feed-link"
        ref={opener}
        aria-controls={place.id}
        aria-expanded={!place.hidden}
        onClick={toggle}
      >
        {said.title}
      </button>,
      head,
    );
  draw();
  const close = () => show(false);
  const focusOpener = () => opener.current?.focus();
  render(<Steps {...options} {...{ heading, close, focusOpener }} />, place);
  return { element: place, opener: head };
}

interface StepsProps extends FirstStepsOptions {
  readonly heading: RefObject<HTMLHeadingElement | null>;
  readonly close: () => void;
  readonly focusOpener: () => void;
}

function Steps({ store, namespace, title, heading, close, focusOpener, ...to }: StepsProps) {
  const budgets = useSearch(store)?.budgets ?? [];
  const open = budgets[0];
  const then = (act: () => void) => () => {
    close();
    act();
  };
  return (
    <section class="feed-first-steps" aria-label={said.title}>
      <h2 class="feed-heading" tabIndex={-1} ref={heading}>
        {said.title}
      </h2>
      <p>{said.value}</p>
      <ul class="feed-first-list">
        <li>{said.own}</li>
        <li>{open ? said.isOpen(titleOf(open)) : said.sample(title)}</li>
        <li>{said.functions(namespace)}</li>
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
