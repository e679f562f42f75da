/**
 * Speed, as ratios against a baseline measured in the same run; nothing here passes or fails.
 *
 *   node scripts/bench.mjs           everything, a few minutes
 *   node scripts/bench.mjs feeds     one part: calls, feeds, files, layout, tradeoffs or workbench
 */
import { cpus } from "node:os";
import { benchCalls } from "./bench/calls.mjs";
import { benchFeeds } from "./bench/feeds.mjs";
import { benchFiles } from "./bench/files.mjs";
import { benchLayout } from "./bench/layout.mjs";
import { answersOf } from "./bench/measure.mjs";
import { benchTradeoffs } from "./bench/tradeoffs.mjs";
import { benchWorkbench } from "./bench/workbench.mjs";
import { loadTypeScript } from "./load-typescript.mjs";

const PARTS = {
  calls: benchCalls,
  feeds: benchFeeds,
  files: benchFiles,
  layout: benchLayout,
  tradeoffs: benchTradeoffs,
  workbench: benchWorkbench,
};

const answer = answersOf(await loadTypeScript("functions/runner.ts"));

const asked = process.argv.slice(2);
const unknown = asked.filter((part) => !(part in PARTS));
if (unknown.length > 0)
  throw new Error(`unknown: ${unknown.join(" ")}; one of ${Object.keys(PARTS).join(", ")}`);

const { cores, model } = {
  cores: cpus().length,
  model: cpus()[0]?.model.trim(),
};
console.log(`Node ${process.version}, ${cores} × ${model}\n`);
for (const [part, bench] of Object.entries(PARTS))
  if (asked.length === 0 || asked.includes(part)) await bench(answer);
process.exit(0);
