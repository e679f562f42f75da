/** Which of the inputs that may vary matter for a result of a feed. */
import {
  type FeedTornado,
  feedTornado,
  type TornadoLine,
} from "../../src/sensitivity/feed-tornado.js";
import { perUnit, tornadoWorking } from "../../src/sensitivity/tornado-steps.js";
import { inputUnit } from "../../src/sensitivity/varied-inputs.js";
import type { Cell, CellTable } from "../cells.js";
import { defineEntry, type ShownStep } from "../entry.js";
import { inputName } from "../reading/spread/spread-block.js";
import {
  callNote,
  caseParameters,
  type VariedCall,
  VARIED_EXAMPLE,
  variedCall,
  variedCaveats,
  variedParameters,
} from "../reading/spread/varied-call.js";
import { NONE } from "./chain.js";

/** Headers of the result, in an order that people count on. */
export const TORNADO_COLUMNS = [
  "Input",
  "Unit",
  "Low",
  "High",
  "Low gives",
  "High gives",
  "Swing",
  "Slope",
  "Slope unit",
  "Note",
] as const;

/** Rows of the result above the first input: headers, and the result as entered. */
const ROWS_ABOVE = 2;

/** What a table of inputs moved one by one leaves out, said once. */
const ONE_AT_A_TIME = "one input at a time is moved, the rest stay as entered";
const NOTHING_VARIES =
  "nothing varies: no row has a Tolerance, no supply a window, and no spread is given";

/** Note of a figure that has a slope and no ends. */
export const SLOPE_ONLY = "exact, or nothing says how far it may vary: its slope only";

interface Tornado extends FeedTornado {
  readonly call: VariedCall;
}

const chainTornado = defineEntry({
  id: "CHAIN_TORNADO",
  family: "chain",
  parameters: { ...variedParameters, ...caseParameters },
  result: {
    shape: "table",
    unit: "of the quantity and of each input",
  },
  example: {
    args: [VARIED_EXAMPLE, "loss"],
  },
  citations: ["two-roots", "monotone-newton", "adjoint-network"],
  copied: { verdicts: [] },
  read: variedCall,
  calculate: (call): Tornado => ({
    ...feedTornado(call.feed, call.asked, call.inputs),
    call,
  }),
  cells: tornadoTable,
  cellOf: tornadoStep,
  caveats: ({ call }) => variedCaveats(call, "swing"),
  working: (_, tornado) =>
    linesOf(tornado).map((line) => tornadoWorking(tornado, line, lineName(tornado, line))),
});

function tornadoTable(tornado: Tornado): CellTable {
  const { quantity, nominal, lines, call } = tornado;
  const nothing = call.leftOut === "" ? NOTHING_VARIES : `${NOTHING_VARIES}; ${call.leftOut}`;
  const note = lines.length === 0 ? nothing : callNote(call, ONE_AT_A_TIME);
  return [
    [...TORNADO_COLUMNS],
    ["as entered", quantity.unit, NONE, NONE, nominal, nominal, 0, NONE, "", note],
    ...linesOf(tornado).map((line) => lineCells(tornado, line)),
  ];
}

/** What varies, and below it what has a slope only. */
function linesOf({ lines, slopesOnly }: Tornado): readonly TornadoLine[] {
  return [...lines, ...slopesOnly];
}

function lineCells(tornado: Tornado, line: TornadoLine): Cell[] {
  const { quantity, feed } = tornado;
  const { inputs, lowGives, highGives, swing, slope } = line;
  const [only] = inputs.length === 1 ? inputs : [];
  const unit = only && inputUnit(feed.columns, only);
  const isVaried = tornado.lines.includes(line);
  const ends = isVaried ? only : undefined;
  return [
    lineName(tornado, line),
    unit ?? "",
    ends?.low ?? NONE,
    ends?.high ?? NONE,
    lowGives ?? NONE,
    highGives ?? NONE,
    swing ?? NONE,
    slope ?? NONE,
    unit === undefined ? "" : perUnit(quantity.unit, unit),
    isVaried ? lineNote(tornado, line) : SLOPE_ONLY,
  ];
}

function lineName({ movable }: Tornado, { inputs }: TornadoLine): string {
  const [first] = inputs;
  return inputs.length === 1 ? inputName(movable, first!) : `Group ${first!.group!}`;
}

function lineNote(
  { movable, quantity }: Tornado,
  { inputs, lowGives, highGives }: TornadoLine,
): string {
  const missing = [
    ...(lowGives === undefined ? ["low"] : []),
    ...(highGives === undefined ? ["high"] : []),
  ].map((end) => `no operating point, or no ${quantity.name}, at the ${end} end`);
  const together =
    inputs.length === 1
      ? []
      : [`moved together: ${inputs.map((input) => inputName(movable, input)).join(", ")}`];
  return [...together, ...missing].join("; ");
}

const COLUMN_STEPS: Partial<Readonly<Record<(typeof TORNADO_COLUMNS)[number], keyof TornadoLine>>> =
  {
    "Low gives": "lowGives",
    "High gives": "highGives",
    Swing: "swing",
    Slope: "slope",
  };

function tornadoStep(tornado: Tornado, row: number, column: number): ShownStep | undefined {
  const heading = TORNADO_COLUMNS[column];
  const step = heading && COLUMN_STEPS[heading];
  const working = row - ROWS_ABOVE;
  if (step === undefined || linesOf(tornado)[working]?.[step] === undefined) return undefined;
  return { working, step };
}

export const chainTornadoEntries = [chainTornado];
