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

const WARM_UP = 5;
const ROUNDS = 9;
const CALLS = 5_000;
const ROWS = [100, 1_000, 10_000];

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
  const ours = median(() => {
    for (let call = 0; call < CALLS; call++)
      answer("CONDUCTOR_DROP", [1 + call / CALLS, 50, 2.5, 70]);
  });
  const model = sheetOfDrops();
  const native = median((round) => {
    // A new length works out every formula anew, once.
    model.setUserInput(0, 1, 2, String(50 + round));
  });
  model.setUserInput(0, 1, 2, "50");
  requireSame(
    Number(model.getFormattedCellValue(0, 1, 6)),
    answer("CONDUCTOR_DROP", [1 + (CALLS - 1) / CALLS, 50, 2.5, 70]),
  );
  console.log("CONDUCTOR_DROP            µs per call    ratio to native");
  row("through the runner", ours, native);
  row("native formula (IronCalc)", native, native);
}

/** Current in column A, length in B1, the drop in E, the last one's digits in F1. */
function sheetOfDrops() {
  const model = new Model("bench", "en", "UTC", "en");
  model.pauseEvaluation();
  model.setUserInput(0, 1, 2, "50");
  for (let index = 0; index < CALLS; index++) {
    model.setUserInput(0, index + 1, 1, String(1 + index / CALLS));
    const formula = `=A${index + 1}*2*$B$1*(0.000000017241/(2.5*0.000001))*(1+0.00393*(70-20))`;
    model.setUserInput(0, index + 1, 5, formula);
  }
  // As text a cell shows every digit.
  model.setUserInput(0, 1, 6, `=E${CALLS}&""`);
  model.resumeEvaluation();
  return model;
}

/** @param {string} name @param {number} milliseconds @param {number} baseline */
function row(name, milliseconds, baseline) {
  const perCall = ((milliseconds * 1000) / CALLS).toFixed(2).padStart(11);
  const ratio = (milliseconds / baseline).toFixed(2).padStart(18);
  console.log(`${name.padEnd(26)}${perCall}${ratio}`);
}

function benchChain() {
  console.log("\nCHAIN_SOLVE       ms    growth for ten times the rows");
  /** @type {number | undefined} */
  let before;
  for (const rows of ROWS) {
    const table = feedTable(rows);
    const time = median(() => answer("CHAIN_SOLVE", [table]));
    const growth =
      before === undefined ? "" : `× ${(time / before).toFixed(1)}`;
    console.log(
      `${`${rows} rows`.padEnd(12)}${time.toFixed(2).padStart(8)}    ${growth}`,
    );
    before = time;
  }
}

/** A trunk of runs with a stage, a run and a load hanging on each. @param {number} rows */
function feedTable(rows) {
  /** @type {(string | number)[][]} */
  const table = [
    ["Item", "Fed from", "Kind", "Voltage", "Resistance", "Ratio", "Load"],
    ["bus", "", "supply", 800, 0.01, "", ""],
  ];
  for (let index = 0; table.length + 4 <= rows + 1; index++) {
    const trunk = index === 0 ? "bus" : `trunk ${index - 1}`;
    table.push(
      [`trunk ${index}`, trunk, "run", "", 1e-6, "", ""],
      [`stage ${index}`, `trunk ${index}`, "ratio", "", 0.02, 1 / 16, ""],
      [`cable ${index}`, `stage ${index}`, "run", "", 0.05, "", ""],
      [`load ${index}`, `cable ${index}`, "power load", "", "", "", 20],
    );
  }
  return table;
}

/** @param {string} id @param {unknown[]} args */
function answer(id, args) {
  const outcome = evaluate(id, args);
  if (!outcome.ok) throw new Error(`${id}: ${outcome.message}`);
  return outcome.value;
}

/** Milliseconds. @param {(round: number) => void} work */
function median(work) {
  for (let round = 0; round < WARM_UP; round++) work(-round);
  const times = Array.from({ length: ROUNDS }, (_, round) => {
    const start = performance.now();
    work(round + 1);
    return performance.now() - start;
  });
  return times.sort((one, other) => one - other)[ROUNDS >> 1] ?? 0;
}

/** @param {number} native @param {number} ours */
function requireSame(native, ours) {
  if (!(Math.abs(native - ours) <= 1e-12 * ours))
    throw new Error(`the two differ: ${native}, ${ours}`);
}
