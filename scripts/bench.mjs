/**
 * Speed, as ratios against a baseline measured in the same run; nothing here passes or fails.
 *
 *   CONDUCTOR_DROP through the runner, against the same formula in a native spreadsheet engine (IronCalc)
 *   CHAIN_SOLVE at 100, 1 000 and 10 000 rows, and how its time grows
 */
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { cpus } from "node:os";
import { performance } from "node:perf_hooks";
import { initSync, Model } from "@ironcalc/wasm";
import { loadTypeScript } from "./load-typescript.mjs";

const WARM_UP_MS = 1_000;
const MEASURE_MS = 2_000;
const CALLS = 5_000;
const SECTIONS = [1.5, 2.5, 4, 6];
const ROWS = [100, 1_000, 10_000];
const FIGURES = /** @type {const} */ ([
  "Voltage",
  "Resistance",
  "Ratio",
  "Efficiency",
  "Load",
  "Lowest V",
  "Highest V",
]);

const { evaluate } = await loadTypeScript("functions/runner.ts");
initSync({
  module: readFileSync(
    createRequire(import.meta.url).resolve("@ironcalc/wasm/wasm_bg.wasm"),
  ),
});

console.log(`Node ${process.version}, ${cpus()[0]?.model.trim()}\n`);
benchDrop();
benchChain();

function benchDrop() {
  const calls = Array.from({ length: CALLS }, (_, call) => [
    1 + call / CALLS,
    20 + (call % 80),
    SECTIONS[call % SECTIONS.length] ?? 0,
    20 + (call % 70),
  ]);
  const ours = median(() => {
    for (const call of calls) answer("CONDUCTOR_DROP", call);
  });
  const model = sheetOfDrops(calls);
  const native = median(() => model.evaluate());
  requireSame(model, calls);
  model.free();
  console.log("CONDUCTOR_DROP            µs per call    ratio to native");
  row("through the runner", ours, native);
  row("native formula (IronCalc)", native, native);
  console.log(`${CALLS} pairs of values compared, all equal to 1e-12`);
}

/** The calls' arguments in columns A to D, the drop in E. @param {number[][]} calls */
function sheetOfDrops(calls) {
  const model = new Model("bench", "en", "UTC", "en");
  model.pauseEvaluation();
  calls.forEach((call, index) => {
    const at = index + 1;
    call.forEach((value, column) =>
      model.setUserInput(0, at, column + 1, String(value)),
    );
    const formula = `=A${at}*2*B${at}*(0.000000017241/(C${at}*0.000001))*(1+0.00393*(D${at}-20))`;
    model.setUserInput(0, at, 5, formula);
  });
  return model;
}

/** After the timing, as it fills column F: as text a cell shows every digit. @param {Model} model @param {number[][]} calls */
function requireSame(model, calls) {
  calls.forEach((_, index) =>
    model.setUserInput(0, index + 1, 6, `=E${index + 1}&""`),
  );
  model.evaluate();
  calls.forEach((call, index) => {
    const native = Number(model.getFormattedCellValue(0, index + 1, 6));
    const ours = answer("CONDUCTOR_DROP", call);
    if (!(Math.abs(native - ours) <= 1e-12 * ours))
      throw new Error(`the two differ for ${call}: ${native}, ${ours}`);
  });
}

/** @param {string} name @param {number} milliseconds @param {number} baseline */
function row(name, milliseconds, baseline) {
  const perCall = ((milliseconds * 1000) / CALLS).toFixed(2).padStart(11);
  const ratio = (milliseconds / baseline).toFixed(2).padStart(18);
  console.log(`${name.padEnd(26)}${perCall}${ratio}`);
}

function benchChain() {
  console.log(
    "\nCHAIN_SOLVE         ms    µs per row    growth for ten times the rows",
  );
  /** @type {number | undefined} */
  let before;
  for (const rows of ROWS) {
    const table = feedTable(rows);
    requireSolved(answer("CHAIN_SOLVE", [table]), rows);
    const time = median(() => answer("CHAIN_SOLVE", [table]));
    const perRow = ((time * 1000) / rows).toFixed(2).padStart(14);
    const growth =
      before === undefined ? "" : `    × ${(time / before).toFixed(1)}`;
    console.log(
      `${`${rows} rows`.padEnd(12)}${time.toFixed(2).padStart(10)}${perRow}${growth}`,
    );
    before = time;
  }
}

/** A trunk of runs; on each a ratio stage, a cable, a regulated stage and its load. @param {number} rows Without the header. */
function feedTable(rows) {
  const table = [
    ["Item", "Fed from", "Kind", ...FIGURES],
    feedRow("bus", "", "supply", { Voltage: 800, Resistance: 0.01 }),
  ];
  for (let index = 0; table.length + 5 <= rows + 1; index++)
    table.push(...branch(index));
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
  if (solved.length !== rows + 1)
    throw new Error(`${solved.length - 1} rows for ${rows}`);
}

/** @param {string} id @param {unknown[]} args */
function answer(id, args) {
  const outcome = evaluate(id, args);
  if (!outcome.ok) throw new Error(`${id}: ${outcome.message}`);
  return outcome.value;
}

/** Milliseconds. @param {() => void} work */
function median(work) {
  // For a time, not a count: a small table too is measured as compiled, and past a pause of the machine.
  timesOf(work, WARM_UP_MS);
  const times = timesOf(work, MEASURE_MS).sort((one, other) => one - other);
  return times[times.length >> 1] ?? 0;
}

/** @param {() => void} work @param {number} milliseconds In all. */
function timesOf(work, milliseconds) {
  /** @type {number[]} */
  const times = [];
  const end = performance.now() + milliseconds;
  do {
    const start = performance.now();
    work();
    times.push(performance.now() - start);
  } while (performance.now() < end);
  return times;
}
