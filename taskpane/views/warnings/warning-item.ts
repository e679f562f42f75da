/** One warning in the list: what is asked, its items with what was found, and what can be done. */
import {
  findingLine,
  type Acceptance,
  type JudgedFinding,
  type JudgedWarning,
  warningLine,
} from "../../budgets/warnings/acceptances.js";
import type { CellPlace } from "../../budgets/reading/found-budget.js";
import type { Finding, Warning } from "../../budgets/warnings/warning.js";
import type { Acceptable, GivenReason } from "../../workbook/accepting.js";
import { acceptanceForm } from "./acceptance-form.js";
import { rangeText } from "../../formula-reading/argument-text.js";
import { button, element } from "../parts/element.js";
import { FOLD, keepFolds } from "../parts/kept-list.js";
import { shownNumber } from "../../words/shown-numbers.js";
import { words } from "../../words/words.js";

const said = words.warnings;

/** What its buttons do. */
export interface WarningActions {
  readonly goTo: (at: CellPlace) => void;
  readonly accept: (what: Acceptable, reason: GivenReason) => void;
  readonly withdraw: (acceptance: Acceptance) => void;
}

/** An empty item; `fillWarning` writes into it, as often as its warning changes. A form that is open stays. */
export function warningItem(): HTMLElement {
  return element(
    "li",
    {},
    element("div", { class: "feed-finding-body" }),
    element("div", { class: "feed-finding-form" }),
  );
}

export function fillWarning(
  item: HTMLElement,
  judged: JudgedWarning | undefined,
  actions: WarningActions,
): void {
  const [body, form] = [...item.children] as HTMLElement[];
  if (!judged || !body || !form) return;
  const { warning, findings } = judged;
  item.className = `feed-finding ${CLASS[warning.severity]}`;
  const ask = (what: Acceptable, name: string) => {
    const close = () => {
      form.replaceChildren();
      body.querySelector<HTMLElement>(".feed-judge")?.focus();
    };
    form.replaceChildren(
      acceptanceForm({
        what: name,
        give(reason) {
          close();
          actions.accept(what, reason);
        },
        leave: close,
      }),
    );
  };
  const list = element(
    "ul",
    { class: "feed-items" },
    ...findings.map((one) => findingItem(one, findings.length > 1, actions, ask)),
  );
  const parts = [
    titleOf(warning),
    ...askedOf(warning),
    findings.length > MOST_SHOWN
      ? element(
          "details",
          { open: form.childElementCount > 0, [FOLD]: "items" },
          element("summary", {}, said.items(findings.length)),
          list,
        )
      : list,
    ...(warning.citation === ""
      ? []
      : [
          element(
            "details",
            { class: "feed-citation", [FOLD]: "citation" },
            element("summary", {}, said.restsOn),
            warning.citation,
          ),
        ]),
    ...acceptanceOf(judged),
    judgeButton(judged, nameOf(warning), actions, () => {
      ask({ id: warning.id, line: warningLine(warning) }, nameOf(warning));
    }),
  ];
  keepFolds(body, () => {
    body.replaceChildren(...parts);
  });
}

const CLASS = {
  danger: "feed-danger",
  warning: "feed-warning",
  "not determined": "feed-undetermined",
  note: "feed-note",
} as const;

/** More items than this are folded away. */
const MOST_SHOWN = 4;

function nameOf({ check, findings }: Warning): string {
  const what = check === "" ? said.whole : check;
  if (findings.length > 1) return `${what}, ${said.items(findings.length)}`;
  const [only] = findings;
  return only && only.item !== "" ? `${what}, ${only.item}` : what;
}

function titleOf(warning: Warning): HTMLElement {
  const { severity, check } = warning;
  return element(
    "p",
    { class: "feed-finding-title" },
    element("span", { class: "feed-symbol", "aria-hidden": "true" }, said.symbol[severity]),
    element("span", { class: "feed-severity" }, said.severity[severity]),
    element("span", { class: "feed-item" }, check === "" ? said.whole : check),
  );
}

/** What holds for all of its items. */
function askedOf({ asked, cause, findings }: Warning): HTMLElement[] {
  const [first] = findings;
  const isOne = findings.every(({ limit }) => limit === first?.limit);
  const lines = [
    ...(first && isOne && isGiven(first.limit)
      ? [said.asked(asked, measure(first.limit, first.unit))]
      : []),
    ...(cause === "" ? [] : [said.cause(cause)]),
  ];
  return lines.map((line) => paragraph(line, "feed-finding-text"));
}

function isGiven(value: number | string): boolean {
  return value !== "" && value !== "–";
}

function measure(value: number | string, unit: string): string {
  return typeof value === "number" ? shownNumber(value, unit).text : value;
}

function findingItem(
  judged: JudgedFinding,
  isOneOfMany: boolean,
  actions: WarningActions,
  ask: (what: Acceptable, name: string) => void,
): HTMLElement {
  const { finding } = judged;
  const { id, item, worstIn, remedy, at, toChange } = finding;
  const go = (place: CellPlace) => {
    const cell = rangeText(place);
    return button(
      said.goTo(cell),
      () => {
        actions.goTo(place);
      },
      { "aria-label": said.goToFor(cell, item), class: "feed-button feed-go" },
    );
  };
  return element(
    "li",
    {},
    element("p", { class: "feed-finding-text" }, element("strong", {}, item), foundText(finding)),
    worstIn === "" ? undefined : paragraph(said.worstIn(worstIn), "feed-quiet"),
    remedy === "" ? undefined : paragraph(sentence(remedy), "feed-remedy"),
    ...acceptanceOf(judged),
    element(
      "div",
      { class: "feed-actions feed-finding-actions" },
      go(toChange ?? at),
      isOneOfMany
        ? judgeButton(judged, item, actions, () => {
            ask({ id, line: findingLine(finding) }, item);
          })
        : undefined,
    ),
  );
}

/** ` fails by 4.2 %: 0.52 V`. */
function foundText(finding: Finding): string {
  const { found, unit } = finding;
  if (!isGiven(found)) return "";
  const by = failsBy(finding);
  return ` ${by === "" ? "" : `${by}: `}${measure(found, unit)}`;
}

/** Beyond this part of the limit, how many times it is says more. */
const FAR = 10;

/** By how much it fails; "" where it holds or has no margin. */
export function failsBy({ found, limit, margin }: Finding): string {
  if (margin === undefined || margin >= 0) return "";
  const isFar = -margin > FAR && typeof found === "number" && typeof limit === "number";
  return isFar && found / limit > FAR ? said.timesLimit(found / limit) : said.failsBy(-margin);
}

function sentence(text: string): string {
  const first = text.slice(0, 1).toUpperCase();
  return `${first}${text.slice(1)}${text.endsWith(".") ? "" : "."}`;
}

function acceptanceOf({
  acceptance,
  holds,
}: Pick<JudgedWarning, "acceptance" | "holds">): HTMLElement[] {
  if (!acceptance) return [];
  const { reason, accepted } = acceptance;
  return [paragraph((holds ? said.because : said.lapsed)(reason, accepted), "feed-acceptance")];
}

function judgeButton(
  { acceptance, holds }: Pick<JudgedWarning, "acceptance" | "holds">,
  name: string,
  actions: WarningActions,
  ask: () => void,
): HTMLElement {
  return holds && acceptance
    ? button(
        said.withdraw,
        () => {
          actions.withdraw(acceptance);
        },
        {
          "aria-label": said.withdrawFor(name),
          class: "feed-button feed-judge",
        },
      )
    : button(said.accept, ask, {
        "aria-label": said.acceptFor(name),
        class: "feed-button feed-judge",
      });
}

function paragraph(text: string, kind: string): HTMLElement {
  return element("p", { class: kind }, text);
}
