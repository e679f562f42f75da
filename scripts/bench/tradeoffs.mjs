/** The trade-off search: candidates a second, and against calling CHAIN_SOLVE for each of them. */
import { performance } from "node:perf_hooks";
import { loadTypeScript } from "../load-typescript.mjs";
import { mediansInTurn } from "./measure.mjs";

/** @param {(id: string, args: unknown[]) => any} answer */
export async function benchTradeoffs(answer) {
  const { tradeSearch } = await loadTypeScript("src/tradeoffs/trade-search.ts");
  const { tradeEvaluation } = await loadTypeScript("src/tradeoffs/trade-evaluation.ts");
  const { tradeFeed, CASE_CONDITIONS } = await loadTypeScript("src/tradeoffs/trade-feed.ts");
  const { tradeCandidate, tradeSpace } = await loadTypeScript("src/tradeoffs/trade-space.ts");
  const { request } = await loadTypeScript("tests/tradeoffs/trade-request.ts");
  const free = {
    ...request,
    load: { ...request.load, lowestVoltage: 1, highestVoltage: 2_000 },
    stepsDown: Array.from({ length: 40 }, (_, index) => index + 1),
    mostUnits: 8,
    limits: {},
  };
  const search = tradeSearch(free);
  const start = performance.now();
  search.advance(Infinity);
  const seconds = (performance.now() - start) / 1000;
  const { verdicts } = search.findings();
  console.log(
    `Trade-off search: ${search.space.count} candidates in ${seconds.toFixed(2)} s, ${Math.round(search.space.count / seconds)} a second, ${verdicts.kept} of them solved in all three cases`,
  );

  // The same kept candidates one by one, by the search's judge and by three calls of CHAIN_SOLVE.
  const space = tradeSpace(free);
  const judge = tradeEvaluation(free, space);
  const kept = [];
  for (let index = 0; kept.length < 200 && index < space.count; index += 997)
    if (judge(index).verdict === "kept") kept.push(index);
  const calls = kept.flatMap((index) => {
    const candidate = tradeCandidate(space, index);
    return ["light", "nominal", "peak"].map((at) => {
      const { loads, supply } = CASE_CONDITIONS[at];
      return [cells(tradeFeed(free, candidate, at)), loads, supply];
    });
  });
  const [ours = 0, byCalls = 0] = mediansInTurn(
    [
      () => kept.forEach((index) => judge(index)),
      () => calls.forEach((call) => answer("CHAIN_SOLVE", call)),
    ],
    120,
  );
  console.log(
    `One candidate: ${((ours * 1000) / kept.length).toFixed(1)} µs, ${(byCalls / ours).toFixed(0)} times as fast as three calls of CHAIN_SOLVE\n`,
  );
}

/** @param {readonly Record<string, unknown>[]} items */
function cells(items) {
  const columns = {
    Item: "item",
    "Fed from": "fedFrom",
    Kind: "kind",
    Voltage: "voltage",
    Resistance: "resistance",
    Ratio: "ratio",
    "Fixed loss": "fixedLoss",
    Load: "load",
    "Light load": "lightLoad",
    "Peak load": "peakLoad",
    "In parallel": "inParallel",
    "Lowest V": "lowestVoltage",
    "Highest V": "highestVoltage",
  };
  return [
    Object.keys(columns),
    ...items.map((item) => Object.values(columns).map((field) => item[field] ?? "")),
  ];
}
