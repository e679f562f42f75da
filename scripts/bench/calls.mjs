/** Every function that gives one number by one formula: a call through the runner against the same formula in IronCalc. */
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { initSync, Model } from "@ironcalc/wasm";
import { line, median } from "./measure.mjs";

const CALLS = 1_000;
const WARM_UP_MS = 150;
const MEASURE_MS = 400;
const WIDTHS = [28, 14, 16, 10];

/**
 * Arguments near which calls are made, and the formula of a sheet whose columns A, B, … hold them; `{n}` is the row. A
 * text stays as it is, a whole number with `!` too.
 * @type {readonly (readonly [id: string, args: readonly (number | string)[], formula: string])[]}
 */
const FORMULAS = [
  ["CONDUCTOR_RESISTANCE", [50, 4, 60], "2*A*0.000000017241/(B*0.000001)*(1+0.00393*(C-20))"],
  ["CONDUCTOR_DROP", [10, 50, 4, 60], "A*2*B*0.000000017241/(C*0.000001)*(1+0.00393*(D-20))"],
  ["CONDUCTOR_LOSS", [10, 50, 4, 60], "A^2*2*B*0.000000017241/(C*0.000001)*(1+0.00393*(D-20))"],
  ["CONDUCTOR_MASS", [300, 1.5], "2*A*B*0.000001*8890"],
  [
    "CONDUCTOR_WITHSTAND_TIME",
    [200, 1.5, 70, 160],
    "(SQRT(3450000*254.5/0.000000017241*LN((234.5+D)/(234.5+C)))*B*0.000001/A)^2",
  ],
  [
    "CONDUCTOR_ECONOMIC_AREA",
    [20, 4000, 0.2, 10, 0.05, 0.2, 40],
    "A*SQRT(2*0.017241*(1+0.00393*(G-20))*B*C*(1-(1+E)^(-D))/E/(1000*F))",
  ],
  ["CONDUCTOR_INDUCTANCE", [100, 3, 12], "0.0000004*A*(LN(2*C/B)+0.25)"],
  ["CONDUCTOR_CAPACITANCE", [100, 3, 12], "PI()*0.0000000000088541878128*A/ACOSH(C/B)"],
  ["CONDUCTOR_BUSBAR_AREA", [100, 6.3], "A*B"],
  ["CONDUCTOR_TRACE_CURRENT", [2, 35, 20, "outer"], "0.048*C^0.44*(A/0.0254*B/25.4)^0.725"],
  ["SUPPLY_VOLTAGE", [400, 4, 5000], "A*(1+SQRT(1-4*B*C/A^2))/2"],
  ["SUPPLY_LIMIT", [400, 4], "A^2/(4*B)"],
  ["SUPPLY_RECTIFIED", [230, 0.1], "A*SQRT(2)*(1+B)"],
  ["RATIO_OUTPUT", [384, 0.125, 40, 0.015], "A*B-C*D"],
  ["RATIO_INPUT_CURRENT", [40, 0.125, 384, 18], "A*B+D/C"],
  ["RATIO_LOSS", [384, 0.125, 40, 0.015, 18], "E+C^2*D"],
  ["RATIO_REFLECTED", [3.2, 0.125, "resistance"], "A*B^2"],
  ["STAGE_LOSS", [20, 6, 0.1, 0.01], "B+C*A+D*A^2"],
  ["STAGE_EFFICIENCY", [48, 20, 6, 0.1, 0.01], "A*B/(A*B+C+D*B+E*B^2)"],
  ["STAGE_DERATED", [600, 70, 50, 90], "A*MAX(0,MIN(1,(D-B)/(D-C)))"],
  ["CHAIN_EFFICIENCY", [0.9, 0.85, 0.93], "A*B*C"],
  [
    "PARALLEL_UNITS",
    [200, 70, 54, 0.001, 0.01, 0.1],
    "ROUNDUP(1+(A-B)/((B*E*(1-F)-2*C*D)/(E*(1+F))),0)",
  ],
  [
    "PARALLEL_WORST",
    [200, "4", 54, 0.001, 0.01, 0.1],
    "MIN(A,(A+3/(E*(1+F))*2*C*D)/(1+3/(E*(1+F))*E*(1-F)))",
  ],
  ["SAFETY_WORST_VOLTAGE", [440, 0.125, 0.02], "A*B*(1+C)"],
  ["SAFETY_DISCHARGE_TIME", [0.001, 400, 60, 2635.6], "D*A*LN(B/C)"],
  ["SAFETY_STORED_ENERGY", [0.001, 400], "0.5*A*B^2"],
  ["FAULT_CURRENT", [360, 0.3, 3.7], "A/(B+C)"],
  [
    "PROTECTED_LENGTH",
    [360, 0.3, 60, 4, 70],
    "(A/C-B)/(2*0.000000017241/(D*0.000001)*(1+0.00393*(E-20)))",
  ],
  ["HOLDUP_CAPACITANCE", [1000, 0.02, 400, 300, 0.9], "2*A*B/(E*(C^2-D^2))"],
  ["HOLDUP_TIME", [1000, 0.00068, 400, 300, 0.9], "E*B*(C^2-D^2)/(2*A)"],
  ["PRECHARGE_RESISTANCE", [0.001, 0.3, 0.9], "B/(A*LN(1/(1-C)))"],
  ["PRECHARGE_ENERGY", [0.001, 400, 0.9], "0.5*A*B^2*(1-(1-C)^2)"],
  ["PRESENT_COST", [1000, 0.25, 10, 0.08], "A*B*(1-(1+D)^(-C))/D"],
];

/** @param {(id: string, args: unknown[]) => unknown} answer */
export function benchCalls(answer) {
  initSync({
    module: readFileSync(createRequire(import.meta.url).resolve("@ironcalc/wasm/wasm_bg.wasm")),
  });
  line(["One call", "µs ours", "µs native", "ratio"], WIDTHS);
  for (const [id, base, formula] of FORMULAS) {
    const calls = callsNear(base);
    const ours = median(
      () => {
        for (const call of calls) answer(id, call);
      },
      WARM_UP_MS,
      MEASURE_MS,
    );
    const model = sheetOf(calls, formula);
    const native = median(() => model.evaluate(), WARM_UP_MS, MEASURE_MS);
    requireSame(id, model, calls, answer);
    model.free();
    const micro = (/** @type {number} */ ms) => ((ms * 1000) / CALLS).toFixed(2);
    line([id, micro(ours), micro(native), (ours / native).toFixed(2)], WIDTHS);
  }
  console.log(`${CALLS} calls of each, all equal to 1e-9 (IronCalc, evaluated as a sheet)\n`);
}

/** Each number of the base up to a twentieth larger. @param {readonly (number | string)[]} base */
function callsNear(base) {
  return Array.from({ length: CALLS }, (_, call) =>
    base.map((value, at) => {
      if (typeof value === "string") return /^\d+$/.test(value) ? Number(value) : value;
      return value * (1 + (0.05 * ((call * (at + 3)) % CALLS)) / CALLS);
    }),
  );
}

/** Arguments in the columns from A on, the formula in column H. @param {(number | string)[][]} calls @param {string} formula */
function sheetOf(calls, formula) {
  const model = new Model("bench", "en", "UTC", "en");
  model.pauseEvaluation();
  calls.forEach((call, index) => {
    const row = index + 1;
    call.forEach((value, column) => model.setUserInput(0, row, column + 1, String(value)));
    // A letter that stands alone is a column; SQRT, MIN and the like are not.
    const native = formula.replace(/\b[A-G]\b/g, (column) => `${column}${row}`);
    model.setUserInput(0, row, 8, `=${native}`);
  });
  return model;
}

/** After the timing, as it fills a column: as text a cell shows every digit. */
function requireSame(id, model, calls, answer) {
  calls.forEach((_, index) => model.setUserInput(0, index + 1, 9, `=H${index + 1}&""`));
  model.evaluate();
  calls.forEach((call, index) => {
    const native = Number(model.getFormattedCellValue(0, index + 1, 9));
    const ours = Number(answer(id, call));
    if (!(Math.abs(native - ours) <= 1e-9 * Math.abs(ours)))
      throw new Error(`${id} of ${call}: native ${native}, ours ${ours}`);
  });
}
