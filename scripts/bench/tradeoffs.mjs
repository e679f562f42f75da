/** The search over a feed's own figures: candidates a second, and against calling CHAIN_SOLVE for each of them, now and in the last release; then in the threads of a page. */
import { performance } from "node:perf_hooks";
import { loadTypeScript } from "../load-typescript.mjs";
import { answersOfRelease, RELEASE } from "./release.mjs";
import { benchSearchThreads } from "./search-threads.mjs";

/** Of the candidates, as many are also solved one by one; the rest would take too long to wait for. */
const ONE_BY_ONE = 60;
const CASES = [
  ["light", "highest"],
  ["nominal", "nominal"],
  ["peak", "lowest"],
];

const COLUMNS_OF_RELEASE = [
  "Item",
  "Fed from",
  "Kind",
  "Voltage",
  "Resistance",
  "Ratio",
  "Fixed loss",
  "Linear loss",
  "Quadratic loss",
  "Efficiency",
  "Load",
  "Light load",
  "Peak load",
  "In parallel",
  "Lowest V",
  "Highest V",
  "Rated A",
  "Tolerance",
];

const SIZES = ["2.5 mm²", "4 mm²", "6 mm²", "10 mm²", "16 mm²", "25 mm²", "35 mm²", "50 mm²"];

/** @param {(id: string, args: unknown[]) => any} answer */
export async function benchTradeoffs(answer) {
  const before = await answersOfRelease();
  const {
    FeedSearch,
    SearchRounds,
    tallied,
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
    const rounds = searchToEnd(search, new SearchRounds(varied));
    const count = rounds.found.size;
    const each = (performance.now() - start) / count;
    const { counts } = tallied(rounds.found.outcomes(), varied);
    const step = Math.max(1, Math.floor(count / ONE_BY_ONE));
    const tables = Array.from({ length: Math.floor(count / step) }, (_, at) => {
      const choices = choicesAt({ variations }, at * step);
      const cells = variations.flatMap((one, place) => one.choices[choices[place]].cells);
      return answer("CHAIN_TABLE", changedBlocks(all, cells));
    });
    const sample = searchToEnd(search, new SearchRounds(varied, Math.ceil(count / 4)));
    const byCalls = solving(answer, tables);
    const released = before && solving(before, tables.map(tableOfRelease));
    requireAlike(answer, before, tables[0]);
    const times = (time) =>
      `${(time / each).toFixed(0)} times as fast as three calls of CHAIN_SOLVE, ${((3 * time) / each).toFixed(0)} as nine`;
    console.log(
      `Search over ${name}: ${count} candidates, read in ${(start - begin).toFixed(0)} ms, ${(each * 1000).toFixed(0)} µs each, ${Math.round(1000 / each)} a second; ${times(byCalls)}${released === undefined ? "" : `, ${times(released)} of ${RELEASE} (at least 20 wanted)`} (${counts.unbeaten} unbeaten, ${counts.beaten} beaten, ${counts.stopped} stopped)`,
    );
    const front = new Set(rounds.found.front.map(({ index }) => index));
    const met = sample.found.front.filter(({ index }) => front.has(index)).length;
    console.log(
      `  of at most a quarter of them ${sample.extent.settled} judged, ${met} of the ${front.size} found, ${sample.extent.unproven} unproven`,
    );
  }
  console.log("");
  await benchSearchThreads();
}

/** @param {any} search @param {any} rounds */
function searchToEnd(search, rounds) {
  while (rounds.round) {
    const settling = search.settling(rounds.round);
    settling.advance(Infinity);
    rounds.take([settling.findings()]);
  }
  return rounds;
}

/** The table as somebody would have typed it in the release: its columns, and 0 for no load. @param {any[][]} table */
function tableOfRelease([headers, ...rows]) {
  const places = headers.flatMap((header, at) =>
    COLUMNS_OF_RELEASE.includes(String(header).replace(/ \(.*/, "")) ? [at] : [],
  );
  return [
    places.map((at) => headers[at]),
    ...rows.map((row) => places.map((at) => (row[at] === "none" ? 0 : row[at]))),
  ];
}

/** What is compared must be the same work. @param {(id: string, args: unknown[]) => any} answer @param {((id: string, args: unknown[]) => any) | undefined} before @param {any[][]} table */
function requireAlike(answer, before, table) {
  if (!before) return;
  const power = (of, given) => of("CHAIN_TOTAL", [given, "supply power"]);
  const [now, then] = [power(answer, table), power(before, tableOfRelease(table))];
  if (!(Math.abs(now - then) <= 1e-9 * now))
    throw new Error(`${now} W now, ${then} W in ${RELEASE}`);
}

/** Milliseconds of three cases of a table. Tables take turns, so that none is known from the case before. @param {(id: string, args: unknown[]) => any} answer @param {readonly unknown[]} tables */
function solving(answer, tables) {
  const begin = performance.now();
  for (const [loads, supply] of CASES)
    for (const table of tables) answer("CHAIN_SOLVE", [table, loads, supply]);
  return (performance.now() - begin) / tables.length;
}
