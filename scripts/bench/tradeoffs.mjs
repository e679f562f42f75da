/** The search over a feed's own figures: candidates a second, and against calling CHAIN_SOLVE for each of them. */
import { performance } from "node:perf_hooks";
import { loadTypeScript } from "../load-typescript.mjs";

/** Of the candidates, as many are also solved one by one; the rest would take too long to wait for. */
const ONE_BY_ONE = 60;
const CASES = [
  ["light", "highest"],
  ["nominal", "nominal"],
  ["peak", "lowest"],
];

const SIZES = ["2.5 mm²", "4 mm²", "6 mm²", "10 mm²", "16 mm²", "25 mm²", "35 mm²", "50 mm²"];

/** @param {(id: string, args: unknown[]) => any} answer */
export async function benchTradeoffs(answer) {
  const before = await answersOfRelease();
  const {
    FeedSearch,
    mergedFindings,
    variedFeed,
    changedBlocks,
    requirementsOf,
    choicesAt,
    feeds,
  } = await loadTypeScript("scripts/bench/varied-feeds.ts");
  for (const [name, { blocks, askedFor, variations }] of Object.entries(feeds(SIZES))) {
    const all = [...blocks, askedFor];
    const begin = performance.now();
    const varied = variedFeed(all, variations);
    const start = performance.now();
    const search = new FeedSearch({
      varied,
      requirements: requirementsOf(askedFor),
      checks: ["Input above lowest", "Input below highest", "Drop"],
      objectives: ["loss", "mass"],
    });
    search.advance(Infinity);
    const each = (performance.now() - start) / search.count;
    const { counts } = mergedFindings([search.findings()], 2);
    const { count } = search;
    const step = Math.max(1, Math.floor(count / ONE_BY_ONE));
    const tables = Array.from({ length: Math.floor(count / step) }, (_, at) => {
      const choices = choicesAt({ variations }, at * step);
      const cells = variations.flatMap((one, place) => one.choices[choices[place]].cells);
      return answer("CHAIN_TABLE", changedBlocks(all, cells));
    });
    const begun = performance.now();
    for (const table of tables)
      for (const [loads, supply] of CASES) answer("CHAIN_SOLVE", [table, loads, supply]);
    const byCalls = (performance.now() - begun) / tables.length;
    console.log(
      `Search over ${name}: ${count} candidates, read in ${(start - begin).toFixed(0)} ms, ${(each * 1000).toFixed(0)} µs each, ${Math.round(1000 / each)} a second; ${(byCalls / each).toFixed(0)} times as fast as three calls of CHAIN_SOLVE (${counts.unbeaten} unbeaten, ${counts.beaten} beaten, ${counts.stopped} stopped)`,
    );
  }
  console.log("");
}
