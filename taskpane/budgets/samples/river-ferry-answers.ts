/** What else the ferry is asked: its ratio beside another, its discharge, ratios that fit. */
import { call } from "../../../src/plans/sheet-builder.js";
import type { AnswerReach, AnswerTable, ColumnRange } from "../sample.js";

const PACK = "Traction pack";
const STAGE = "Hotel stage";
/** The type of that stage. */
const TYPE = "630 V to 52.5 V, 80 A";
export const OTHER_RATIO = "Another ratio to set beside it, steps down by";

export function ferryAnswers(reach: AnswerReach): AnswerTable[] {
  return [discharge(reach), ratios(reach), fittingRatios(reach)];
}

/** The lowest pack voltage less the drop of the solved current up to the stage. */
function lowestAtStage({ typed, solved }: AnswerReach): string {
  const drop = `${solved(PACK, "Input V")}-${solved(STAGE, "Input V")}`;
  return `${typed("Supply", PACK, "Lowest V")}-(${drop})`;
}

function ratios(reach: AnswerReach): AnswerTable {
  const { typed, solved, entered, figure } = reach;
  const pack = (header: string) => typed("Supply", PACK, header);
  const galley = (header: string) => typed("Load", "Galley and heating", header);
  const tolerance = typed("Stage", STAGE, "Tolerance");
  const droop = `${solved(STAGE, "Output A")}*${entered(STAGE, "Resistance")}`;
  const steps = [typed("Stage type", TYPE, "Steps down by"), figure(OTHER_RATIO)];
  const row = (label: string, index: number) => {
    const [by, own] = [steps[index]!, (range: string) => `INDEX(${range},${index + 1})`];
    return {
      label,
      values: [
        { formula: lowestAtStage(reach), format: "0.0" },
        {
          formula: (column: ColumnRange) => `${own(column(0))}/${by}*(1-${tolerance})-${droop}`,
          format: "0.0",
        },
        { formula: `${pack("Voltage")}/${by}`, format: "0.0" },
        {
          formula: call("SAFETY_WORST_VOLTAGE", pack("Highest V"), `1/${by}`, tolerance),
          format: "0.0",
        },
        {
          formula: (column: ColumnRange) => `${own(column(1))}-${galley("Lowest V")}`,
          format: "0.0",
        },
        {
          formula: (column: ColumnRange) => `${galley("Highest V")}-${own(column(3))}`,
          format: "0.0",
        },
      ],
    };
  };
  return {
    title: "Lowest and highest pack voltage through the ratio",
    how: "Lowest at the solved currents, their drop on the way counted; highest at no load with the tolerance (SAFETY_WORST_VOLTAGE), against the bus's highest.",
    headings: [
      "Ratio",
      "Stage input (V)",
      "Lowest (V)",
      "Nominal (V)",
      "Highest (V)",
      "Room below (V)",
      "Room above (V)",
    ],
    rows: [row("as entered", 0), row("beside it, the way out", 1)],
  };
}

function discharge({ typed, entered }: AnswerReach): AnswerTable {
  const highest = typed("Supply", PACK, "Highest V");
  const bleed = typed("Stage", STAGE, "Bleed");
  const farads = `${entered(STAGE, "Input capacitance")}/10^6`;
  return {
    title: "Discharge after the contactor opens",
    how: "SAFETY_DISCHARGE_TIME from the highest pack voltage to 60 V, which 5 s are common for; verify by measurement.",
    headings: ["Figure", "Value", "Unit"],
    rows: [
      {
        label: "Time to 60 V",
        values: [
          {
            formula: call("SAFETY_DISCHARGE_TIME", farads, highest, "60", bleed),
            format: "0.00",
          },
          "s",
        ],
      },
      {
        label: "Energy before it",
        values: [
          {
            formula: call("SAFETY_STORED_ENERGY", farads, highest),
            format: "0",
          },
          "J",
        ],
      },
      {
        label: "Power in the resistor as it is switched in",
        values: [{ formula: `${highest}^2/${bleed}`, format: "0" }, "W"],
      },
    ],
  };
}

function fittingRatios(reach: AnswerReach): AnswerTable {
  const { typed, solved, entered } = reach;
  const galley = (header: string) => typed("Load", "Galley and heating", header);
  return {
    title: "Whole ratios that fit the galley's window",
    how: "RATIO_CHOICES with the lowest stage input above, its drop counted; room as a share of that end of the window.",
    headings: ["Ratio", "Lowest (V)", "Highest (V)", "Room below (share)", "Room above (share)"],
    spill: {
      formula: (above) =>
        call(
          "RATIO_CHOICES",
          `INDEX(${above(0)},1)`,
          typed("Supply", PACK, "Highest V"),
          galley("Lowest V"),
          galley("Highest V"),
          typed("Stage", STAGE, "Tolerance"),
          solved(STAGE, "Output A"),
          entered(STAGE, "Resistance"),
        ),
      rows: 3,
      format: "0.000",
    },
  };
}
