/** The items of a feed as a tree that the keyboard walks: figures, and the worst that the checks say of each. */
import type { RefObject } from "preact";
import { useLayoutEffect, useRef } from "preact/hooks";
import type { FeedItem } from "../../budgets/reading/feed-figures.js";
import { feederNames } from "../../budgets/reading/feed-outline.js";
import { feedWords as said } from "../../words/feed-words.js";
import { shownNumber } from "../../words/shown-numbers.js";

export interface FeedOutlineProps {
  readonly label: string;
  readonly list: RefObject<HTMLUListElement | null>;
  readonly items: readonly FeedItem[];
  readonly chosen: FeedItem | undefined;
  readonly choose: (item: FeedItem) => void;
  readonly goTo: (item: FeedItem) => void;
  readonly rename: (item: FeedItem) => void;
  readonly remove: (item: FeedItem) => void;
}

export function FeedOutline(props: FeedOutlineProps) {
  const { label, list, items, chosen, choose } = props;
  const hadFocus = useRef(false);
  // After a key or a command the chosen item is another element. The focus follows the choice and
  // never makes one: two keys in one frame would otherwise choose each other's items for ever.
  useLayoutEffect(() => {
    if (hadFocus.current) chosenIn(list.current)?.focus();
  }, [chosen?.name]);

  const onKeyDown = (event: KeyboardEvent) => {
    const at = chosen ? items.indexOf(chosen) : -1;
    const next = nextItem(event.key, items, at);
    if (next) choose(next);
    else if (chosen && event.key === "Enter") props.goTo(chosen);
    else if (chosen && event.key === "F2") props.rename(chosen);
    else if (chosen && event.key === "Delete") props.remove(chosen);
    else return;
    event.preventDefault();
  };

  return (
    <ul
      class="feed-outline"
      role="tree"
      aria-label={label}
      ref={list}
      onKeyDown={onKeyDown}
      onFocusIn={() => (hadFocus.current = true)}
      onFocusOut={() => (hadFocus.current = false)}
    >
      {items.map((item) => {
        const isChosen = item === chosen;
        return (
          <li
            key={`${item.block} ${item.name}`}
            class="feed-outline-item"
            role="treeitem"
            aria-level={item.depth + 1}
            aria-selected={isChosen}
            tabIndex={isChosen || (!chosen && item === items[0]) ? 0 : -1}
            style={{ paddingInlineStart: `${Math.min(item.depth, DEEPEST) * INDENT + 6}px` }}
            onClick={() => choose(item)}
            onDblClick={() => props.goTo(item)}
          >
            <span class="feed-outline-name">{item.name}</span>
            <span class={`feed-outline-verdict feed-${item.verdict.replace(" ", "-")}`}>
              {verdictText(item)}
            </span>
            <span class="feed-outline-figures">{figuresText(item)}</span>
          </li>
        );
      })}
    </ul>
  );
}

const INDENT = 12;
/** From here on the name matters more than the step. */
const DEEPEST = 8;

/** The element of the chosen item. */
export function chosenIn(list: HTMLElement | null): HTMLElement | null | undefined {
  return list?.querySelector<HTMLElement>('[aria-selected="true"]');
}

function verdictText({ verdict, count }: FeedItem): string {
  return `${said.symbol[verdict]} ${said.diagram.verdict(verdict, count)}`;
}

function figuresText({ volts, amperes, watts, note, block, fedFrom }: FeedItem): string {
  if (volts === undefined || amperes === undefined || watts === undefined)
    return block !== "Supply" && fedFrom === "" ? said.notFed : note || said.unsolved;
  const figures = [shownNumber(volts, "V"), shownNumber(amperes, "A"), shownNumber(watts, "W")];
  return [...figures.map(({ text }) => text), ...feedersText(fedFrom)].join(" · ");
}

/** An item stands below the first that feeds it; of several it says so. */
function feedersText(fedFrom: string): readonly string[] {
  const names = feederNames(fedFrom);
  return names.length > 1 ? [said.fromAll(names)] : [];
}

/** Left goes to what feeds the item, Right to the first that it feeds. */
function nextItem(key: string, items: readonly FeedItem[], at: number): FeedItem | undefined {
  const depth = items[at]?.depth ?? 0;
  switch (key) {
    case "ArrowDown":
      return items[Math.min(at + 1, items.length - 1)];
    case "ArrowUp":
      return items[Math.max(at - 1, 0)];
    case "Home":
      return items[0];
    case "End":
      return items.at(-1);
    case "ArrowLeft":
      return items
        .slice(0, Math.max(at, 0))
        .reverse()
        .find((one) => one.depth < depth);
    case "ArrowRight": {
      const next = items[at + 1];
      return next && next.depth > depth ? next : undefined;
    }
    default:
      return undefined;
  }
}
