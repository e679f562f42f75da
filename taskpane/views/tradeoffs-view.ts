/** Candidates side by side: asks for the job, searches in a thread of its own, and shows what nothing beats. */
import type { FrontPoint } from "../../src/tradeoffs/pareto-front.js";
import type { RejectedOption } from "../../src/tradeoffs/rejection-tally.js";
import type { TradeRequest } from "../../src/tradeoffs/trade-request.js";
import type { TradeFindings } from "../../src/tradeoffs/trade-search.js";
import {
  tradeCandidate,
  type TradeSpace,
  tradeSpace,
} from "../../src/tradeoffs/trade-space.js";
import type { Host } from "../hosts/host.js";
import { candidatePlan } from "../tradeoffs/candidate-plan.js";
import {
  TRADE_FIELDS,
  type TradeField,
  TradeFieldError,
  tradeRequest,
} from "../tradeoffs/trade-fields.js";
import { startTradeRun, type TradeRun } from "../tradeoffs/trade-run.js";
import { button, element, freshId } from "./element.js";
import { shownNumber } from "./shown-numbers.js";
import { words } from "./words.js";

const said = words.tradeoffs;

/** Rows of the table; the front of a large search may hold more. */
const MOST_ROWS = 60;

type SortKey = "loss" | "mass" | "cost";

export function tradeoffsView(
  host: Host,
  failed: (error: unknown) => void,
): HTMLElement {
  const inputs = new Map<string, HTMLInputElement>();
  const outcome = element("p", { class: "feed-outcome", role: "status" });
  const progress = element("progress", {
    max: "1",
    hidden: true,
    "aria-label": said.progress,
  });
  const results = element("div", {});
  let run: TradeRun | undefined;

  const searchButton = button(said.search, () => {
    search().catch(failed);
  });
  const cancelButton = button(said.cancel, () => run?.cancel(), {
    hidden: true,
  });

  async function search(): Promise<void> {
    const request = asked();
    if (!request || run) return;
    results.replaceChildren();
    busy(true);
    try {
      run = startTradeRun(request, ({ judged, count, milliseconds }) => {
        progress.value = judged / count;
        const left = (milliseconds * (count - judged)) / judged;
        outcome.textContent = said.judged(judged, count, left / 1000);
      });
      const findings = await run.findings;
      if (findings) show(request, findings);
      else outcome.textContent = said.cancelled;
    } finally {
      run = undefined;
      busy(false);
    }
  }

  function busy(is: boolean): void {
    progress.hidden = !is;
    progress.value = 0;
    cancelButton.hidden = !is;
    searchButton.hidden = is;
    (is ? cancelButton : searchButton).focus();
  }

  /** The request, or nothing with the field that is to blame marked. */
  function asked(): TradeRequest | undefined {
    for (const input of inputs.values()) input.removeAttribute("aria-invalid");
    try {
      return tradeRequest(
        new Map([...inputs].map(([key, input]) => [key, input.value])),
      );
    } catch (error) {
      if (!(error instanceof TradeFieldError)) throw error;
      outcome.textContent = error.message;
      const input = inputs.get(error.key);
      input?.setAttribute("aria-invalid", "true");
      input?.closest("details")?.setAttribute("open", "");
      input?.focus();
      return undefined;
    }
  }

  function show(request: TradeRequest, findings: TradeFindings): void {
    const space = tradeSpace(request);
    const { front, judged, verdicts, rejected } = findings;
    outcome.textContent = said.found(front.length, verdicts.kept, judged);
    const place = element("div", {});
    const draw = (key: SortKey) => {
      place.replaceChildren(
        frontTable(request, space, sorted(front, key), draw),
      );
    };
    draw("loss");
    results.replaceChildren(
      ...(front.length > 0 ? [place] : []),
      ...rejectedList(space, rejected),
    );
  }

  function frontTable(
    request: TradeRequest,
    space: TradeSpace,
    front: readonly FrontPoint[],
    sortBy: (key: SortKey) => void,
  ): HTMLElement {
    const sortHead = (key: SortKey) =>
      element(
        "th",
        { scope: "col" },
        button(
          said.columns[key],
          () => {
            sortBy(key);
          },
          { class: "feed-link" },
        ),
      );
    return element(
      "div",
      { class: "feed-wide" },
      element(
        "table",
        { class: "feed-table" },
        element(
          "caption",
          {},
          said.tableCaption(Math.min(front.length, MOST_ROWS)),
        ),
        element(
          "thead",
          {},
          element(
            "tr",
            {},
            element("th", { scope: "col" }, said.columns.candidate),
            sortHead("loss"),
            sortHead("mass"),
            sortHead("cost"),
          ),
        ),
        element(
          "tbody",
          {},
          ...front
            .slice(0, MOST_ROWS)
            .map((point) => frontRow(request, space, point)),
        ),
      ),
    );
  }

  function frontRow(
    request: TradeRequest,
    space: TradeSpace,
    { index, loss, mass, cost }: FrontPoint,
  ): HTMLElement {
    const candidate = tradeCandidate(space, index);
    const { supply, cable, arrangement, units } = candidate;
    const name = said.candidate(
      supply.voltage,
      `${cable.material} ${cable.size} mm²`,
      arrangement.map((step) => `1/${String(step)}`).join(" · "),
      units,
    );
    const figure = (value: number, unit: string) => {
      const { text, full } = shownNumber(value, unit);
      return element("td", { title: full }, text);
    };
    return element(
      "tr",
      {},
      element(
        "th",
        { scope: "row" },
        button(
          name,
          () => {
            insert(request, index, name).catch(failed);
          },
          { class: "feed-link", title: said.insert },
        ),
      ),
      figure(loss, "W"),
      figure(mass, "kg"),
      figure(cost, "1"),
    );

    async function insert(of: TradeRequest, at: number, title: string) {
      const plan = candidatePlan(of, tradeCandidate(space, at), title);
      const { sheets } = await host.insert(plan);
      const [sheet = ""] = Object.values(sheets);
      outcome.textContent = said.inserted(sheet);
      await host.goTo({ sheet, address: "A1" });
    }
  }

  return element(
    "div",
    {},
    element("h2", { class: "feed-heading" }, said.title),
    element("p", { class: "feed-quiet" }, said.about),
    element("p", { class: "feed-quiet" }, said.holds),
    ...TRADE_FIELDS.map(({ title, fields }, index) =>
      element(
        "details",
        { class: "feed-block", open: index === 0 },
        element("summary", {}, title),
        ...fields.map((field) => fieldRow(field, inputs)),
      ),
    ),
    element("div", { class: "feed-actions" }, searchButton, cancelButton),
    progress,
    outcome,
    results,
  );
}

function fieldRow(
  { key, label, unit, start }: TradeField,
  inputs: Map<string, HTMLInputElement>,
): HTMLElement {
  const id = freshId("trade");
  const input = element("input", {
    id,
    class: "feed-input",
    value: start,
    inputmode: "text",
    autocomplete: "off",
  });
  inputs.set(key, input);
  return element(
    "div",
    { class: "feed-trade-field" },
    element(
      "label",
      { for: id },
      unit === "" || unit === "1" ? label : `${label} (${unit})`,
    ),
    input,
  );
}

function sorted(
  front: readonly FrontPoint[],
  key: SortKey,
): readonly FrontPoint[] {
  return [...front].sort((one, other) => one[key] - other[key]);
}

/** Where no candidate is left, and which limit most of them broke. */
function rejectedList(
  space: TradeSpace,
  rejected: readonly RejectedOption[],
): HTMLElement[] {
  if (rejected.length === 0) return [];
  const nameOf = ({ axis, option }: RejectedOption): string => {
    const cable = space.cables[option];
    switch (axis) {
      case "supply":
        return `${String(space.supplies[option]?.voltage)} V`;
      case "cable":
        return `${String(cable?.material)} ${String(cable?.size)} mm²`;
      case "arrangement":
        return (space.arrangements[option] ?? [])
          .map((step) => `1/${String(step)}`)
          .join(" · ");
      case "units":
        return said.units(option + 1);
    }
  };
  return [
    element("h3", { class: "feed-group-heading" }, said.rejected),
    element(
      "ul",
      {},
      ...rejected.map((one) =>
        element(
          "li",
          {},
          said.rejectedBy(nameOf(one), one.limit, Math.round(one.share * 100)),
        ),
      ),
    ),
  ];
}
