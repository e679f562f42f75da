/** Tabs after the common keyboard pattern: arrows, Home and End move and choose, Tab goes on into the view. */
import { element, freshId } from "./element.js";

export interface Tab {
  readonly id: string;
  readonly label: string;
  readonly view: HTMLElement;
}

export interface Tabs {
  readonly list: HTMLElement;
  readonly panels: readonly HTMLElement[];
  choose(id: string): void;
  focus(): void;
  /** A count beside the label; none for "". */
  mark(id: string, count: string): void;
}

export function tabs(name: string, entries: readonly Tab[]): Tabs {
  const list = element("div", {
    class: "feed-tabs",
    role: "tablist",
    "aria-label": name,
  });
  const made = entries.map((entry) => tabAndPanel(entry));
  list.append(...made.map(({ tab }) => tab));

  function choose(id: string): void {
    for (const { entry, tab, panel } of made) {
      const chosen = entry.id === id;
      tab.setAttribute("aria-selected", String(chosen));
      tab.tabIndex = chosen ? 0 : -1;
      panel.hidden = !chosen;
    }
  }

  for (const { entry, tab } of made) tab.addEventListener("click", () => choose(entry.id));
  list.addEventListener("keydown", (event) => {
    const at = made.findIndex(({ tab }) => tab === event.target);
    const next = made[nextIndex(event.key, at, made.length)];
    if (!next) return;
    event.preventDefault();
    choose(next.entry.id);
    next.tab.focus();
  });
  choose(entries[0]?.id ?? "");

  return {
    list,
    panels: made.map(({ panel }) => panel),
    choose,
    focus: () => made.find(({ panel }) => !panel.hidden)?.tab.focus(),
    mark(id, count) {
      const badge = made
        .find(({ entry }) => entry.id === id)
        ?.tab.querySelector<HTMLElement>(".feed-count");
      if (!badge) return;
      badge.textContent = count;
      badge.hidden = count === "";
    },
  };
}

function tabAndPanel(entry: Tab) {
  const [tabId, panelId] = [freshId("tab"), freshId("view")];
  const count = element("span", { class: "feed-count", hidden: true });
  const tab = element(
    "button",
    {
      type: "button",
      class: "feed-tab",
      role: "tab",
      id: tabId,
      "aria-controls": panelId,
    },
    `${entry.label} `,
    count,
  );
  const panel = element(
    "div",
    {
      class: "feed-view",
      role: "tabpanel",
      id: panelId,
      "aria-labelledby": tabId,
    },
    entry.view,
  );
  return { entry, tab, panel };
}

function nextIndex(key: string, at: number, length: number): number {
  switch (key) {
    case "ArrowRight":
      return (at + 1) % length;
    case "ArrowLeft":
      return (at + length - 1) % length;
    case "Home":
      return 0;
    case "End":
      return length - 1;
    default:
      return -1;
  }
}
