/** The chosen candidate: what it comes to, and the way to a budget of it. */
import { FRAMEWORKS } from "../../../src/safety/touch-bands.js";
import type { FrontPoint } from "../../../src/tradeoffs/pareto-front.js";
import type { TradeRequest } from "../../../src/tradeoffs/trade-request.js";
import type { TradeCandidate } from "../../../src/tradeoffs/trade-space.js";
import { candidateFigures } from "../../tradeoffs/candidate-figures.js";
import type { CandidatePlace } from "../../tradeoffs/candidate-sample.js";
import { button, element, freshId } from "../parts/element.js";
import { shownNumber } from "../../words/shown-numbers.js";
import { words } from "../../words/words.js";

const said = words.tradeoffs.chosen;

export interface ShownCandidate {
  readonly candidate: TradeCandidate;
  readonly name: string;
  readonly point: FrontPoint;
  readonly isUnbeaten: boolean;
}

export interface CandidatePanel {
  readonly element: HTMLElement;
  show(shown: ShownCandidate): void;
}

export function candidatePanel(
  request: TradeRequest,
  insert: (shown: ShownCandidate, place: CandidatePlace) => void,
): CandidatePanel {
  let chosen: ShownCandidate | undefined;
  const about = element("div", {});
  const framework = choice(said.framework, FRAMEWORKS);
  const condition = choice(said.condition, ["dry", "wet"] as const);
  const fault = element("p", { class: "feed-fault", role: "alert" });
  const panel = element(
    "section",
    { class: "feed-chosen", "aria-label": said.title, hidden: true },
    about,
    framework.row,
    condition.row,
    fault,
    element(
      "div",
      { class: "feed-actions" },
      button(said.insert, insertChosen, { class: "feed-button feed-main" }),
    ),
  );

  function insertChosen(): void {
    const missing = [framework, condition].find(({ select }) => select.value === "");
    fault.textContent = missing ? said.chooseFirst(missing.label) : "";
    missing?.select.focus();
    if (missing || !chosen) return;
    insert(chosen, {
      framework: framework.select.value as CandidatePlace["framework"],
      condition: condition.select.value as CandidatePlace["condition"],
    });
  }

  return {
    element: panel,
    show(shown) {
      chosen = shown;
      panel.hidden = false;
      about.replaceChildren(
        element("h3", { class: "feed-chosen-name" }, shown.name),
        ...(shown.isUnbeaten ? [] : [element("p", { class: "feed-quiet" }, said.beaten)]),
        figures(request, shown),
      );
    },
  };
}

/** Nothing is chosen at first: a framework that fits one place is wrong in another. */
function choice(label: string, values: readonly string[]) {
  const id = freshId("choice");
  const select = element(
    "select",
    { id, class: "feed-input", required: true },
    element("option", { value: "" }, said.choose),
    ...values.map((value) => element("option", { value }, value)),
  );
  const row = element(
    "div",
    { class: "feed-trade-field" },
    element("label", { for: id }, label),
    select,
  );
  return { label, select, row };
}

function figures(request: TradeRequest, { candidate, point }: ShownCandidate): HTMLElement {
  const found = candidateFigures(request, candidate);
  const { lossOf, percent } = said;
  const number = (value: number, unit: string) => shownNumber(value, unit).text;
  const rows: readonly (readonly [string, string, string?])[] = [
    [
      said.loss,
      number(point.loss, "W"),
      lossOf(
        number(found.cableLoss, "W"),
        number(found.converterLoss, "W"),
        number(found.supplyLoss, "W"),
      ),
    ],
    [said.mass, number(point.mass, "kg")],
    [said.cost, number(point.cost, "1")],
    [said.atLoad, `${number(found.lowestAtLoad, "V")} – ${number(found.highestAtLoad, "V")}`],
    [said.drop, percent(found.dropShare)],
    [said.current, number(found.cableCurrent, "A"), said.ofRating(percent(found.cableLoading))],
    [said.converters, percent(found.converterLoading)],
  ];
  return element(
    "dl",
    { class: "feed-chosen-figures" },
    ...rows.map(([term, value, more]) =>
      element(
        "div",
        {},
        element("dt", {}, term),
        element("dd", {}, value),
        more === undefined ? undefined : element("dd", { class: "feed-chosen-more" }, more),
      ),
    ),
  );
}
