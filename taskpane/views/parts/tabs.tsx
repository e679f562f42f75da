/** Tabs after the common keyboard pattern: arrows, Home and End move and choose, Tab goes on into the view. */
import { render } from "preact";
import { useLayoutEffect, useRef } from "preact/hooks";
import { freshId } from "./element.js";

export interface Tab {
  readonly id: string;
  readonly label: string;
  readonly view: HTMLElement;
}

export interface Tabs {
  readonly element: HTMLElement;
  /** The view that is shown. */
  readonly chosen: string;
  choose(id: string): void;
  focus(): void;
  /** A count beside the label; none for "". */
  mark(id: string, count: string): void;
}

/** @param changed Called when another view is shown. */
export function tabs(name: string, entries: readonly Tab[], changed: () => void): Tabs {
  const place = document.createElement("div");
  const stem = freshId("tabs");
  const buttons = new Map<string, HTMLButtonElement>();
  let chosen = entries[0]?.id ?? "";
  let counts: Readonly<Record<string, string>> = {};
  const tabs: Tabs = {
    element: place,
    get chosen() {
      return chosen;
    },
    choose(id) {
      if (id === chosen) return;
      chosen = id;
      draw();
      changed();
    },
    focus: () => buttons.get(chosen)?.focus(),
    mark(id, count) {
      counts = { ...counts, [id]: count };
      draw();
    },
  };
  function draw(): void {
    render(
      <TabList {...{ name, stem, entries, chosen, counts, buttons }} choose={tabs.choose} />,
      place,
    );
  }
  draw();
  return tabs;
}

interface TabListProps {
  readonly name: string;
  readonly stem: string;
  readonly entries: readonly Tab[];
  readonly chosen: string;
  readonly counts: Readonly<Record<string, string>>;
  /** Filled here. */
  readonly buttons: Map<string, HTMLButtonElement>;
  readonly choose: (id: string) => void;
}

function TabList({ name, stem, entries, chosen, counts, buttons, choose }: TabListProps) {
  const onKeyDown = (event: KeyboardEvent) => {
    const at = entries.findIndex(({ id }) => buttons.get(id) === event.target);
    const next = entries[nextIndex(event.key, at, entries.length)];
    if (!next) return;
    event.preventDefault();
    choose(next.id);
    buttons.get(next.id)?.focus();
  };
  return (
    <>
      <div class="feed-tabs" role="tablist" aria-label={name} onKeyDown={onKeyDown}>
        {entries.map(({ id, label }) => (
          <button
            key={id}
            type="button"
            class="feed-tab"
            role="tab"
            id={`${stem}-${id}-tab`}
            aria-controls={`${stem}-${id}`}
            aria-selected={id === chosen}
            tabIndex={id === chosen ? 0 : -1}
            ref={(made) => {
              if (made) buttons.set(id, made);
            }}
            onClick={() => choose(id)}
          >
            {`${label} `}
            <span class="feed-count" hidden={!counts[id]}>
              {counts[id]}
            </span>
          </button>
        ))}
      </div>
      {entries.map(({ id, view }) => (
        <div
          key={id}
          class="feed-view"
          role="tabpanel"
          id={`${stem}-${id}`}
          aria-labelledby={`${stem}-${id}-tab`}
          hidden={id !== chosen}
        >
          <Standing view={view} />
        </div>
      ))}
    </>
  );
}

/** A view that draws itself. */
function Standing({ view }: { readonly view: HTMLElement }) {
  const place = useRef<HTMLDivElement>(null);
  useLayoutEffect(() => place.current?.replaceChildren(view), [view]);
  return <div ref={place} />;
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
