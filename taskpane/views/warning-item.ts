import { citationLine } from "../../functions/downfeed.js";
import type { Warning } from "../../src/warnings/warning.js";
import type { Host } from "../hosts/host.js";
import { areaText } from "./argument-text.js";
import { button, element } from "./element.js";
import { shownNumber } from "./shown-numbers.js";
import { words } from "./words.js";

const said = words.warnings;

/** What each item is about just now, so that its button, which stays, goes to the right cell. */
const shown = new WeakMap<HTMLElement, Warning>();

/** An empty item; `fillWarning` writes into it, as often as its warning changes. */
export function warningItem(
  host: Host,
  failed: (error: unknown) => void,
): HTMLElement {
  const item = element(
    "li",
    { class: "feed-finding" },
    element("div", { class: "feed-finding-body" }),
  );
  const go = button(
    "",
    () => {
      const at = shown.get(item)?.at;
      if (at) host.goTo(at).catch(failed);
    },
    { class: "feed-button feed-go" },
  );
  item.append(go);
  return item;
}

export function fillWarning(
  item: HTMLElement,
  warning: Warning | undefined,
): void {
  const body = item.querySelector<HTMLElement>(".feed-finding-body");
  const go = item.querySelector<HTMLElement>(".feed-go");
  if (!warning || !body || !go) return;
  shown.set(item, warning);
  item.className = `feed-finding feed-${warning.severity}`;
  body.replaceChildren(...warningBody(warning));
  const cell = areaText(warning.at);
  go.textContent = said.goTo(cell);
  go.setAttribute("aria-label", said.goToFor(cell, itemName(warning)));
}

function itemName({ item }: Warning): string {
  return item === "" ? said.whole : item;
}

function warningBody(warning: Warning): HTMLElement[] {
  const { severity, text, cite } = warning;
  return [
    element(
      "p",
      { class: "feed-finding-title" },
      element(
        "span",
        { class: "feed-symbol", "aria-hidden": "true" },
        said.symbol[severity],
      ),
      element("span", { class: "feed-severity" }, said.severity[severity]),
      element("span", { class: "feed-item" }, itemName(warning)),
    ),
    element("p", { class: "feed-finding-text" }, text),
    ...numbers(warning),
    ...(cite === "definition"
      ? []
      : [element("p", { class: "feed-citation" }, citationLine(cite))]),
  ];
}

function numbers({ value, limit, unit }: Warning): HTMLElement[] {
  const pairs = [
    [said.found, value],
    [said.limit, limit],
  ] as const;
  const given = pairs.filter(([, number]) => number !== undefined);
  if (given.length === 0) return [];
  const list = element("dl", { class: "feed-numbers" });
  for (const [label, number] of given) {
    const { text, full } = shownNumber(number ?? 0, unit);
    list.append(
      element(
        "div",
        {},
        element("dt", {}, label),
        element("dd", { title: full }, text),
      ),
    );
  }
  return [list];
}
