/** Feed tables: how solving grows with rows, and worst cases, against the last release; one operating point against ngspice. */
import { loadTypeScript } from "../load-typescript.mjs";
import { line, median, mediansInTurn, medianOf } from "./measure.mjs";
import { answersOfRelease, RELEASE } from "./release.mjs";

/** Rows, and how often each is measured. */
const GROWTH_ROWS = /** @type {const} */ ([
  [1_000, 400],
  [10_000, 60],
  [100_000, 16],
]);
const NGSPICE_ROWS = [1_000, 5_000];
const FIGURES = /** @type {const} */ ([
  "Voltage",
  "Resistance",
  "Ratio",
  "Efficiency",
  "Load",
  "Lowest V",
  "Highest V",
  "Tolerance",
  "In parallel",
]);

/** @typedef {(id: string, args: unknown[]) => any} Answer */

/** @param {Answer} answer */
export async function benchFeeds(answer) {
  // First of all: large tables leave a heap behind that slows small ones.
  await benchNgspice(answer);
  await benchMeshes(answer);
  const before = await answersOfRelease();
  benchGrowth(answer, before);
  benchWorst(answer, before);
}

/** @param {Answer} answer @param {Answer | undefined} before */
function benchGrowth(answer, before) {
  const widths = [28, 12, 14, 12, 14, 22];
  line(["CHAIN_SOLVE", "ms", "µs per row", ...OF_RELEASE, "per tenfold"], widths);
  let smaller;
  for (const [rows, rounds] of GROWTH_ROWS) {
    const table = branchedTable(rows);
    requireSolved(answer("CHAIN_SOLVE", [table]), rows);
    const [time, old] = inTurn(answer, before, rounds, "CHAIN_SOLVE", [table]);
    const growth = smaller === undefined ? "" : `× ${(time / smaller).toFixed(1)}`;
    const perRow = ((time * 1000) / rows).toFixed(2);
    const cells = [`${rows} rows`, time.toFixed(2), perRow];
    line([...cells, ...againstRelease(time, old), growth], widths);
    smaller = time;
  }
  line(["wanted", "", "", "", "at most 0.50", "at most × 11"], widths);
  console.log("");
}

/** Headings of the times of the release beside ours. */
const OF_RELEASE = [`ms in ${RELEASE}`, `part of ${RELEASE}`];

/** @param {number} time @param {number | undefined} old */
function againstRelease(time, old) {
  return old === undefined ? ["–", "–"] : [old.toFixed(2), (time / old).toFixed(2)];
}

/**
 * Milliseconds of a call now and in the release, measured in turn.
 * @param {Answer} answer @param {Answer | undefined} before @param {number} rounds @param {string} id @param {unknown[]} args
 */
function inTurn(answer, before, rounds, id, args) {
  const works = [answer, ...(before ? [before] : [])];
  const [[, supply]] = [args[0]];
  const voltage = supply.indexOf(800);
  return mediansInTurn(
    works.map((of) => () => {
      // Another table each time: what is known of the last ones is not measured.
      supply[voltage] *= 1 + 1e-9;
      return of(id, args);
    }),
    rounds,
  );
}

/** The same feed as a table and as a netlist; both give every node's voltage. */
async function benchNgspice(answer) {
  const { operatingPoint } = await loadTypeScript("tests/helpers/ngspice.ts");
  const widths = [28, 12, 16, 14];
  line(["Network", "ms ours", "ms ngspice", "ratio"], widths);
  for (const rows of NGSPICE_ROWS) {
    const table = feederTable(rows);
    const netlist = feederNetlist(rows);
    const solved = answer("CHAIN_SOLVE", [table]);
    const circuit = await operatingPoint(netlist, 120_000);
    const last = solved.find(([item]) => item === `run ${rows - 1}`);
    const difference = Math.abs(last[4] / circuit[`v(n${rows - 1})`] - 1);
    if (!(difference < 1e-6)) throw new Error(`the two differ by ${difference} at ${rows} nodes`);
    const ours = median(() => answer("CHAIN_SOLVE", [table]), 500, 1_000);
    const theirs = await medianOf(() => operatingPoint(netlist, 120_000), 3);
    const ratio = (theirs / ours).toFixed(0);
    line([`${rows} nodes`, ours.toFixed(2), theirs.toFixed(1), ratio], widths);
  }
  line(["wanted", "", "", "50 or more"], widths);
  console.log(
    "equal to 1e-6 at the far end; ngspice's time holds reading its netlist, as ours holds reading the table\n",
  );
}

/** The same feeder with ties from node to node: against itself without them, and against ngspice. @param {Answer} answer */
async function benchMeshes(answer) {
  const { operatingPoint } = await loadTypeScript("tests/helpers/ngspice.ts");
  const widths = [28, 12, 12, 14, 14, 14, 12];
  line(
    ["CHAIN_SOLVE with ties", "ms", "ms as tree", "part", "per tenfold", "ms ngspice", "ratio"],
    widths,
  );
  let smaller;
  for (const [rows, ties, rounds] of /** @type {const} */ ([
    [30, 2, 400],
    [1_000, 10, 60],
    [10_000, 20, 12],
  ])) {
    const nodes = rows / 2 - 1;
    const tree = feederTable(nodes);
    const every = Math.floor(nodes / (ties + 1));
    const ends = Array.from({ length: ties }, (_, tie) => [tie * every, (tie + 1) * every]);
    const resistance = (20 / nodes ** 2) * 10;
    const mesh = [
      ...tree,
      ...ends.map(([one, other], tie) =>
        feedRow(`tie ${tie}`, `run ${one}; run ${other}`, "tie", { Resistance: resistance }),
      ),
    ];
    const solved = answer("CHAIN_SOLVE", [mesh]);
    const [time, plain] = mediansInTurn(
      [mesh, tree].map((table) => () => answer("CHAIN_SOLVE", [table])),
      rounds,
    );
    let theirs = "";
    let ratio = "";
    if (rows <= 1_000) {
      const circuit = ends.map(([one, other], tie) => `Rt${tie} n${one} n${other} ${resistance}`);
      const netlist = `${feederNetlist(nodes)}\n${circuit.join("\n")}`;
      const found = await operatingPoint(netlist, 120_000);
      const last = solved.find(([item]) => item === `run ${nodes - 1}`);
      const difference = Math.abs(last[4] / found[`v(n${nodes - 1})`] - 1);
      if (!(difference < 1e-6)) throw new Error(`the two differ by ${difference} at ${rows} rows`);
      const spent = await medianOf(() => operatingPoint(netlist, 120_000), 3);
      theirs = spent.toFixed(1);
      ratio = (spent / time).toFixed(0);
    }
    const growth = smaller === undefined ? "" : `× ${(time / smaller).toFixed(1)}`;
    const name = `${rows} rows, ${ties} ties`;
    line(
      [name, time.toFixed(2), plain.toFixed(2), (time / plain).toFixed(1), growth, theirs, ratio],
      widths,
    );
    smaller = time;
  }
  console.log("");
}

/** @param {Answer} answer @param {Answer | undefined} before */
function benchWorst(answer, before) {
  const widths = [54, 12, 12, 14, 18];
  line(["CHAIN_WORST, one unit lost", "ms", ...OF_RELEASE, "wanted"], widths);
  for (const { table, rounds, wanted } of [
    { table: worstTable(30, 3, 3), rounds: 24, wanted: "at most 1.00" },
    { table: worstTable(60, 6, 2), rounds: 6, wanted: "at most 0.10" },
  ]) {
    const [time, old] = inTurn(answer, before, rounds, "CHAIN_WORST", [table, 1]);
    const cells = [worstTold(table), time.toFixed(1)];
    line([...cells, ...againstRelease(time, old), wanted], widths);
  }
  console.log("");
}

/** @param {unknown[][]} table */
function worstTold([headings = [], ...rows]) {
  const given = (/** @type {string} */ name) =>
    rows.filter((row) => row[headings.indexOf(name)] !== "").length;
  return `${rows.length} rows, ${given("Tolerance")} toleranced, ${given("In parallel")} of several units`;
}

/** A trunk of runs; on each a ratio stage, a cable, a regulated stage and its load. @param {number} rows Without the header. */
function branchedTable(rows) {
  const table = [header(), feedRow("bus", "", "supply", { Voltage: 800, Resistance: 0.01 })];
  for (let index = 0; table.length + 5 <= rows + 1; index++) table.push(...branch(index));
  // What is left of the count, so that ten times the rows is just that.
  while (table.length < rows + 1) {
    const lamp = `lamp ${table.length}`;
    table.push(feedRow(lamp, "bus", "resistance load", { Load: 10_000 }));
  }
  return table;
}

/** @param {number} index */
function branch(index) {
  const [trunk, stage, cable, rail] = ["trunk", "stage", "cable", "rail"].map(
    (name) => `${name} ${index}`,
  );
  const before = index === 0 ? "bus" : `trunk ${index - 1}`;
  return [
    feedRow(trunk, before, "run", { Resistance: 1e-6 }),
    feedRow(stage, trunk, "ratio", { Ratio: 1 / 16, Resistance: 0.02 }),
    feedRow(cable, stage, "run", { Resistance: 0.05 }),
    feedRow(rail, cable, "regulated", {
      Voltage: 12,
      Efficiency: 0.95,
      "Lowest V": 36,
      "Highest V": 60,
    }),
    feedRow(`load ${index}`, rail, "power load", { Load: 20 }),
  ];
}

/** A feeder of as many runs, each with a load that holds its power. @param {number} nodes */
function feederTable(nodes) {
  const table = [header(), feedRow("bus", "", "supply", { Voltage: 400 })];
  for (let node = 0; node < nodes; node++) {
    const before = node === 0 ? "bus" : `run ${node - 1}`;
    const figures = { Resistance: 20 / nodes ** 2 };
    table.push(feedRow(`run ${node}`, before, "run", figures));
    table.push(feedRow(`load ${node}`, `run ${node}`, "power load", { Load: 100 }));
  }
  return table;
}

/** @param {number} nodes */
function feederNetlist(nodes) {
  const lines = ["v1 bus 0 400"];
  for (let node = 0; node < nodes; node++) {
    const before = node === 0 ? "bus" : `n${node - 1}`;
    lines.push(
      `r${node} ${before} n${node} ${20 / nodes ** 2}`,
      `b${node} n${node} 0 i=100/v(n${node})`,
      `.nodeset v(n${node})=400`,
    );
  }
  return [...lines, ".options reltol=1e-9 abstol=1e-12 vntol=1e-9"].join("\n");
}

/**
 * A supply, a cable, stages of two units and what they feed. Toleranced are the cable, the stages, the auxiliary load
 * and as many more loads as asked for.
 * @param {number} rows Without the header. @param {number} stages @param {number} loads
 */
function worstTable(rows, stages, loads) {
  const table = [
    header(),
    feedRow("bus", "", "supply", {
      Voltage: 800,
      Resistance: 0.05,
      "Lowest V": 760,
      "Highest V": 840,
    }),
    feedRow("cable", "bus", "run", { Resistance: 2, Tolerance: 0.05 }),
  ];
  for (let stage = 0; stage < stages; stage++) {
    table.push(
      feedRow(`stage ${stage}`, "cable", "ratio", {
        Ratio: 1 / 16,
        Resistance: 0.03,
        Tolerance: 0.01,
        "In parallel": 2,
      }),
    );
    for (let load = 0; load < 4; load++)
      table.push(
        feedRow(`wire ${stage}.${load}`, `stage ${stage}`, "run", {
          Resistance: 0.02,
        }),
        feedRow(`load ${stage}.${load}`, `wire ${stage}.${load}`, "power load", {
          Load: 120,
          "Lowest V": 36,
          "Highest V": 58,
          ...(load === 0 && stage < loads && { Tolerance: 0.1 }),
        }),
      );
  }
  table.push(
    feedRow("aux", "cable", "resistance load", {
      Load: 5_000,
      Tolerance: 0.05,
    }),
  );
  while (table.length < rows + 1)
    table.push(
      feedRow(`lamp ${table.length}`, "cable", "resistance load", {
        Load: 20_000,
      }),
    );
  return table;
}

function header() {
  return ["Item", "Fed from", "Kind", ...FIGURES];
}

/**
 * @param {string} item
 * @param {string} fedFrom
 * @param {string} kind
 * @param {Partial<Record<typeof FIGURES[number], number>>} figures
 */
function feedRow(item, fedFrom, kind, figures) {
  return [item, fedFrom, kind, ...FIGURES.map((name) => figures[name] ?? "")];
}

/** A row that is refused is an error in its cells, not of the call. @param {unknown[][]} solved @param {number} rows */
function requireSolved(solved, rows) {
  const refused = solved.slice(1).find(([, volts]) => !(Number(volts) > 0));
  if (refused) throw new Error(`not solved: ${JSON.stringify(refused)}`);
  if (solved.length !== rows + 1) throw new Error(`${solved.length - 1} rows for ${rows}`);
}
