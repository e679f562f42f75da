import { citationLine } from "../../functions/downfeed.js";
import type {
  Acceptance,
  JudgedWarning,
} from "../../src/warnings/acceptances.js";
import type { Warning } from "../../src/warnings/warning.js";
import type { GivenReason } from "../accepting.js";
import { acceptanceForm } from "./acceptance-form.js";
import { areaText } from "./argument-text.js";
import { button, element } from "./element.js";
import { shownNumber } from "./shown-numbers.js";
import { words } from "./words.js";

const said = words.warnings;

/** What an item is about, and how many others of its budget say the same. */
export interface ShownWarning {
  readonly judged: JudgedWarning;
  readonly others: number;
}

/** What its buttons do; each is given what the item is about just then. */
export interface WarningActions {
  readonly goTo: (at: Warning["at"]) => void;
  readonly accept: (
    warning: Warning,
    reason: GivenReason,
    alsoOthers: boolean,
  ) => void;
  readonly withdraw: (acceptance: Acceptance) => void;
}

/** What each item is about just now, so that its buttons, which stay, do the right thing. */
const shown = new WeakMap<HTMLElement, ShownWarning>();

/** An empty item; `fillWarning` writes into it, as often as its warning changes. */
export function warningItem(actions: WarningActions): HTMLElement {
  const item = element(
    "li",
    { class: "feed-finding" },
    element("div", { class: "feed-finding-body" }),
  );
  const form = element("div", {});
  const go = button("", () => {
    const about = shown.get(item);
    if (about) actions.goTo(about.judged.warning.at);
  });
  const judge = button("", () => {
    const about = shown.get(item);
    if (!about) return;
    const { acceptance, holds } = about.judged;
    if (holds && acceptance) actions.withdraw(acceptance);
    else ask(about);
  });
  const ask = ({ judged: { warning }, others }: ShownWarning) => {
    const close = () => {
      form.replaceChildren();
      judge.focus();
    };
    form.replaceChildren(
      acceptanceForm({
        others,
        give(reason, alsoOthers) {
          close();
          actions.accept(warning, reason, alsoOthers);
        },
        leave: close,
      }),
    );
  };
  go.classList.add("feed-go");
  judge.classList.add("feed-judge");
  item.append(
    form,
    element("div", { class: "feed-actions feed-finding-actions" }, go, judge),
  );
  return item;
}

export function fillWarning(
  item: HTMLElement,
  about: ShownWarning | undefined,
): void {
  const body = item.querySelector<HTMLElement>(".feed-finding-body");
  const go = item.querySelector<HTMLElement>(".feed-go");
  const judge = item.querySelector<HTMLElement>(".feed-judge");
  if (!about || !body || !go || !judge) return;
  shown.set(item, about);
  const { warning, holds } = about.judged;
  item.className = `feed-finding feed-${warning.severity}`;
  body.replaceChildren(...warningBody(about.judged));
  const cell = areaText(warning.at);
  const name = itemName(warning);
  go.textContent = said.goTo(cell);
  go.setAttribute("aria-label", said.goToFor(cell, name));
  judge.textContent = holds ? said.withdraw : said.accept;
  judge.setAttribute(
    "aria-label",
    holds ? said.withdrawFor(name) : said.acceptFor(name),
  );
}

function itemName({ item }: Warning): string {
  return item === "" ? said.whole : item;
}

function warningBody({
  warning,
  acceptance,
  holds,
}: JudgedWarning): HTMLElement[] {
  const { severity, text, cite, remedy } = warning;
  const paragraph = (of: string, kind: string) =>
    element("p", { class: kind }, of);
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
    paragraph(text, "feed-finding-text"),
    ...numbers(warning),
    ...(remedy === undefined
      ? []
      : [paragraph(said.remedy(remedy), "feed-remedy")]),
    ...(cite === "definition"
      ? []
      : [paragraph(citationLine(cite), "feed-citation")]),
    ...(acceptance === undefined
      ? []
      : [
          paragraph(
            (holds ? said.because : said.lapsed)(
              acceptance.reason,
              acceptance.accepted,
            ),
            "feed-acceptance",
          ),
        ]),
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
