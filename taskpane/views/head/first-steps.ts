/** What the add-in is for and where to begin: shown at the first visit, closed by its reader, opened again from the pane's head. */
import { button, element, freshId } from "../parts/element.js";
import { words } from "../../words/words.js";

const said = words.firstSteps;

/** Whether its reader has closed it before. */
export interface StepsMemory {
  readonly closedBefore: () => boolean;
  readonly rememberClosed: () => void;
}

export interface FirstStepsOptions {
  readonly memory: StepsMemory;
  /** Of the sample. */
  readonly title: string;
  readonly insertSample: () => void;
  readonly toFunctions: () => void;
}

export interface FirstSteps {
  readonly element: HTMLElement;
  /** Stands in the pane's head. */
  readonly opener: HTMLElement;
}

export function firstSteps({
  memory,
  title,
  insertSample,
  toFunctions,
}: FirstStepsOptions): FirstSteps {
  const [id, headingId] = [freshId("steps"), freshId("steps-heading")];
  const heading = element(
    "h2",
    { class: "feed-heading", id: headingId, tabindex: "-1" },
    said.title,
  );
  const section = element(
    "section",
    { class: "feed-first-steps", id, "aria-labelledby": headingId },
    heading,
    element("p", {}, said.value),
    element(
      "ul",
      { class: "feed-first-list" },
      element("li", {}, said.sample(title)),
      element("li", {}, said.functions),
      element("li", {}, said.nothingLeaves),
    ),
    element(
      "div",
      { class: "feed-actions" },
      button(said.insertSample, () => {
        close();
        insertSample();
      }),
      button(said.toFunctions, () => {
        close();
        toFunctions();
      }),
      button(said.close, () => {
        close();
        opener.focus();
      }),
    ),
  );
  const opener = button(
    said.title,
    () => {
      if (section.hidden) {
        show(true);
        heading.focus();
      } else close();
    },
    { class: "feed-link", "aria-controls": id },
  );

  function show(open: boolean): void {
    section.hidden = !open;
    opener.setAttribute("aria-expanded", String(open));
  }

  function close(): void {
    show(false);
    memory.rememberClosed();
  }

  show(!memory.closedBefore());
  return { element: section, opener };
}
