/** What a search found: charts, a table and the chosen candidate, all of one selection, and what no limit left over. */
import type { FrontPoint } from "../../../src/tradeoffs/pareto-front.js";
import { tradeEvaluation } from "../../../src/tradeoffs/trade-evaluation.js";
import type { TradeRequest } from "../../../src/tradeoffs/trade-request.js";
import type { TradeFindings } from "../../../src/tradeoffs/trade-search.js";
import { tradeCandidate, tradeSpace } from "../../../src/tradeoffs/trade-space.js";
import type { Host } from "../../hosts/host.js";
import { type CandidatePlace, candidatePlan } from "../../tradeoffs/candidate-sample.js";
import { frontPlan } from "../../tradeoffs/front-plan.js";
import { candidateName } from "./candidate-name.js";
import { candidatePanel, type ShownCandidate } from "./candidate-panel.js";
import { button, element } from "../parts/element.js";
import { frontTable } from "./front-table.js";
import { rejectedRegions } from "./rejected-regions.js";
import { shownNumber } from "../../words/shown-numbers.js";
import { tradeCharts } from "./trade-charts.js";
import { words } from "../../words/words.js";

const said = words.tradeoffs;

export interface TradeResultsOptions {
  readonly host: Host;
  readonly request: TradeRequest;
  readonly findings: TradeFindings;
  readonly failed: (error: unknown) => void;
}

export function tradeResults(options: TradeResultsOptions): HTMLElement[] {
  const { request, findings, failed } = options;
  const space = tradeSpace(request);
  const rejected = rejectedRegions(space, findings.rejected);
  if (findings.front.length === 0) return rejected;
  const nameOf = (index: number) => candidateName(tradeCandidate(space, index));
  const pointOf = kept(request, findings);
  const told = (index: number) => {
    const { loss, mass, cost } = pointOf(index);
    const number = (value: number, unit: string) => shownNumber(value, unit).text;
    return said.told(nameOf(index), number(loss, "W"), number(mass, "kg"), number(cost, "1"));
  };
  const heard = element("p", { class: "feed-hidden", role: "status" });
  const outcome = element("p", { class: "feed-outcome", role: "status" });
  const say = (message: string) => {
    outcome.textContent = message;
  };
  const panel = candidatePanel(request, (shown, place) => {
    insertCandidate(options, shown, place).then(say, failed);
  });
  const charts = tradeCharts({ space, findings, told, choose });
  const table = frontTable(findings.front, nameOf, choose);

  function choose(index: number): void {
    const point = pointOf(index);
    panel.show({
      candidate: tradeCandidate(space, index),
      name: nameOf(index),
      point,
      isUnbeaten: findings.front.some((one) => one.index === index),
    });
    charts.mark(point);
    table.mark(index);
    heard.textContent = said.picked(nameOf(index));
    say("");
  }

  charts.mark(undefined);
  return [
    charts.element,
    panel.element,
    heard,
    element(
      "div",
      { class: "feed-actions" },
      button(said.wholeFront, () => {
        insertFront(options).then(say, failed);
      }),
    ),
    outcome,
    table.element,
    ...rejected,
  ];
}

/** Figures of any candidate that was kept: those of the front are at hand, another is judged anew. */
function kept(request: TradeRequest, { front }: TradeFindings): (index: number) => FrontPoint {
  const judge = tradeEvaluation(request, tradeSpace(request));
  const known = new Map(front.map((point) => [point.index, point]));
  return (index) => known.get(index) ?? { index, ...judge(index) };
}

/** @returns what to say of it. */
async function insertCandidate(
  { host, request }: TradeResultsOptions,
  { candidate, name }: ShownCandidate,
  place: CandidatePlace,
): Promise<string> {
  const title = said.candidateTitle(name);
  const plan = candidatePlan(request, candidate, place, title);
  const { sheets } = await host.insert(plan);
  await host.goTo({ sheet: sheets["budget"] ?? "", address: "A1" });
  return said.inserted(Object.values(sheets));
}

async function insertFront({ host, request, findings }: TradeResultsOptions): Promise<string> {
  const { sheets } = await host.insert(frontPlan(request, findings));
  const [sheet = ""] = Object.values(sheets);
  await host.goTo({ sheet, address: "A1" });
  return said.frontInserted(sheet);
}
